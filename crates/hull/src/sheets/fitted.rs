//! From metres to millimetres on paper, the drawing centred in its field at a usual scale.

use super::page::{self, Field, Page};
use drawing::{Anchor, Ink, Shape, Sheet};

/// Where a drawing lies on its sheet.
pub(crate) struct Fitted {
    /// Paper position of the drawing's (0, 0).
    pub origin: (f64, f64),
    /// Millimetres a metre; y runs upwards in metres and downwards on paper.
    pub per_m: f64,
    /// Denominator of the scale, when a usual one fits.
    pub scale: Option<f64>,
}

impl Fitted {
    /// Fits a box of metres (left, bottom, right, top) into a field, bow to the left or right as x says.
    pub(crate) fn new(field: &Field, bounds: [f64; 4]) -> Fitted {
        let size = (bounds[2] - bounds[0], bounds[3] - bounds[1]);
        let room = (field.width(), field.height());
        let scale = page::usual_scale(size, room);
        let per_m = scale.map_or_else(|| (room.0 / size.0).min(room.1 / size.1), |s| 1000.0 / s);
        let left = field.left + (room.0 - size.0 * per_m) / 2.0 - bounds[0] * per_m;
        let bottom = field.bottom - (room.1 - size.1 * per_m) / 2.0 + bounds[1] * per_m;
        Fitted { origin: (left, bottom), per_m, scale }
    }

    pub(crate) fn at(&self, p: (f64, f64)) -> (f64, f64) {
        (self.origin.0 + self.per_m * p.0, self.origin.1 - self.per_m * p.1)
    }

    pub(crate) fn line(&self, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        points.iter().map(|p| self.at(*p)).collect()
    }

    /// Puts the scale bar, or the words that there is no scale, at the field's foot.
    pub(crate) fn mark_scale(&self, sheet: &mut Sheet, page: Page, foot: (f64, f64), schematic: bool) {
        match self.scale {
            Some(scale) if !schematic => sheet.add(page::scale_bar(foot, scale, page.small_mm())),
            _ => {
                let words = Shape::text(foot, page.small_mm(), "Not to scale");
                sheet.add(words.anchored(Anchor::End).inked(Ink::Faint));
            }
        }
    }
}

/// Takes room for the scale bar and a margin of lettering off a field.
pub(crate) fn inner(page: Page, field: &Field) -> Field {
    let letter = page.letter_mm;
    Field {
        left: field.left + letter * 2.0,
        right: field.right - letter * 2.0,
        top: field.top + letter * 1.2,
        bottom: field.bottom - letter * 3.2,
    }
}
