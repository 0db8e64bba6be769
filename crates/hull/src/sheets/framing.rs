//! The framing plan: frames and floors seen from above.

use super::{
    Condition, Mark, Outline, Page,
    fitted::{Fitted, inner},
    labels::{Labels, width_mm},
    page::{self, Paper},
    parts::{self, Part},
};
use crate::{Basis, Frame, Place, Side};
use drawing::{Anchor, Pen, Shape, Sheet};

/// Returns the framing seen from above, the bow to the left and port above: frames on both sides, a floor at each,
/// keel line, bilge stringers and shelves. Places: [`Place::Frame`], [`Place::Floor`], and [`Place::Member`] with
/// `bilge-stringer-port`, `bilge-stringer-starboard`, `shelf-port`, `shelf-starboard`, `keelson`.
pub fn framing(
    paper: impl Into<Paper>,
    outline: &Outline,
    frames: &[Frame],
    conditions: &[Condition],
    marks: &[Mark],
) -> Sheet {
    let paper = paper.into();
    let page = paper.page;
    let l = outline.length_m;
    let spacing = if frames.len() > 1 {
        (frames[frames.len() - 1].from_stem_m - frames[0].from_stem_m) / (frames.len() - 1) as f64
    } else {
        0.3
    };
    let half = (0.16 * spacing).min(0.004 * l);
    let sign = |side: Side| if side == Side::Port { 1.0 } else { -1.0 };
    let frame = |index: usize, side: Side| -> Option<Vec<(f64, f64)>> {
        let x = frames.get(index.checked_sub(1)?)?.from_stem_m;
        let edge = outline.deck_at(x) * 0.97;
        let s = sign(side);
        Some(vec![(x - half, 0.012 * l * s), (x + half, 0.012 * l * s), (x + half, edge * s), (x - half, edge * s)])
    };
    let floor = |index: usize| -> Option<Vec<(f64, f64)>> {
        let x = frames.get(index.checked_sub(1)?)?.from_stem_m + half * 2.2;
        let reach = outline.deck_at(x) * 0.42;
        Some(vec![(x - half, -reach), (x + half, -reach), (x + half, reach), (x - half, reach)])
    };
    let run = |share: f64, wide: f64, side: Side| -> Vec<(f64, f64)> {
        let s = sign(side);
        let at = |i: i32| l * (0.05 + 0.90 * f64::from(i) / 40.0);
        let mut line: Vec<_> = (0..=40).map(|i| (at(i), s * outline.deck_at(at(i)) * share)).collect();
        line.extend((0..=40).rev().map(|i| (at(i), s * (outline.deck_at(at(i)) * share - wide).max(0.0))));
        line
    };
    let mut list = vec![Part::new(
        "keelson",
        "",
        vec![(0.08 * l, -0.010 * l), (0.93 * l, -0.010 * l), (0.93 * l, 0.010 * l), (0.08 * l, 0.010 * l)],
    )];
    for i in 1..=frames.len() {
        for side in [Side::Port, Side::Starboard] {
            list.extend(
                frame(i, side)
                    .map(|o| Part::new(&format!("frame-{side}-{i}"), "", o).at(Place::Frame { side, frame: i })),
            );
        }
        list.extend(floor(i).map(|o| Part::new(&format!("floor-{i}"), "", o).behind().at(Place::Floor { frame: i })));
    }
    for side in [Side::Port, Side::Starboard] {
        list.push(Part::new(&format!("shelf-{side}"), "", run(0.97, 0.008 * l, side)));
        list.push(Part::new(&format!("bilge-stringer-{side}"), "", run(0.60, 0.006 * l, side)).behind());
    }
    let find = |place: &Place| match place {
        Place::Frame { side, frame: f } => frame(*f, *side),
        Place::Floor { frame: f } => floor(*f),
        Place::Member { name } => list.iter().find(|p| p.name == *name).map(|p| p.outline.clone()),
        _ => None,
    };
    let here = |place: &Place| {
        matches!(place, Place::Frame { .. } | Place::Floor { .. })
            || matches!(place, Place::Member { .. }) && find(place).is_some()
    };
    let conditions: Vec<Condition> = conditions.iter().filter(|c| here(&c.place)).cloned().collect();
    let marks: Vec<Mark> = marks.iter().filter(|m| here(&m.place)).cloned().collect();
    let note = parts::note(outline.basis, &format!("{} frames, floors, stringers and shelves are", frames.len()));
    let (mut sheet, field) = page::begin(&paper, "Framing, from above", &note, &conditions, &marks);
    let beam = outline.deck_edge.iter().map(|p| p.1).fold(0.0, f64::max);
    let fit = Fitted::new(&inner(page, &field), [0.0, -1.08 * beam, l, 1.08 * beam]);
    let mut labels = Labels::within(field.left, field.top, field.right, field.bottom);
    sheet.add(Shape::outline(fit.line(&deck_line(outline))).pen(Pen::MIDDLE));
    number(&mut sheet, page, &fit, frames, outline, &mut labels);
    let missed = parts::draw(&mut sheet, page, &fit, &list, &find, &conditions, &marks, &mut labels);
    sides(&mut sheet, page, &fit, outline, &mut labels);
    let foot = (field.right - 1.0, field.bottom - page.letter_mm * 0.3);
    fit.mark_scale(&mut sheet, page, foot, outline.basis == Basis::Schematic);
    let words =
        format!("{} frames a side with floors, seen from above, the bow to the left, port above.", frames.len());
    sheet.description = parts::described(&words, &conditions, marks.len(), missed);
    sheet
}

/// The deck line right round.
pub(crate) fn deck_line(outline: &Outline) -> Vec<(f64, f64)> {
    let mut line = outline.deck_edge.clone();
    line.extend(outline.deck_edge.iter().rev().map(|p| (p.0, -p.1)));
    line
}

/// Frame numbers outboard of the port deck edge.
fn number(sheet: &mut Sheet, page: Page, fit: &Fitted, frames: &[Frame], outline: &Outline, labels: &mut Labels) {
    let small = page.small_mm();
    let mut last = f64::NEG_INFINITY;
    let count = frames.len();
    let crowded = frames.windows(2).any(|p| (p[1].from_stem_m - p[0].from_stem_m) * fit.per_m < small * 1.6);
    for (i, frame) in frames.iter().enumerate() {
        let regular = i == 0 || i + 1 == count || (i + 1) % 5 == 0;
        let wide = width_mm(&frame.name, small) + 1.2;
        let at = fit.at((frame.from_stem_m, outline.deck_at(frame.from_stem_m)));
        if (crowded && !regular) || at.0 - last < wide {
            continue;
        }
        last = at.0;
        labels.take(at.0 - wide / 2.0, at.1 - small * 1.4, at.0 + wide / 2.0, at.1);
        sheet.add(Shape::text((at.0, at.1 - small * 0.5), small, frame.name.clone()).anchored(Anchor::Middle));
    }
}

/// The words port and starboard, outside the deck line forward.
pub(crate) fn sides(sheet: &mut Sheet, page: Page, fit: &Fitted, outline: &Outline, labels: &mut Labels) {
    let beam = outline.deck_edge.iter().map(|p| p.1).fold(0.0, f64::max);
    for (word, y) in [("port", beam), ("starboard", -beam)] {
        let at = fit.at((0.03 * outline.length_m, y));
        sheet.add(Shape::text((at.0, at.1 + page.small_mm() * 0.3), page.small_mm(), word));
        labels.take(at.0, at.1 - page.small_mm(), at.0 + width_mm(word, page.small_mm()), at.1 + page.small_mm() * 0.4);
    }
}
