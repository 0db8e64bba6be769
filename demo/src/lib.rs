//! *Marram*: an invented boat and an invented survey of her, told as a careful surveyor would write it down.
//!
//! For: the demo, and whoever wants to see a whole field book with every kind of entry in it. Boat, people, places,
//! money and pictures are made up and say so. Not for: teaching what a real boat is worth or needs.
//!
//! The field book is `marram/entries.jsonl`, one line an entry, written by two devices that meet now and then. The
//! pictures are drawings, made by `pictures/draw.py`.
//!
//! Read first: [`marram()`], [`Demo`], [`DemoFault`].
//!
//! ```
//! let demo = demo::marram().expect("the demo's own field book is in order");
//! let state = survey::State::fold(demo.survey, demo.entries);
//! assert_eq!(state.vessel().expect("she has particulars").payload.name, "Marram");
//! assert!(state.brief().expect("there is a brief").payload.invented.is_some());
//! ```

mod fault;
mod field_book;
mod name;
mod pictures;
mod stand_in;

pub use fault::DemoFault;
pub use field_book::{Demo, written_from};
pub use pictures::Picture;

/// The field book's lines, as they stand in the source.
pub const ENTRIES: &str = include_str!("../marram/entries.jsonl");

/// The first letter that went to the client, whose digest the field book names.
pub const LETTER: &str = include_str!("../marram/letter.txt");

/// Returns Marram's field book: the same entries, bytes and digests every time.
///
/// # Errors
/// A line of the embedded field book that cannot be entered; the tests see to it that there is none.
pub fn marram() -> Result<Demo, DemoFault> {
    written_from(ENTRIES)
}
