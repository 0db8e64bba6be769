//! The written report: from the record of a survey to a PDF that one would gladly sign.
//!
//! For: laying out a [`Document`] with its photographs and drawings as one file that conforms to PDF/A-2a and
//! PDF/UA-1, the same bytes for the same input. Not for: concluding anything, changing the surveyor's words,
//! reading a disk or a clock (photographs come through [`Pictures`], dates through [`Options`]).
//!
//! Read first: [`Document`], [`typeset()`], [`compose()`] (which makes the document from the record of a survey).
//!
//! ```
//! use report::{Document, Options, Paper, Pictures, typeset};
//! let document = Document { title: "Survey".into(), vessel_name: "Nobody's Boat".into(), ..Document::default() };
//! let made = jiff::civil::date(2026, 6, 3).at(12, 0, 0, 0);
//! let options = Options { paper: Paper::A4, ident: "example 1".into(), made };
//! let pdf = typeset(&document, Pictures::none(), &options)?;
//! assert!(pdf.bytes.starts_with(b"%PDF-1.7"));
//! # Ok::<(), report::Error>(())
//! ```

mod drawn;
mod editable;
mod fonts;
mod letters;
mod pages;
mod pictures;
mod plan;
mod script;
mod typeset;
mod world;

pub use drawn::drawn;
pub use editable::{Docx, docx};
pub use faircopy::*;
pub use pages::{Pages, pages};
pub use pictures::{Pictures, ReadPicture, prepare};
pub use typeset::{Error, Options, Paper, Pdf, typeset};
