//! What a form asks: fields over the JSON of a payload, what was typed into them, and the reading of it.
//!
//! A form is a table of fields, each with the dotted name of what it fills (`reading.depth_mm`). Typed text becomes the
//! payload's JSON, which the room `survey` reads strictly; no second copy of any rule is kept here.

mod choices;
mod field;
mod kinds;
mod typed;

pub use choices::{Choice, named, words};
pub use field::{Field, Kind};
pub use kinds::{
    BRIEF, COMPARABLE, CONDITIONS, ESTIMATE_LINE, FINDING, FOLLOW_UP, HULL_FORM, INSTRUMENT, MEMBER_HAD, NOT_SEEN,
    OBSERVATION, OPINION_OF_VALUE, RECOMMENDATION, VESSEL, fields_of, kind_in_words,
};
pub use typed::{FieldFault, Typed, fill, read, row_numbers, understood};
