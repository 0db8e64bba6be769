//! Plain charts: curves and bands over two axes, and strips of months.

use crate::{Anchor, Hatch, Ink, Pen, Shape, Sheet};

/// One axis: what it measures, its unit, and its ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What is measured, e.g. `moisture content`.
    pub name: String,
    /// Unit as written beside the name, e.g. `%`; empty for a bare number.
    pub unit: String,
    /// Value at the axis's beginning.
    pub low: f64,
    /// Value at the axis's end.
    pub high: f64,
}

impl Axis {
    /// Returns an axis between two values; when they are equal or not finite it is widened to be drawable.
    pub fn new(name: impl Into<String>, unit: impl Into<String>, low: f64, high: f64) -> Self {
        let (mut low, mut high) = if low <= high { (low, high) } else { (high, low) };
        if !low.is_finite() || !high.is_finite() {
            (low, high) = (0.0, 1.0);
        }
        if high - low < 1e-9 {
            (low, high) = (low - 0.5, high + 0.5);
        }
        Self { name: name.into(), unit: unit.into(), low, high }
    }

    pub(crate) fn share(&self, value: f64) -> f64 {
        let share = (value - self.low) / (self.high - self.low);
        if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) }
    }

    /// Returns round numbers for about five ticks.
    pub(crate) fn ticks(&self) -> Vec<f64> {
        let rough = (self.high - self.low) / 5.0;
        let power = 10f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 2.5, 5.0, 10.0].into_iter().map(|m| m * power).find(|s| *s >= rough).unwrap_or(rough);
        let first = (self.low / step).ceil();
        (0..12).map(|i| (first + f64::from(i)) * step).take_while(|t| *t <= self.high + step * 1e-6).collect()
    }
}

/// What is drawn between the axes. Points are in the axes' units.
#[derive(Clone, Debug, PartialEq)]
pub enum Trace {
    /// A curve through points, with a name at its end.
    Curve {
        /// Name written at the curve's end; empty for none.
        name: String,
        /// Points in the axes' units.
        points: Vec<(f64, f64)>,
        /// Pen.
        pen: Pen,
    },
    /// A band between a lower and an upper curve: the range within which the truth is thought to lie.
    Band {
        /// (x, low, high) in the axes' units.
        points: Vec<(f64, f64, f64)>,
    },
    /// One mark with a word beside it.
    Mark {
        /// Position in the axes' units.
        at: (f64, f64),
        /// Word beside it.
        word: String,
        /// Whether the word stands below the mark, to the right of a rising curve, and not above it.
        under: bool,
    },
}

