//! The balance of weights, drawn: what each reading weighed for and against the leading state.

use drawing::{Anchor, Hatch, Ink, Pen, Shape, Sheet};
use evidence::Weighing;

/// Returns a sheet with a bar for the start, one for each reading and one for the sum; bars to the right speak for the
/// leading state, bars to the left against it.
pub(super) fn sheet(weighing: &Weighing) -> Sheet {
    let state = weighing.leading as usize;
    let mut bars = vec![("start".to_owned(), weighing.prior_db[state])];
    for weight in &weighing.weights {
        let said = if weight.observation.hearsay { ", hearsay" } else { "" };
        let name = format!("{}: {}{said}", weight.observation.group, weight.observation.reading.replace('_', " "));
        bars.push((name, weight.decibans[state]));
    }
    bars.push(("all together".to_owned(), weighing.posterior_db[state]));
    let far = bars.iter().filter_map(|(_, db)| *db).fold(1.0, |far: f64, db| far.max(db.abs()));
    // Each name above its bar, so that the sheet stays narrow enough to be read on a phone.
    let (middle, half, row) = (52.0, 30.0, 9.5);
    let height = 12.0 + row * bars.len() as f64;
    let words: Vec<_> = bars.iter().map(|(name, db)| format!("{name} {}", decibels(*db))).collect();
    let title = format!("Weights for and against: {}", weighing.leading.words());
    let mut sheet = Sheet::new(104.0, height, title, format!("In decibans: {}.", words.join("; ")));
    sheet.add(Shape::text((middle - 2.0, 5.0), 2.8, "against").anchored(Anchor::End));
    sheet.add(Shape::text((middle + 2.0, 5.0), 2.8, "for"));
    for (index, (name, db)) in bars.iter().enumerate() {
        let y = 11.5 + row * index as f64;
        let shown: String = name.chars().take(46).collect();
        let last = index + 1 == bars.len();
        sheet.add(Shape::text((2.0, y - 1.0), 2.8, shown).inked(if last { Ink::Accent } else { Ink::Main }));
        let Some(db) = *db else { continue };
        let length = half * db.abs() / far;
        let x = if db < 0.0 { middle - length } else { middle };
        let hatch = if last { Hatch::Wash } else { Hatch::Close };
        sheet.add(Shape::rectangle(x, y, length.max(0.2), 3.6).hatch(hatch));
        let (at, anchor) = if db < 0.0 { (x - 1.0, Anchor::End) } else { (x + length + 1.0, Anchor::Start) };
        sheet.add(Shape::text((at, y + 2.7), 2.6, decibels(Some(db))).anchored(anchor));
    }
    sheet.add(Shape::line([(middle, 6.5), (middle, height - 2.0)]).pen(Pen::MIDDLE));
    sheet
}

fn decibels(db: Option<f64>) -> String {
    db.map_or_else(|| "not finite".to_owned(), |db| format!("{db:+.1} dB"))
}
