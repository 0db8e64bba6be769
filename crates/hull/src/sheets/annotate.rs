//! Drawing conditions and marks, once their places are known on the paper.

use super::{Condition, Mark, MarkKind, labels::Labels};
use drawing::{Hatch, Ink, Pen, Shape};

/// Returns the symbol of a kind of mark at a point, `size_mm` across.
pub(crate) fn symbol(kind: MarkKind, at: (f64, f64), size_mm: f64) -> Vec<Shape> {
    let (x, y) = at;
    let r = size_mm / 2.0;
    let pen = Pen::MIDDLE.ink(Ink::Accent);
    let line = |points: Vec<(f64, f64)>| Shape::line(points).pen(pen);
    match kind {
        MarkKind::Observation => vec![Shape::circle(at, r * 0.85).pen(pen).hatch(Hatch::Paper)],
        MarkKind::Photograph => vec![
            Shape::rectangle(x - r, y - r * 0.75, 2.0 * r, r * 1.5).pen(pen).hatch(Hatch::Paper),
            Shape::circle(at, r * 0.35).pen(pen),
        ],
        MarkKind::Draw => vec![
            Shape::circle(at, r * 0.9).pen(pen).hatch(Hatch::Paper),
            line(vec![(x - r * 0.6, y - r * 0.6), (x + r * 0.6, y + r * 0.6)]),
            line(vec![(x - r * 0.6, y + r * 0.6), (x + r * 0.6, y - r * 0.6)]),
        ],
        MarkKind::Blow => {
            vec![
                Shape::outline([(x, y + r * 0.8), (x - r * 0.8, y - r * 0.7), (x + r * 0.8, y - r * 0.7)])
                    .pen(pen)
                    .hatch(Hatch::Paper),
            ]
        }
        MarkKind::Moisture => {
            vec![
                Shape::outline([(x, y - r), (x + r * 0.75, y), (x, y + r), (x - r * 0.75, y)])
                    .pen(pen)
                    .hatch(Hatch::Paper),
            ]
        }
        MarkKind::Butt => vec![line(vec![(x, y - r), (x, y + r)])],
        MarkKind::Scarph => vec![line(vec![(x - r, y + r), (x + r, y - r)])],
    }
}

/// Returns a condition as an outline filled by its hatch; no outline points, no shape.
pub(crate) fn filled(condition: &Condition, outline: Vec<(f64, f64)>) -> Option<Shape> {
    if outline.is_empty() {
        return None;
    }
    let pen = if condition.dashed { Pen::MIDDLE.dashed() } else { Pen::THIN };
    let state = match (condition.dashed, condition.hatch) {
        (true, _) => "not seen",
        (_, Hatch::Sparse) => "watch",
        (_, Hatch::Close) => "work needed",
        (_, Hatch::Solid) => "failed",
        _ => "sound",
    };
    let label = if condition.word.is_empty() { state.to_owned() } else { format!("{state}: {}", condition.word) };
    let mut shapes = Vec::new();
    if condition.hatch != Hatch::Bare || condition.dashed {
        // Paper first, so that seams do not show through and confuse the hatch.
        let under = if condition.hatch == Hatch::Solid { Hatch::Solid } else { Hatch::Paper };
        shapes.push(Shape::outline(outline.clone()).pen(Pen::NONE).hatch(under));
    }
    shapes.push(Shape::outline(outline).pen(pen).hatch(condition.hatch));
    Some(Shape::group("condition", label, shapes))
}

/// Returns marks with their words, the words kept clear of each other. Symbols come first so that no word
/// covers one.
pub(crate) fn marks(placed: &[(&Mark, (f64, f64))], labels: &mut Labels, letter_mm: f64) -> Vec<Shape> {
    let size = letter_mm * 0.95;
    let r = size * 0.6;
    for (_, at) in placed {
        labels.take(at.0 - r, at.1 - r, at.0 + r, at.1 + r);
    }
    let mut words = Vec::new();
    let mut symbols = Vec::new();
    for (mark, at) in placed {
        words.extend(labels.beside(*at, r + 0.4, letter_mm * 0.9, &mark.word, Ink::Accent));
        let label = if mark.word.is_empty() {
            mark.kind.word().to_owned()
        } else {
            format!("{}: {}", mark.kind.word(), mark.word)
        };
        symbols.push(Shape::group("mark", label, symbol(mark.kind, *at, size)));
    }
    words.extend(symbols);
    words
}
