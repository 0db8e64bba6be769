//! Which prints of photographs a document needs, and in what boxes.

use crate::photograph::Print;
use crate::{Document, Picture, PictureFault};
use std::collections::BTreeMap;

/// Pixels to the inch at printed size.
pub const PRINT_DPI: f64 = 200.0;
/// Millimetres in an inch.
pub const MM_PER_INCH: f64 = 25.4;

/// Boxes in which pictures are printed, in millimetres: the boat's portrait, one alone, two side by side.
const PORTRAIT_MM: (f64, f64) = (156.0, 96.0);
const ALONE_MM: (f64, f64) = (112.0, 84.0);
const PAIRED_MM: (f64, f64) = (75.0, 60.0);
/// The room above the name for a signature drawn by hand, in millimetres.
pub const HAND_MM: (f64, f64) = (60.0, 20.0);

/// A print that is wanted: which original, and the box in which it must fit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Wanted {
    /// SHA-256 of the original, in lower-case hexadecimal.
    pub sha256: String,
    /// The box, width and height in pixels.
    pub box_px: (u32, u32),
}

impl Wanted {
    /// Returns the print of a picture for a box in millimetres.
    pub fn of(picture: &Picture, room_mm: (f64, f64)) -> Self {
        let px = |mm: f64| (mm / MM_PER_INCH * PRINT_DPI).round() as u32;
        Self { sha256: picture.sha256.clone(), box_px: (px(room_mm.0), px(room_mm.1)) }
    }
}

/// What became of each print that was wanted.
pub type Prints = BTreeMap<Wanted, Result<Print, PictureFault>>;

impl Document {
    /// Returns every picture with the box in millimetres that it is printed in, in the order of the pages.
    pub fn pictures_placed(&self) -> impl Iterator<Item = (&Picture, (f64, f64))> {
        let findings = self.parts.iter().flat_map(|part| &part.findings);
        let front = self.front.picture.iter().map(|picture| (picture, PORTRAIT_MM));
        front
            .chain(findings.flat_map(|finding| boxed(&finding.pictures)))
            .chain(boxed(&self.pictures))
            .chain(self.hand.iter().map(|picture| (picture, HAND_MM)))
    }

    /// Returns the prints that the document needs.
    pub fn prints_wanted(&self) -> Vec<Wanted> {
        self.pictures_placed().map(|(picture, room)| Wanted::of(picture, room)).collect()
    }
}

/// Returns a group of pictures, each with its box in millimetres: one alone has more room than one of several.
pub fn boxed(pictures: &[Picture]) -> impl Iterator<Item = (&Picture, (f64, f64))> {
    let room = if pictures.len() == 1 { ALONE_MM } else { PAIRED_MM };
    pictures.iter().map(move |picture| (picture, room))
}

/// Returns the printed width and height of a print in its box, in millimetres. A small picture is not blown up beyond a
/// hundred pixels to the inch.
pub fn printed_mm(print: &Print, room_mm: (f64, f64)) -> (f64, f64) {
    let (w, h) = (f64::from(print.width_px.max(1)), f64::from(print.height_px.max(1)));
    let widest = w * MM_PER_INCH / (PRINT_DPI / 2.0);
    let width_mm = room_mm.0.min(room_mm.1 * w / h).min(widest);
    (width_mm, width_mm * h / w)
}
