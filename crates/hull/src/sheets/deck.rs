//! The deck plan.

use super::{
    Condition, Mark, Outline,
    fitted::{Fitted, inner},
    framing::{deck_line, sides},
    labels::Labels,
    page::{self, Paper},
    parts::{self, Part},
};
use crate::{Along, Basis, Frame, Place, Side};
use drawing::{Anchor, Ink, Pen, Shape, Sheet};

/// What stands on deck: openings and houses as (name, from, to, half-breadth), in metres abaft the stem.
pub type Opening = (String, f64, f64, f64);

/// Returns the deck from above, the bow to the left and port above: covering boards, king plank, beams (dashed, below)
/// and openings. Places: [`Place::Deck`], [`Place::Beam`] (counted from forward), and [`Place::Member`] with
/// `covering-board-port`, `covering-board-starboard`, `king-plank` and the openings' names.
pub fn deck(
    paper: impl Into<Paper>,
    outline: &Outline,
    beams: usize,
    frames: &[Frame],
    openings: &[Opening],
    conditions: &[Condition],
    marks: &[Mark],
) -> Sheet {
    let paper = paper.into();
    let page = paper.page;
    let l = outline.length_m;
    let sign = |side: Side| if side == Side::Port { 1.0 } else { -1.0 };
    let along = |a: Along| -> Option<f64> {
        match a {
            Along::Stem => Some(0.0),
            Along::Stern => Some(l),
            Along::FromStemM(m) => Some(m.clamp(0.0, l)),
            Along::Frame(f) => crate::layout::frame_to_m(frames, f).ok(),
        }
    };
    let patch = |side: Side, from: f64, to: f64, inner: f64, outer: f64| -> Vec<(f64, f64)> {
        let (from, to) = (from.min(to), from.max(to));
        let steps = 24;
        let at = |i: i32| from + (to - from) * f64::from(i) / f64::from(steps);
        let line = |share: f64, i: i32| (at(i), sign(side) * outline.deck_at(at(i)) * share);
        let mut o: Vec<_> = (0..=steps).map(|i| line(inner, i)).collect();
        o.extend((0..=steps).rev().map(|i| line(outer, i)));
        o
    };
    let beam = |index: usize| -> Option<Vec<(f64, f64)>> {
        if index < 1 || index > beams {
            return None;
        }
        let x = l * (0.06 + 0.88 * if beams > 1 { (index - 1) as f64 / (beams - 1) as f64 } else { 0.5 });
        let (y, w) = (outline.deck_at(x), 0.0035 * l);
        Some(vec![(x - w, -y), (x + w, -y), (x + w, y), (x - w, y)])
    };
    let mut list = Vec::new();
    for i in 1..=beams {
        list.extend(beam(i).map(|o| Part::new(&format!("beam-{i}"), "", o).behind().at(Place::Beam { beam: i })));
    }
    for side in [Side::Port, Side::Starboard] {
        list.push(Part::new(&format!("covering-board-{side}"), "", patch(side, 0.0, l, 0.90, 1.0)));
    }
    list.push(Part::new(
        "king-plank",
        "",
        vec![(0.02 * l, -0.008 * l), (0.98 * l, -0.008 * l), (0.98 * l, 0.008 * l), (0.02 * l, 0.008 * l)],
    ));
    for (name, from, to, half) in openings {
        let corners = vec![(*from, -half), (*to, -half), (*to, *half), (*from, *half)];
        list.push(Part::new(name, name, corners).hiding());
    }
    let find = |place: &Place| match place {
        Place::Deck { side, from, to, inner, outer } => Some(patch(*side, along(*from)?, along(*to)?, *inner, *outer)),
        Place::Beam { beam: b } => beam(*b),
        Place::Member { name } => list.iter().find(|p| p.name == *name).map(|p| p.outline.clone()),
        _ => None,
    };
    let here = |place: &Place| {
        matches!(place, Place::Deck { .. } | Place::Beam { .. })
            || matches!(place, Place::Member { .. }) && find(place).is_some()
    };
    let conditions: Vec<Condition> = conditions.iter().filter(|c| here(&c.place)).cloned().collect();
    let marks: Vec<Mark> = marks.iter().filter(|m| here(&m.place)).cloned().collect();
    let note = parts::note(outline.basis, &format!("{beams} beams (dashed), covering boards and king plank are"));
    let (mut sheet, field) = page::begin(&paper, "Deck, from above", &note, &conditions, &marks);
    let wide = outline.deck_edge.iter().map(|p| p.1).fold(0.0, f64::max);
    let fit = Fitted::new(&inner(page, &field), [0.0, -1.08 * wide, l, 1.08 * wide]);
    let mut labels = Labels::within(field.left, field.top, field.right, field.bottom);
    sheet.add(Shape::outline(fit.line(&deck_line(outline))).pen(Pen::MIDDLE));
    let small = page.small_mm();
    for i in (1..=beams).filter(|i| *i == 1 || *i == beams || i % 5 == 0) {
        let Some(o) = beam(i) else { continue };
        let at = fit.at((0.5 * (o[0].0 + o[1].0), o[2].1));
        sheet.add(
            Shape::text((at.0, at.1 - small * 0.5), small, i.to_string()).anchored(Anchor::Middle).inked(Ink::Faint),
        );
        labels.take(at.0 - small, at.1 - small * 1.5, at.0 + small, at.1);
    }
    let missed = parts::draw(&mut sheet, page, &fit, &list, &find, &conditions, &marks, &mut labels);
    sides(&mut sheet, page, &fit, outline, &mut labels);
    let foot = (field.right - 1.0, field.bottom - page.letter_mm * 0.3);
    fit.mark_scale(&mut sheet, page, foot, outline.basis == Basis::Schematic);
    let words = format!("The deck seen from above, the bow to the left, port above, with {beams} beams below it.");
    sheet.description = parts::described(&words, &conditions, marks.len(), missed);
    sheet
}
