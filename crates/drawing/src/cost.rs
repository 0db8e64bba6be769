//! What work may cost, as a drawing: the chance that the whole costs no more than a figure, and what its spread comes with.

use crate::chart::{Axis, Trace, curves};
use crate::{Anchor, Hatch, Pen, Shape, Sheet};

/// The spread of a sum of costs, all in one currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CostSpread {
    /// Currency, written beside the axis; may be empty.
    pub currency: String,
    /// Cost that is not exceeded with a chance of 0, 1, … 100 %, in that order.
    pub percentiles: Vec<f64>,
    /// Chances in percent that are marked, each with its cost and the words beside the mark.
    pub marks: Vec<(f64, f64, String)>,
    /// What the spread comes with, the strongest first: name and share in percent.
    pub drivers: Vec<(String, f64)>,
}

/// Drivers that are named; the rest are drawn together.
const NAMED: usize = 6;
const ROW_MM: f64 = 5.4;
const LETTERS_MM: f64 = 2.8;
/// Letters of a driver's name that fit.
const NAME_LETTERS: usize = 46;

/// Draws the spread, 120 mm wide.
pub fn cost_spread(spread: &CostSpread) -> Sheet {
    let ends = (spread.percentiles.first().copied(), spread.percentiles.last().copied());
    let (low, high) = (ends.0.unwrap_or(0.0), ends.1.unwrap_or(1.0));
    let last = spread.percentiles.len().saturating_sub(1).max(1) as f64;
    let points =
        spread.percentiles.iter().enumerate().map(|(i, cost)| (*cost, 100.0 * i as f64 / last)).collect::<Vec<_>>();
    let mut traces = vec![Trace::Curve { name: String::new(), points, pen: Pen::MIDDLE }];
    let marked = spread.marks.iter().map(|(percent, cost, word)| Trace::Mark {
        at: (*cost, *percent),
        word: word.clone(),
        under: true,
    });
    traces.extend(marked);
    let said: Vec<String> = spread.marks.iter().map(|(percent, _, word)| format!("{percent:.0} % at {word}")).collect();
    let mut sheet = curves(
        "What the work may cost",
        &format!("The chance that the whole costs no more than a figure: {}.", said.join(", ")),
        &Axis::new("cost", spread.currency.clone(), low, high),
        &Axis::new("chance of no more", "%", 0.0, 100.0),
        &traces,
    );
    drivers(&mut sheet, &spread.drivers);
    sheet
}

/// Adds what the spread comes with beneath the curve, as bars.
fn drivers(sheet: &mut Sheet, drivers: &[(String, f64)]) {
    if drivers.len() < 2 {
        return;
    }
    let mut rows: Vec<(String, f64)> = drivers.iter().take(NAMED).cloned().collect();
    let rest: f64 = drivers.iter().skip(NAMED).map(|(_, share)| share).sum();
    if drivers.len() > NAMED {
        rows.push(("all the others".to_owned(), rest));
    }
    let said: Vec<String> = rows.iter().map(|(name, share)| format!("{name} {share:.0} %")).collect();
    sheet.description.push_str(&format!(" The spread comes with: {}.", said.join("; ")));
    let top = sheet.height_mm + 3.0;
    sheet.add(Shape::text((2.0, top), 3.2, "What the spread comes with"));
    let (left, right) = (68.0, 108.0);
    let most = rows.iter().map(|(_, share)| *share).fold(1.0, f64::max);
    for (i, (name, share)) in rows.iter().enumerate() {
        let y = top + 2.6 + ROW_MM * i as f64;
        sheet.add(Shape::text((left - 1.6, y + 2.9), LETTERS_MM, cut(name, NAME_LETTERS)).anchored(Anchor::End));
        let wide = ((right - left) * share.max(0.0) / most).max(0.2);
        sheet.add(Shape::rectangle(left, y, wide, ROW_MM - 1.6).hatch(Hatch::Wash));
        sheet.add(Shape::text((left + wide + 1.4, y + 2.9), LETTERS_MM, format!("{share:.0} %")));
    }
    sheet.height_mm = top + 4.6 + ROW_MM * rows.len() as f64;
}

/// Returns at most so many letters of a name, with a mark where it was cut.
pub(crate) fn cut(name: &str, letters: usize) -> String {
    let name = name.trim();
    if name.chars().count() <= letters {
        return name.to_owned();
    }
    let kept: String = name.chars().take(letters.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}
