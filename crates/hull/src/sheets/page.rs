//! Paper and what stands on every sheet: title, notes, key, scale.

use super::{Condition, Mark, MarkKind, annotate, labels::width_mm};
use drawing::{Anchor, Hatch, Ink, Pen, Shape, Sheet};

/// Paper for a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Page {
    /// Width in millimetres.
    pub width_mm: f64,
    /// Height in millimetres.
    pub height_mm: f64,
    /// Margin on all sides, in millimetres.
    pub margin_mm: f64,
    /// Height of ordinary lettering (em), in millimetres.
    pub letter_mm: f64,
}

impl Page {
    /// The width of a report's text column on A4, with a drawing's height.
    pub const REPORT: Page = Page { width_mm: 180.0, height_mm: 104.0, margin_mm: 4.0, letter_mm: 2.8 };
    /// A4, long side level, with a border: a drawing on its own.
    pub const A4: Page = Page { width_mm: 297.0, height_mm: 210.0, margin_mm: 12.0, letter_mm: 3.0 };
    /// A small sheet with large lettering for the width of a phone.
    pub const PHONE: Page = Page { width_mm: 120.0, height_mm: 100.0, margin_mm: 2.0, letter_mm: 3.5 };

    /// Returns the same paper at another height.
    pub const fn high(mut self, height_mm: f64) -> Page {
        self.height_mm = height_mm;
        self
    }

    /// Returns the paper with notes to be written below the sheet's title.
    pub fn noting(self, notes: Vec<String>) -> Paper {
        Paper { page: self, notes }
    }

    pub(crate) fn small_mm(&self) -> f64 {
        self.letter_mm * 0.86
    }

    pub(crate) fn is_whole_sheet(&self) -> bool {
        self.margin_mm >= 8.0
    }
}

/// Paper with notes: what the sheet should say in words because it cannot be drawn. The paper grows downwards by what
/// the notes take, so that the drawing keeps its size.
#[derive(Clone, Debug, PartialEq)]
pub struct Paper {
    /// The paper.
    pub page: Page,
    /// The notes, one paragraph each.
    pub notes: Vec<String>,
}

impl From<Page> for Paper {
    fn from(page: Page) -> Paper {
        page.noting(Vec::new())
    }
}

/// The part of the paper left for the drawing itself, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Field {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Field {
    pub(crate) fn width(&self) -> f64 {
        self.right - self.left
    }

    pub(crate) fn height(&self) -> f64 {
        self.bottom - self.top
    }
}

/// Begins a sheet: border, title, notes below the title, key at the foot. Returns it with the field left free.
pub(crate) fn begin(
    paper: &Paper,
    title: &str,
    note: &str,
    conditions: &[Condition],
    marks: &[Mark],
) -> (Sheet, Field) {
    let wide = paper.page.width_mm - 2.0 * paper.page.margin_mm;
    let small = paper.page.small_mm();
    let own = folded(note, wide, small);
    let more: Vec<String> = paper.notes.iter().flat_map(|note| folded(note, wide, small)).collect();
    let page = paper.page.high(paper.page.height_mm + small * 1.4 * more.len() as f64);
    let mut sheet = Sheet::new(page.width_mm, page.height_mm, title, "");
    let m = page.margin_mm;
    sheet.add(Shape::rectangle(0.0, 0.0, page.width_mm, page.height_mm).pen(Pen::NONE).hatch(Hatch::Paper));
    if page.is_whole_sheet() {
        let (w, h) = (page.width_mm - 2.0 * m + 8.0, page.height_mm - 2.0 * m + 8.0);
        sheet.add(Shape::rectangle(m - 4.0, m - 4.0, w, h).pen(Pen::MIDDLE));
    }
    let big = page.letter_mm * 1.35;
    let mut y = m + big;
    sheet.add(Shape::text((m, y), big, title));
    let lines = own.into_iter().map(|line| (line, Ink::Faint)).chain(more.into_iter().map(|line| (line, Ink::Main)));
    for (line, ink) in lines {
        y += small * 1.4;
        sheet.add(Shape::text((m, y), small, line).inked(ink));
    }
    let (key, key_height) = key(page, conditions, marks);
    sheet.add(key);
    let bottom = page.height_mm - m - key_height - page.letter_mm * 0.6;
    let field = Field { left: m, top: y + page.letter_mm, right: page.width_mm - m, bottom };
    (sheet, field)
}

