//! What a surveyor needs to know of wood: which wood it is, how wet, how it moves, dries, bears load and lasts.
//!
//! For: species and their figures, equilibrium moisture, movement, drying of a plank, seams, moisture meters,
//! strength, decay resistance, speed of sound. Not for: fastenings in the wood, hull loads, borers (rooms of their own).
//! No input or output, no clock; the tables are embedded. Every figure says whether it was read in its source,
//! worked out, or set down from memory, and where sources disagree it carries the range.
//!
//! Read first: [`species::find`], [`Known`], [`movement::of_width`], [`drying::dry`], [`seam::forecast`].
//!
//! ```
//! let larch = timber::species::find("larch").expect("a trade name");
//! assert_eq!(larch.botanical, "Larix decidua");
//! let oak = timber::species::find("white oak").expect("in the table");
//! let gravity = oak.gravity_basic.expect("known");
//! assert_eq!(gravity.value, 0.60);
//! assert!(timber::species::find("wite oak").unwrap_err().to_string().contains("white oak"));
//! ```

pub mod decay;
pub mod drying;
mod fault;
pub mod heart;
mod known;
pub mod meter;
pub mod moisture;
pub mod movement;
pub mod ring;
pub mod seam;
pub mod sound;
pub mod species;
pub mod strength;
mod table_text;

pub use fault::Fault;
pub use known::{Known, Mark, Rating};
