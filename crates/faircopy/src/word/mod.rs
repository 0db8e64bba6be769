//! The report as a DOCX to edit: ISO/IEC 29500 (Office Open XML), with real headings, captions, tables, pictures and
//! references that word processors keep right when something is moved.
//!
//! Written as XML by ourselves, because the library at hand has neither words for pictures, nor numbered captions, nor
//! heads of tables that repeat. The package follows ISO/IEC 29500-1 and -2, from memory of them; it is read back in the
//! tests by independent readers of ZIP and XML.

mod appendices;
mod body;
mod findings;
mod front;
mod issue;
mod package;
mod pictures;
mod pieces;
mod reckoned;
mod styles;
mod tables;
mod xml;

use crate::Document;
use crate::prints::Prints;
use body::Body;
use jiff::civil::DateTime;

/// Width and height of a sheet of paper, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sides {
    /// Width.
    pub width_mm: f64,
    /// Height.
    pub height_mm: f64,
}

impl Sides {
    /// A4, ISO 216.
    pub const A4: Self = Self { width_mm: 210.0, height_mm: 297.0 };
    /// 8 1/2 in by 11 in.
    pub const LETTER: Self = Self { width_mm: 215.9, height_mm: 279.4 };
}

/// What is not in the document but must be settled.
#[derive(Clone, Debug)]
pub struct WordOptions<'a> {
    /// The paper.
    pub paper: Sides,
    /// When the file is made, in Universal Time.
    pub made: DateTime,
    /// Photographs ready for print.
    pub prints: &'a Prints,
    /// The drawings as PNG pictures, in their order, for programs that cannot show SVG; may be shorter than the list of
    /// drawings, which are then there as SVG only.
    pub drawings_png: &'a [Vec<u8>],
}

/// Why there is no file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WordFault {
    /// The parts could not be put together; this is a fault of ours, not of the survey, and worth reporting.
    #[error("the document could not be put together: {0}")]
    Package(String),
}

/// Writes a document as DOCX. The same document and options give the same bytes. Pictures that cannot be shown have a
/// box in their place that says why, as in the PDF.
///
/// # Errors
/// [`WordFault::Package`] when the parts cannot be put together.
pub fn docx(document: &Document, options: &WordOptions<'_>) -> Result<Vec<u8>, WordFault> {
    let mut body = Body::new(document, options);
    front::write(&mut body, document);
    findings::write(&mut body, document);
    issue::evidence(&mut body, document);
    reckoned::write(&mut body, document);
    front::write_end(&mut body, document);
    issue::certificate(&mut body, document);
    appendices::write(&mut body, document);
    package::put_together(document, options, body).map_err(WordFault::Package)
}
