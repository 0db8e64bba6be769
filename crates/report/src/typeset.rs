//! From a document to a PDF.

use crate::letters::Range;
use crate::pictures::{Pictures, prepare};
use crate::script::Script;
use crate::world::ReportWorld;
use crate::{Document, PictureFault, script};
use faircopy::prints::Prints;
use jiff::civil::DateTime;
use typst::foundations::{Datetime, Smart};
use typst::layout::{Frame, FrameItem};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

/// Reports after which what the typesetter remembers is forgotten.
pub(crate) const REMEMBERED_REPORTS: usize = 3;

/// The paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8 1/2 in by 11 in.
    Letter,
}

impl Paper {
    pub(crate) fn name(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "us-letter",
        }
    }
}

/// What is not in the document but must be settled for a file to come out the same every time.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// The paper.
    pub paper: Paper,
    /// A name for this report that no other has: survey and version. The file's identifier is made from it.
    pub ident: String,
    /// When it is made, in Universal Time.
    pub made: DateTime,
}

/// A finished report.
#[derive(Clone, Debug, PartialEq)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// Number of pages.
    pub pages: usize,
    /// Pictures that could not be printed, by digest, with the reason. In their place the report has a box that says so.
    pub picture_faults: Vec<(String, PictureFault)>,
    /// Characters replaced by their number because no font has them or because they could mislead.
    pub letters_replaced: usize,
    /// Whether the wide range of letters failed and the report was set again with plain ones only.
    pub set_plainly: bool,
}

/// Why there is no report.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The typesetter refused; this is a fault of ours, not of the survey, and worth reporting.
    #[error("the report could not be typeset: {0}")]
    Typesetting(String),
    /// The parts of a file to edit could not be put together; a fault of ours likewise.
    #[error("the report could not be written: {0}")]
    Writing(String),
}

/// Sets a document as a PDF that conforms to PDF/A-2a and PDF/UA-1 together.
///
/// The same document, pictures and options give the same bytes. Blocks while it works; on a server call it where
/// blocking is allowed.
///
/// # Errors
/// [`Error::Typesetting`] when the typesetter refuses twice, the second time with plain letters only. Pictures that
/// cannot be read are not errors: see [`Pdf::picture_faults`].
pub fn typeset(document: &Document, pictures: Pictures<'_>, options: &Options) -> Result<Pdf, Error> {
    let prints = prepare(document.prints_wanted(), pictures);
    let result = set(document, &prints, options, Range::Wide)
        .or_else(|_first| set(document, &prints, options, Range::Plain).map(|pdf| Pdf { set_plainly: true, ..pdf }));
    typst::comemo::evict(REMEMBERED_REPORTS);
    result
}

/// Lays a document out on its pages.
pub(crate) fn lay_out(
    document: &Document,
    prints: &Prints,
    options: &Options,
    range: Range,
) -> Result<(PagedDocument, Script), Error> {
    let refused = |why: &dyn std::fmt::Display| Error::Typesetting(why.to_string());
    let mut script = script::write(document, prints, options, range).map_err(|why| refused(&why))?;
    let files = std::mem::take(&mut script.files);
    let world = ReportWorld::new(files).ok_or_else(|| refused(&"a file has an impossible name"))?;
    let paged: PagedDocument = typst::compile(&world).output.map_err(|faults| refused(&said(&faults)))?;
    if paged.pages().iter().any(|page| lacks_a_glyph(&page.frame)) {
        return Err(refused(&"a letter is in no font"));
    }
    Ok((paged, script))
}

fn set(document: &Document, prints: &Prints, options: &Options, range: Range) -> Result<Pdf, Error> {
    let (paged, script) = lay_out(document, prints, options, range)?;
    let bytes = pdf_of(&paged, options)?;
    Ok(Pdf {
        bytes,
        pages: paged.pages().len(),
        picture_faults: script.picture_faults,
        letters_replaced: script.letters_replaced,
        set_plainly: false,
    })
}

/// Writes pages as a file that is both PDF/A-2a and PDF/UA-1.
pub(crate) fn pdf_of(paged: &PagedDocument, options: &Options) -> Result<Vec<u8>, Error> {
    let refused = |why: &dyn std::fmt::Display| Error::Typesetting(why.to_string());
    let standards =
        PdfStandards::new(&[PdfStandard::A_2a, PdfStandard::Ua_1]).map_err(|why| refused(&why.message()))?;
    let made = options.made;
    let number = |n: i8| u8::try_from(n).unwrap_or(0);
    let made = Datetime::from_ymd_hms(
        i32::from(made.year()),
        number(made.month()),
        number(made.day()),
        number(made.hour()),
        number(made.minute()),
        number(made.second()),
    );
    let pdf_options = PdfOptions {
        ident: Smart::Custom(options.ident.clone()),
        creator: Smart::Custom(Some("Ribband".to_owned())),
        timestamp: made.map(Timestamp::new_utc),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(paged, &pdf_options).map_err(|faults| refused(&said(&faults)))
}

pub(crate) fn said(faults: &[typst::diag::SourceDiagnostic]) -> String {
    let one = |fault: &typst::diag::SourceDiagnostic| {
        let hints: String = fault.hints.iter().map(|hint| format!(" ({})", hint.v)).collect();
        format!("{}{hints}", fault.message)
    };
    faults.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// Tells whether a letter was set for which no font has a shape.
fn lacks_a_glyph(frame: &Frame) -> bool {
    frame.items().any(|(_, item)| match item {
        FrameItem::Group(group) => lacks_a_glyph(&group.frame),
        FrameItem::Text(text) => text.glyphs.iter().any(|glyph| glyph.id == 0),
        _ => false,
    })
}
