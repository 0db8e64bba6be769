//! Samples to blows, blows to features, features to a judgement against sound wood of the same boat.
//!
//! For: finding hammer blows among talk and yard noise in a stream of samples, from a file or a live microphone; describing
//! each; judging it against blows on places of the same boat that the surveyor calls sound; drawing the result along the
//! planking. Not for: reading files (`recording`), telling on what a blow fell (`walk`), or concluding anything: a clear ring
//! is no proof of sound wood, and only probing or boring tells what a dull one meant.
//!
//! The weights by which blows are told and judged were chosen on **invented** sounds (`rehearsal`). What they are worth on
//! boats nobody has measured; `docs/sounding.md` says what is known.
//!
//! Read first: [`Listener`], [`Blow`], [`judge::Judge`], [`field`].
//!
//! ```
//! let mut listener = sounding::Listener::new();
//! let mut blows = listener.push(&[0.0; 4800]); // samples at 48 kHz, in blocks of any size
//! blows.extend(listener.finish());
//! assert!(blows.is_empty());
//! ```

mod blow;
mod cholesky;
mod db;
pub mod describe;
pub mod field;
pub mod filter;
pub mod judge;
pub mod listen;
pub mod session;
mod spectrum;
mod table;

pub use blow::Blow;
pub use listen::Listener;

/// Samples per second of the engine.
pub const RATE_HZ: u32 = 48_000;