/// Breaks words into lines no wider than the width.
pub(crate) fn folded(words: &str, width: f64, size_mm: f64) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split_whitespace() {
        let Some(line) = lines.last_mut() else { break };
        if !line.is_empty() && width_mm(line, size_mm) + width_mm(word, size_mm) + size_mm * 0.3 > width {
            lines.push(word.to_owned());
        } else {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines
}

/// The key at the foot: only what is on the sheet, in rows.
fn key(page: Page, conditions: &[Condition], marks: &[Mark]) -> (Shape, f64) {
    let size = page.small_mm();
    let mut items: Vec<(Vec<Shape>, f64, String)> = Vec::new();
    if !conditions.is_empty() {
        let shown = [
            (Hatch::Bare, "nothing against it"),
            (Hatch::Sparse, "watch"),
            (Hatch::Close, "work needed"),
            (Hatch::Solid, "failed"),
        ];
        // The whole scale is shown as soon as one step of it is used: a lone hatch says little.
        if conditions.iter().any(|c| !c.dashed) {
            for (hatch, word) in shown {
                let swatch = Shape::rectangle(0.0, -size * 0.85, size * 2.4, size * 1.1).hatch(hatch);
                items.push((vec![swatch], size * 2.4, word.to_owned()));
            }
        }
        if conditions.iter().any(Condition::is_not_recorded) {
            let swatch = Shape::rectangle(0.0, -size * 0.85, size * 2.4, size * 1.1).pen(Pen::FAINT).hatch(Hatch::Dots);
            items.push((vec![swatch], size * 2.4, "nothing recorded yet".to_owned()));
        }
        if conditions.iter().any(|c| c.dashed) {
            let swatch = Shape::rectangle(0.0, -size * 0.85, size * 2.4, size * 1.1).pen(Pen::MIDDLE.dashed());
            items.push((vec![swatch], size * 2.4, "not seen".to_owned()));
        }
    }
    for kind in MarkKind::ALL {
        if marks.iter().any(|m| m.kind == kind) {
            let symbol = annotate::symbol(kind, (size * 0.6, -size * 0.35), size * 1.1);
            items.push((symbol, size * 1.2, kind.word().to_owned()));
        }
    }
    let mut rows: Vec<Vec<(f64, usize)>> = vec![Vec::new()];
    let mut x = 0.0;
    for (i, (_, wide, word)) in items.iter().enumerate() {
        let full = wide + size * 0.5 + width_mm(word, size) + size * 1.6;
        if x + full > page.width_mm - 2.0 * page.margin_mm {
            rows.push(Vec::new());
            x = 0.0;
        }
        if let Some(row) = rows.last_mut() {
            row.push((x, i));
        }
        x += full;
    }
    let pitch = size * 1.7;
    let height = if items.is_empty() { 0.0 } else { pitch * rows.len() as f64 };
    let mut shapes = Vec::new();
    for (r, row) in rows.iter().enumerate() {
        let y = page.height_mm - page.margin_mm - pitch * (rows.len() - 1 - r) as f64 - size * 0.3;
        for (x, i) in row {
            let (symbol, wide, word) = &items[*i];
            let at = (page.margin_mm + x, y);
            shapes.extend(symbol.iter().map(|s| moved(s.clone(), at)));
            shapes.push(Shape::text((at.0 + wide + size * 0.5, y), size, word.clone()));
        }
    }
    (Shape::group("key", "What the hatching and marks mean", shapes), height)
}

/// Returns a shape moved by an amount.
pub(crate) fn moved(shape: Shape, by: (f64, f64)) -> Shape {
    match shape {
        Shape::Path { points, closed, pen, hatch } => {
            let points = points.into_iter().map(|(x, y)| (x + by.0, y + by.1)).collect();
            Shape::Path { points, closed, pen, hatch }
        }
        Shape::Circle { centre, radius_mm, pen, hatch } => {
            Shape::Circle { centre: (centre.0 + by.0, centre.1 + by.1), radius_mm, pen, hatch }
        }
        Shape::Text { at, words, size_mm, anchor, turn_deg, ink } => {
            Shape::Text { at: (at.0 + by.0, at.1 + by.1), words, size_mm, anchor, turn_deg, ink }
        }
        Shape::Group { name, label, data, shapes } => {
            Shape::Group { name, label, data, shapes: shapes.into_iter().map(|s| moved(s, by)).collect() }
        }
    }
}

/// Returns the largest usual scale at which something fits, as its denominator; none when even 1:500 is too large.
pub(crate) fn usual_scale(size_m: (f64, f64), room_mm: (f64, f64)) -> Option<f64> {
    const USUAL: [f64; 21] = [
        1.0, 2.0, 5.0, 8.0, 10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 80.0, 100.0, 125.0,
        150.0, 200.0, 500.0,
    ];
    let needed = (size_m.0 * 1000.0 / room_mm.0.max(1.0)).max(size_m.1 * 1000.0 / room_mm.1.max(1.0));
    USUAL.into_iter().find(|s| *s >= needed - 1e-9)
}

/// Returns a scale bar of whole metres, its right end at the point.
pub(crate) fn scale_bar(right: (f64, f64), scale: f64, size_mm: f64) -> Shape {
    let per_m = 1000.0 / scale;
    let steps = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
    let step = steps.into_iter().find(|s| s * per_m >= 9.0).unwrap_or(20.0);
    let (wide, high) = (step * per_m, 0.9);
    let left = right.0 - 2.0 * wide;
    let y = right.1;
    let label = |m: f64| if step < 1.0 { format!("{m:.1}") } else { format!("{m:.0}") };
    let mut shapes = vec![
        Shape::rectangle(left, y - high, wide, high).hatch(Hatch::Solid),
        Shape::rectangle(left + wide, y - high, wide, high),
    ];
    for (i, m) in [0.0, step, 2.0 * step].into_iter().enumerate() {
        let words = if i == 2 { format!("{} m", label(m)) } else { label(m) };
        let at = (left + i as f64 * wide, y - high - 0.7);
        let anchor = if i == 2 { Anchor::End } else { Anchor::Middle };
        shapes.push(Shape::text((at.0 + if i == 2 { 1.0 } else { 0.0 }, at.1), size_mm, words).anchored(anchor));
    }
    let words = format!("Scale 1:{scale:.0}");
    shapes.push(Shape::text((left - 3.0, y), size_mm, words).anchored(Anchor::End));
    Shape::group("scale", "", shapes)
}
