//! What a boat may be worth, as a drawing: prices and ranges of money side by side over one axis.

use crate::chart::{Axis, label};
use crate::cost::cut;
use crate::{Anchor, Hatch, Ink, Pen, Shape, Sheet};

/// One row over the axis of money.
#[derive(Clone, Debug, PartialEq)]
pub enum WorthRow {
    /// A boat compared: from its price as it stands to what it comes to after the steps to this boat.
    Compared {
        /// The boat.
        name: String,
        /// Price as asked or paid.
        price: f64,
        /// Price after the steps.
        adjusted: f64,
    },
    /// A range with its middle.
    Range {
        /// What it is.
        name: String,
        /// Low end.
        low: f64,
        /// Middle.
        middle: f64,
        /// High end.
        high: f64,
        /// Whether it is the one looked for, drawn in the accent.
        wanted: bool,
    },
}

const WIDTH_MM: f64 = 156.0;
const LEFT_MM: f64 = 66.0;
const RIGHT_MM: f64 = 150.0;
const ROW_MM: f64 = 6.4;
const LETTERS_MM: f64 = 2.8;
const NAME_LETTERS: usize = 44;

/// Draws the rows over one another on one axis from nothing (or from below nothing, where something is) to the most.
pub fn worth(title: &str, description: &str, currency: &str, rows: &[WorthRow]) -> Sheet {
    let figures = rows.iter().flat_map(|row| match row {
        WorthRow::Compared { price, adjusted, .. } => [*price, *adjusted],
        WorthRow::Range { low, high, .. } => [*low, *high],
    });
    let (low, high) = figures.filter(|f| f.is_finite()).fold((0.0_f64, 0.0_f64), |(l, h), f| (l.min(f), h.max(f)));
    let axis = Axis::new("", currency, low, high * 1.02);
    let x = |money: f64| LEFT_MM + (RIGHT_MM - LEFT_MM) * axis.share(money);
    let foot = 4.0 + ROW_MM * rows.len() as f64;
    let mut sheet = Sheet::new(WIDTH_MM, foot + 11.0, title, description);
    for tick in axis.ticks() {
        sheet.add(Shape::line([(x(tick), 2.0), (x(tick), foot)]).pen(Pen::FAINT));
        sheet.add(Shape::text((x(tick), foot + 4.2), LETTERS_MM, label(tick)).anchored(Anchor::Middle));
    }
    sheet.add(Shape::line([(LEFT_MM, foot), (RIGHT_MM, foot)]).pen(Pen::MIDDLE));
    if low < 0.0 {
        sheet.add(Shape::line([(x(0.0), 2.0), (x(0.0), foot)]));
    }
    if !currency.is_empty() {
        sheet.add(Shape::text((RIGHT_MM, foot + 8.8), 3.2, currency).anchored(Anchor::End));
    }
    for (i, row) in rows.iter().enumerate() {
        let y = 2.0 + ROW_MM * (i as f64 + 0.5);
        let name = match row {
            WorthRow::Compared { name, .. } | WorthRow::Range { name, .. } => name,
        };
        let wanted = matches!(row, WorthRow::Range { wanted: true, .. });
        let ink = if wanted { Ink::Accent } else { Ink::Main };
        let words = Shape::text((LEFT_MM - 3.0, y + 1.0), LETTERS_MM, cut(name, NAME_LETTERS));
        sheet.add(words.anchored(Anchor::End).inked(ink));
        match row {
            WorthRow::Compared { price, adjusted, .. } => {
                sheet.add(Shape::line([(x(*price), y), (x(*adjusted), y)]).pen(Pen::THIN));
                sheet.add(Shape::circle((x(*price), y), 1.0).hatch(Hatch::Paper));
                sheet.add(Shape::circle((x(*adjusted), y), 1.0).hatch(Hatch::Solid));
            }
            WorthRow::Range { low, middle, high, .. } => {
                let bar = Shape::rectangle(x(*low), y - 1.7, (x(*high) - x(*low)).max(0.2), 3.4);
                let pen = Pen::THIN.ink(ink);
                sheet.add(bar.pen(pen).hatch(if wanted { Hatch::Close } else { Hatch::Wash }));
                let at = x(*middle);
                sheet.add(Shape::line([(at, y - 2.6), (at, y + 2.6)]).pen(Pen::THICK.ink(ink)));
            }
        }
    }
    sheet
}
