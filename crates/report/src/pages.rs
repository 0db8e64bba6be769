//! From a document to its pages as pictures, to be looked at before anything is printed.

use crate::letters::Range;
use crate::pictures::{Pictures, prepare};
use crate::typeset::{REMEMBERED_REPORTS, lay_out};
use crate::{Document, Error, Options};
use typst_layout::PagedDocument;
use typst_svg::{SvgOptions, svg};

/// A report laid out on its pages: the same layout as in the PDF.
#[derive(Debug)]
pub struct Pages {
    laid_out: PagedDocument,
}

impl Pages {
    /// Returns how many pages there are.
    pub fn count(&self) -> usize {
        self.laid_out.pages().len()
    }

    /// Draws a page, counted from 1, as SVG: letters as outlines, pictures inside. None where there is no such page.
    pub fn svg(&self, number: usize) -> Option<String> {
        let page = self.laid_out.pages().get(number.checked_sub(1)?)?;
        Some(svg(page, &SvgOptions::default()))
    }
}

/// Lays a document out on its pages, as [`crate::typeset()`] does.
///
/// # Errors
/// [`Error::Typesetting`] when the typesetter refuses twice, the second time with plain letters only.
pub fn pages(document: &Document, pictures: Pictures<'_>, options: &Options) -> Result<Pages, Error> {
    let prints = prepare(document.prints_wanted(), pictures);
    let laid_out = lay_out(document, &prints, options, Range::Wide)
        .or_else(|_first| lay_out(document, &prints, options, Range::Plain))
        .map(|(laid_out, _)| laid_out);
    typst::comemo::evict(REMEMBERED_REPORTS);
    Ok(Pages { laid_out: laid_out? })
}