/// Returns a chart of curves, bands and marks over two axes, 120 mm × 70 mm.
pub fn curves(title: &str, description: &str, x: &Axis, y: &Axis, traces: &[Trace]) -> Sheet {
    let (w, h) = (120.0, 70.0);
    let (left, right, top, bottom) = (16.0, 96.0, 6.0, 56.0);
    let mut sheet = Sheet::new(w, h, title, description);
    let px = |v: f64| left + (right - left) * x.share(v);
    let py = |v: f64| bottom - (bottom - top) * y.share(v);
    for t in y.ticks() {
        sheet.add(Shape::line([(left, py(t)), (right, py(t))]).pen(Pen::FAINT));
        sheet.add(Shape::text((left - 1.5, py(t) + 1.0), 2.8, label(t)).anchored(Anchor::End));
    }
    for t in x.ticks() {
        sheet.add(Shape::line([(px(t), bottom), (px(t), bottom + 1.2)]));
        sheet.add(Shape::text((px(t), bottom + 4.6), 2.8, label(t)).anchored(Anchor::Middle));
    }
    sheet.add(Shape::line([(left, top), (left, bottom), (right, bottom)]).pen(Pen::MIDDLE));
    sheet.add(Shape::text(((left + right) / 2.0, bottom + 10.5), 3.2, with_unit(x)).anchored(Anchor::Middle));
    let y_name = Shape::text((4.0, (top + bottom) / 2.0), 3.2, with_unit(y));
    sheet.add(y_name.anchored(Anchor::Middle).turned(-90.0));
    for trace in traces {
        match trace {
            Trace::Band { points } => {
                let mut outline: Vec<_> = points.iter().map(|(a, low, _)| (px(*a), py(*low))).collect();
                outline.extend(points.iter().rev().map(|(a, _, high)| (px(*a), py(*high))));
                sheet.add(Shape::outline(outline).pen(Pen::NONE).hatch(Hatch::Wash));
            }
            Trace::Curve { name, points, pen } => {
                let drawn: Vec<_> = points.iter().map(|(a, b)| (px(*a), py(*b))).collect();
                if let (Some(end), false) = (drawn.last().copied(), name.is_empty()) {
                    sheet.add(Shape::text((end.0 + 1.2, end.1 + 1.0), 2.8, name.clone()).inked(pen.ink));
                }
                sheet.add(Shape::line(drawn).pen(*pen));
            }
            Trace::Mark { at, word, under } => {
                let (cx, cy) = (px(at.0), py(at.1));
                let accent = Pen::MIDDLE.ink(Ink::Accent);
                sheet.add(Shape::circle((cx, cy), 1.1).pen(accent).hatch(Hatch::Paper));
                let y = if *under { cy + 2.6 } else { cy - 1.5 };
                sheet.add(Shape::text((cx + 2.0, y), 2.8, word.clone()).inked(Ink::Accent));
            }
        }
    }
    sheet
}

/// Returns rows of twelve months, each month filled from below by a share between 0 and 1.
pub fn months(title: &str, description: &str, rows: &[(String, [f64; 12])]) -> Sheet {
    const NAMES: [&str; 12] = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];
    let (left, cell_w, cell_h, gap) = (34.0, 7.0, 8.0, 4.0);
    let height = 8.0 + rows.len() as f64 * (cell_h + gap);
    let mut sheet = Sheet::new(120.0, height, title, description);
    for (m, name) in NAMES.iter().enumerate() {
        let at = (left + (m as f64 + 0.5) * cell_w, 5.0);
        sheet.add(Shape::text(at, 2.8, *name).anchored(Anchor::Middle));
    }
    for (r, (name, shares)) in rows.iter().enumerate() {
        let y = 7.0 + r as f64 * (cell_h + gap);
        sheet.add(Shape::text((left - 2.0, y + cell_h * 0.62), 2.8, name.clone()).anchored(Anchor::End));
        for (m, share) in shares.iter().enumerate() {
            let x = left + m as f64 * cell_w;
            let filled = cell_h * share.clamp(0.0, 1.0);
            if filled > 0.0 {
                sheet.add(Shape::rectangle(x, y + cell_h - filled, cell_w, filled).pen(Pen::NONE).hatch(Hatch::Close));
            }
            sheet.add(Shape::rectangle(x, y, cell_w, cell_h));
        }
    }
    sheet
}

fn with_unit(axis: &Axis) -> String {
    if axis.unit.is_empty() { axis.name.clone() } else { format!("{}, {}", axis.name, axis.unit) }
}

pub(crate) fn label(value: f64) -> String {
    let text = format!("{:.4}", (value * 1e4).round() / 1e4);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { with_thousands(text) }
}

/// Sets off the thousands of a figure of five digits or more: `16400` becomes `16,400`.
fn with_thousands(text: &str) -> String {
    let bare = text.trim_start_matches('-');
    let whole = bare.split('.').next().unwrap_or(bare).len();
    if whole < 5 {
        return text.to_owned();
    }
    let sign = text.len() - bare.len();
    let mut out = text[..sign].to_owned();
    for (i, letter) in bare.chars().enumerate() {
        if i > 0 && i < whole && (whole - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(letter);
    }
    out
}
