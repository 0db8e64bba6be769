//! One sheet as a PDF of its own size, to be printed or sent to a yard.

use crate::letters::Range;
use crate::plan;
use crate::world::ReportWorld;
use crate::{Error, Options};
use drawing::Sheet;
use serde_json::json;
use typst_layout::PagedDocument;

/// Typesets one sheet at its own size. The lines stay lines, its lettering stays text, and what it shows is said for those
/// who cannot see it.
///
/// # Errors
/// [`Error::Typesetting`] when the typesetter refuses.
pub fn drawn(sheet: &Sheet, options: &Options) -> Result<Vec<u8>, Error> {
    let refused = |why: &dyn std::fmt::Display| Error::Typesetting(why.to_string());
    let set = |range: Range| -> Result<Vec<u8>, Error> {
        let (svg, _) = plan::svg(sheet, range);
        let about = json!({
            "title": if sheet.title.is_empty() { "Drawing" } else { &sheet.title },
            "alternative": if sheet.description.is_empty() { &sheet.title } else { &sheet.description },
            "width_mm": sheet.width_mm.max(1.0),
            "height_mm": sheet.height_mm.max(1.0),
        });
        let about = serde_json::to_vec(&about).map_err(|why| refused(&why))?;
        let files = [("sheet.svg".to_owned(), svg.into_bytes()), ("sheet.json".to_owned(), about)];
        let world =
            ReportWorld::beginning("sheet.typ", files).ok_or_else(|| refused(&"a file has an impossible name"))?;
        let paged: PagedDocument =
            typst::compile(&world).output.map_err(|faults| refused(&crate::typeset::said(&faults)))?;
        crate::typeset::pdf_of(&paged, options)
    };
    set(Range::Wide).or_else(|_first| set(Range::Plain))
}
