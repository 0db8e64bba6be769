//! Invented walks round invented boats: a hammer, planks, talk and a yard, made by arithmetic, with the truth known.
//!
//! For: tests, benchmarks and demonstrations of the room `sounding`. Not for: evidence. A walk made here follows a simple
//! model of physics and of speech; a finder that does well on it has shown that its code works, **not** that it works on
//! boats. Say so wherever a figure from here is shown.
//!
//! Read first: [`Walk`], [`Setting`].
//!
//! ```
//! let walk = rehearsal::Walk::new(&rehearsal::Setting { seconds: 20.0, ..Default::default() });
//! assert!(!walk.blows.is_empty());
//! ```

mod dice;
mod filter;
mod place;
mod strike;
mod voice;
mod walk;
mod yard;

pub use dice::Dice;
pub use filter::Filter;
pub use strike::{Hammer, Mechanism, Member, Sound, Strike, Struck};
pub use voice::Voice;
pub use walk::{Setting, Talk, TrueBlow, Walk};
pub use yard::Noise;
