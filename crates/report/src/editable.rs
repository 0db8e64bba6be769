//! The same report as a DOCX to edit.

use crate::letters::Range;
use crate::pictures::{Pictures, prepare};
use crate::{Document, Error, Options, Paper, PictureFault, fonts, plan};
use drawing::Sheet;
use faircopy::word::{Sides, WordOptions};
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg;
use std::sync::{Arc, OnceLock};

/// Dots to the inch of a drawing for programs that cannot show SVG.
const DRAWING_DPI: f32 = 200.0;
/// Longest side of such a picture, in dots.
const MOST_DOTS: f32 = 4000.0;

/// A report to edit.
#[derive(Clone, Debug, PartialEq)]
pub struct Docx {
    /// The file.
    pub bytes: Vec<u8>,
    /// Pictures that could not be shown, by digest, with the reason. In their place the report has a box that says so.
    pub picture_faults: Vec<(String, PictureFault)>,
}

/// Writes a document as DOCX, with its photographs and drawings. The same document, pictures and options give the same
/// bytes. Blocks while it works.
///
/// # Errors
/// [`Error::Writing`] when the parts cannot be put together. Pictures that cannot be read are not errors.
pub fn docx(document: &Document, pictures: Pictures<'_>, options: &Options) -> Result<Docx, Error> {
    let wanted = document.prints_wanted();
    let prints = prepare(wanted.clone(), pictures);
    let drawings_png: Vec<Vec<u8>> = document.drawings().map(|plan| png(&plan.sheet).unwrap_or_default()).collect();
    let paper = match options.paper {
        Paper::A4 => Sides::A4,
        Paper::Letter => Sides::LETTER,
    };
    let options = WordOptions { paper, made: options.made, prints: &prints, drawings_png: &drawings_png };
    let bytes = faircopy::word::docx(document, &options).map_err(|why| Error::Writing(why.to_string()))?;
    let fault = |one: faircopy::prints::Wanted| match prints.get(&one) {
        Some(Err(why)) => Some((one.sha256, why.clone())),
        _ => None,
    };
    Ok(Docx { bytes, picture_faults: wanted.into_iter().filter_map(fault).collect() })
}

/// Draws a sheet in dots, on white paper, lettered in our own fonts. None where it cannot be drawn.
fn png(sheet: &Sheet) -> Option<Vec<u8>> {
    let (svg, _) = plan::svg(sheet, Range::Wide);
    let options = usvg::Options {
        font_family: "Source Sans 3".to_owned(),
        fontdb: Arc::clone(letters()),
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_str(&svg, &options).ok()?;
    let size = tree.size();
    // The reader of SVG takes 96 dots to the inch.
    let scale = (DRAWING_DPI / 96.0).min(MOST_DOTS / size.width().max(size.height()));
    let dots = |side: f32| (side * scale).ceil().max(1.0) as u32;
    let mut picture = Pixmap::new(dots(size.width()), dots(size.height()))?;
    picture.fill(Color::WHITE);
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    picture.encode_png().ok()
}

fn letters() -> &'static Arc<usvg::fontdb::Database> {
    static LETTERS: OnceLock<Arc<usvg::fontdb::Database>> = OnceLock::new();
    LETTERS.get_or_init(|| {
        let mut all = usvg::fontdb::Database::new();
        fonts::FILES.iter().for_each(|file| all.load_font_data(file.to_vec()));
        all.set_sans_serif_family("Source Sans 3");
        all.set_serif_family("Source Serif 4");
        Arc::new(all)
    })
}
