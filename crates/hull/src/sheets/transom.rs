//! The transom in its own plane.

use super::{
    Condition, Mark, Outline,
    fitted::{Fitted, inner},
    labels::Labels,
    page::{self, Paper},
    parts::{self, Part},
};
use crate::{Basis, Place};
use drawing::{Pen, Shape, Sheet};

/// Returns the transom laid flat in its own plane (along its curve where it is curved fore and aft), seen from abaft:
/// port to the left. Places: [`Place::Transom`] and [`Place::Member`] `transom`. A boat without one gives a sheet that
/// says so.
pub fn transom(paper: impl Into<Paper>, outline: &Outline, conditions: &[Condition], marks: &[Mark]) -> Sheet {
    let paper = paper.into();
    let page = paper.page;
    let edge = &outline.transom;
    let high = edge.last().map_or(0.0, |p| p.1);
    let half_at = |up: f64| {
        let i = edge.partition_point(|p| p.1 < up).clamp(1, edge.len().max(2) - 1);
        match (edge.get(i - 1), edge.get(i)) {
            (Some(a), Some(b)) => {
                a.0 + (b.0 - a.0) * if b.1 > a.1 { ((up - a.1) / (b.1 - a.1)).clamp(0.0, 1.0) } else { 0.0 }
            }
            _ => 0.0,
        }
    };
    let mut whole: Vec<(f64, f64)> = edge.iter().map(|p| (-p.0, p.1)).collect();
    whole.reverse();
    whole.extend(edge.iter().copied());
    let find = |place: &Place| match place {
        _ if edge.is_empty() => None,
        Place::Transom { from, to, low, high: top } => {
            let steps = 16;
            let up = |i: i32| high * (low + (top - low) * f64::from(i) / f64::from(steps));
            let mut o: Vec<_> = (0..=steps).map(|i| (from * half_at(up(i)), up(i))).collect();
            o.extend((0..=steps).rev().map(|i| (to * half_at(up(i)), up(i))));
            Some(o)
        }
        Place::Member { name } if name == "transom" => Some(whole.clone()),
        _ => None,
    };
    let here = |place: &Place| find(place).is_some();
    let conditions: Vec<Condition> = conditions.iter().filter(|c| here(&c.place)).cloned().collect();
    let marks: Vec<Mark> = marks.iter().filter(|m| here(&m.place)).cloned().collect();
    let note = match (edge.is_empty(), outline.basis) {
        (true, _) => "She has no transom.".to_owned(),
        (_, Basis::Schematic) => "Schematic: no lines known; the shape is invented.".to_owned(),
        (_, Basis::Measured) => "In its own plane, from a hull fitted to a few measurements.".to_owned(),
        (_, Basis::Offsets) => "In its own plane, from the table of offsets.".to_owned(),
    };
    let (mut sheet, field) = page::begin(&paper, "Transom, from abaft", &note, &conditions, &marks);
    sheet.description = "She has no transom.".to_owned();
    if edge.is_empty() {
        return sheet;
    }
    let wide = edge.iter().map(|p| p.0).fold(0.0, f64::max);
    let fit = Fitted::new(&inner(page, &field), [-1.1 * wide, 0.0, 1.1 * wide, high * 1.04]);
    let mut labels = Labels::within(field.left, field.top, field.right, field.bottom);
    let small = page.small_mm();
    let list = [Part::new("transom", "", whole.clone())];
    let missed = parts::draw(&mut sheet, page, &fit, &list, &find, &conditions, &marks, &mut labels);
    sheet.add(Shape::outline(fit.line(&whole)).pen(Pen::MIDDLE));
    sheet.add(Shape::line(fit.line(&[(0.0, 0.0), (0.0, high)])).pen(Pen::FAINT.dashed()));
    let foot = fit.at((-wide, 0.0));
    sheet.add(Shape::text((foot.0, foot.1 - small * 0.3), small, "port"));
    let foot = fit.at((wide, 0.0));
    sheet.add(Shape::text((foot.0, foot.1 - small * 0.3), small, "starboard").anchored(drawing::Anchor::End));
    let corner = (field.right - 1.0, field.bottom - page.letter_mm * 0.3);
    fit.mark_scale(&mut sheet, page, corner, outline.basis == Basis::Schematic);
    let words = "The transom in its own plane seen from abaft, port to the left.";
    sheet.description = parts::described(words, &conditions, marks.len(), missed);
    sheet
}
