//! Drawing conditions and marks, once their places are known on the paper.

use super::{Condition, Mark, MarkKind, condition::told_of, labels::Labels};
use crate::Place;
use drawing::{Hatch, Ink, Pen, Shape};

/// Returns the symbol of a kind of mark at a point, `size_mm` across.
pub(crate) fn symbol(kind: MarkKind, at: (f64, f64), size_mm: f64) -> Vec<Shape> {
    let (x, y) = at;
    let r = size_mm / 2.0;
    let pen = Pen::MIDDLE.ink(Ink::Accent);
    let line = |points: Vec<(f64, f64)>| Shape::line(points).pen(pen);
    let triangle = |hatch| {
        Shape::outline([(x, y + r * 0.8), (x - r * 0.8, y - r * 0.7), (x + r * 0.8, y - r * 0.7)]).pen(pen).hatch(hatch)
    };
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
        MarkKind::ToDraw => vec![
            Shape::circle(at, r * 0.9).pen(pen.dashed()).hatch(Hatch::Paper),
            Shape::circle(at, r * 0.2).pen(pen).hatch(Hatch::Solid),
        ],
        MarkKind::WouldNotDraw => vec![
            line(vec![(x - r * 0.7, y - r * 0.7), (x + r * 0.7, y + r * 0.7)]),
            line(vec![(x - r * 0.7, y + r * 0.7), (x + r * 0.7, y - r * 0.7)]),
        ],
        MarkKind::ObservationAgainst => vec![Shape::circle(at, r * 0.85).pen(pen).hatch(Hatch::Solid)],
        MarkKind::DrawAgainst => {
            // The cross is paper, cut out of the disc as a narrow outline each way.
            let arm = |dx: f64, dy: f64| {
                let (ox, oy) = (r * 0.1 * dy.signum(), -r * 0.1 * dx.signum());
                let (a, b) = ((x - dx, y - dy), (x + dx, y + dy));
                Shape::outline([(a.0 - ox, a.1 - oy), (b.0 - ox, b.1 - oy), (b.0 + ox, b.1 + oy), (a.0 + ox, a.1 + oy)])
                    .pen(Pen::NONE)
                    .hatch(Hatch::Paper)
            };
            vec![
                Shape::circle(at, r * 0.9).pen(pen).hatch(Hatch::Solid),
                arm(r * 0.55, r * 0.55),
                arm(r * 0.55, -r * 0.55),
            ]
        }
        MarkKind::BlowRings => vec![triangle(Hatch::Paper)],
        MarkKind::BlowDull => vec![triangle(Hatch::Solid)],
        MarkKind::BlowChatters => vec![
            triangle(Hatch::Paper),
            Shape::outline([(x, y + r * 0.8), (x, y - r * 0.7), (x + r * 0.8, y - r * 0.7)])
                .pen(pen)
                .hatch(Hatch::Solid),
        ],
        MarkKind::Blow => {
            vec![triangle(Hatch::Paper), line(vec![(x - r * 0.9, y - r * 0.1), (x + r * 0.9, y - r * 0.1)])]
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
    let pen = match (condition.dashed, condition.is_not_recorded()) {
        (true, _) => Pen::MIDDLE.dashed(),
        (_, true) => Pen::NONE,
        _ => Pen::THIN,
    };
    let state = condition.state();
    let label = if condition.word.is_empty() { state.to_owned() } else { format!("{state}: {}", condition.word) };
    let mut shapes = Vec::new();
    if condition.hatch != Hatch::Bare || condition.dashed {
        // Paper first, so that seams do not show through and confuse the hatch.
        let under = if condition.hatch == Hatch::Solid { Hatch::Solid } else { Hatch::Paper };
        shapes.push(Shape::outline(outline.clone()).pen(Pen::NONE).hatch(under));
    }
    shapes.push(Shape::outline(outline).pen(pen).hatch(condition.hatch));
    let group = Shape::group("condition", label, shapes).telling("state", state);
    Some(told(group, &condition.entry, &condition.place))
}

/// Returns a group that tells a page which entry it stands for, and where.
pub(crate) fn told(group: Shape, entry: &str, place: &Place) -> Shape {
    let group = if entry.is_empty() { group } else { group.telling("entry", entry) };
    told_of(place).into_iter().fold(group, |group, (name, value)| group.telling(name, value))
}

/// Returns marks with their words, the words kept clear of each other. Symbols come first so that no word
/// covers one. Marks on one spot are set beside each other.
pub(crate) fn marks(placed: &[(&Mark, (f64, f64))], labels: &mut Labels, letter_mm: f64) -> Vec<Shape> {
    let size = letter_mm * 0.95;
    let r = size * 0.6;
    let mut spots: Vec<(f64, f64)> = Vec::with_capacity(placed.len());
    for (_, at) in placed {
        let spot = beside_others(*at, &spots, size);
        labels.take(spot.0 - r, spot.1 - r, spot.0 + r, spot.1 + r);
        spots.push(spot);
    }
    let mut words = Vec::new();
    let mut symbols = Vec::new();
    for ((mark, _), at) in placed.iter().zip(&spots) {
        words.extend(labels.beside(*at, r + 0.4, letter_mm * 0.9, &mark.word, Ink::Accent));
        let label = if mark.word.is_empty() {
            mark.kind.word().to_owned()
        } else {
            format!("{}: {}", mark.kind.word(), mark.word)
        };
        symbols.push(told(Shape::group("mark", label, symbol(mark.kind, *at, size)), &mark.entry, &mark.place));
    }
    words.extend(symbols);
    words
}

/// Returns a condition's word within its outline at the first of a few spots that no mark takes, else beside it.
pub(crate) fn lettered(labels: &mut Labels, outline: &[(f64, f64)], size_mm: f64, word: &str) -> Vec<Shape> {
    let n = outline.len();
    if word.is_empty() || n == 0 {
        return Vec::new();
    }
    let sum = outline.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
    let middle = (sum.0 / n as f64, sum.1 / n as f64);
    // The outline runs out along one edge and back along the other, so opposite points stand across from each other.
    let across = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9].map(|share| {
        let i = (share * (n / 2) as f64) as usize;
        let (a, b) = (outline[i.min(n - 1)], outline[n - 1 - i.min(n - 1)]);
        (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1))
    });
    for at in [middle].into_iter().chain(across) {
        let inside = labels.centred(at, size_mm, word, Ink::Main);
        if !inside.is_empty() {
            return inside;
        }
    }
    labels.beside(middle, 1.0, size_mm, word, Ink::Main)
}

/// Returns the spot for a mark: its own, or the nearest beside it that no earlier mark covers, up to three sizes off.
fn beside_others(at: (f64, f64), others: &[(f64, f64)], size: f64) -> (f64, f64) {
    let steps = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0];
    let tries = [0.0, 1.0, -1.0].into_iter().flat_map(|up| steps.map(|along| (along, up)));
    let spots = tries.map(|(along, up)| (at.0 + along * size, at.1 - up * size));
    let clear = |p: &(f64, f64)| others.iter().all(|o| (o.0 - p.0).abs().max((o.1 - p.1).abs()) >= size * 0.8);
    spots.into_iter().find(clear).unwrap_or(at)
}
