//! The fair copy: from the record of a survey to everything its report says, as plain Rust.
//!
//! For: composing a [`Document`] from the state of a survey, and making photographs ready to be printed. Needs no
//! typesetter, so that the phone under the boat can show what the report will say. Not for: concluding anything,
//! changing the surveyor's words, reading a disk or a clock, laying out pages (that is the room `report`).
//!
//! Read first: [`Document`], [`compose()`].
//!
//! ```
//! use faircopy::{Extras, compose};
//! let state = survey::State::fold(survey::SurveyId::from_bits(1), []);
//! let document = compose(&state, &Extras::default());
//! assert!(document.parts.is_empty());
//! ```

mod compose;
mod document;
mod page;
pub mod photograph;
pub mod prints;
pub mod sheet;
mod style;
pub mod word;

pub use compose::{Describe, Extras, Issuing, Measured, compose, yard_list};
pub use document::*;
pub use page::page;
pub use photograph::{MOST_MEGAPIXELS, PictureFault};
pub use style::{LetterSize, Limitation, PaperName, Style, Units};
