//! The backbone in profile.

use super::{
    Condition, Mark, Outline,
    fitted::{Fitted, inner},
    labels::Labels,
    page::{self, Paper},
    parts::{self, Part},
};
use crate::{Basis, Place};
use drawing::{Ink, Pen, Shape, Sheet};

/// What of the backbone this boat has.
#[derive(Clone, Debug, PartialEq)]
pub struct BackboneParts {
    /// Whether she has a ballast keel, with how many keel bolts.
    pub keel_bolts: Option<usize>,
    /// Whether the rudder hangs on the sternpost.
    pub rudder: bool,
    /// Draft below the rabbet's lowest point, in metres; a usual proportion when not known.
    pub keel_depth_m: Option<f64>,
}

impl Default for BackboneParts {
    fn default() -> Self {
        BackboneParts { keel_bolts: Some(8), rudder: true, keel_depth_m: None }
    }
}

/// Returns the backbone in profile, the bow to the left: stem, apron, knees, keel, deadwood, sternpost, horn timber,
/// rudder, ballast and bolts. Conditions and marks are placed by [`Place::Member`] with the names `stem`, `apron`,
/// `stem-knee`, `forefoot`, `keel`, `hog`, `deadwood-aft`, `sternpost`, `horn-timber`, `transom`, `rudder-blade`,
/// `ballast-keel`, and `keel-bolt-1`, `keel-bolt-2` … from forward; [`Place::Floor`] is not drawn here.
pub fn backbone(
    paper: impl Into<Paper>,
    outline: &Outline,
    has: &BackboneParts,
    conditions: &[Condition],
    marks: &[Mark],
) -> Sheet {
    let paper = paper.into();
    let page = paper.page;
    let parts = parts_of(outline, has);
    let find = |place: &Place| match place {
        Place::Member { name } => parts.iter().find(|p| p.name == *name).map(|p| p.outline.clone()),
        _ => None,
    };
    let here = |place: &Place| matches!(place, Place::Member { .. }) && find(place).is_some();
    let conditions: Vec<Condition> = conditions.iter().filter(|c| here(&c.place)).cloned().collect();
    let marks: Vec<Mark> = marks.iter().filter(|m| here(&m.place)).cloned().collect();
    let note = parts::note(outline.basis, "Timbers, ballast and bolts are");
    let (mut sheet, field) = page::begin(&paper, "Backbone, in profile", &note, &conditions, &marks);
    let lowest = parts.iter().flat_map(|p| &p.outline).map(|p| p.1).fold(0.0, f64::min) - 0.03 * outline.length_m;
    let highest = outline.sheer.iter().map(|p| p.1).fold(0.0, f64::max);
    let aft = parts.iter().flat_map(|p| &p.outline).map(|p| p.0).fold(outline.length_m, f64::max);
    let fit = Fitted::new(&inner(page, &field), [-0.02 * outline.length_m, lowest, aft, highest]);
    let mut labels = Labels::within(field.left, field.top, field.right, field.bottom);
    sheet.add(Shape::line(fit.line(&outline.sheer)).pen(Pen::MIDDLE));
    if let Some(z) = outline.waterline_m {
        let pen = Pen { width_mm: 0.2, ink: Ink::Faint, dashed: true };
        sheet.add(Shape::line(fit.line(&[(-0.02 * outline.length_m, z), (aft, z)])).pen(pen));
        let at = fit.at((0.5 * outline.length_m, z));
        let words = labels.beside((at.0, at.1), 0.6, page.small_mm(), "load waterline", Ink::Faint);
        words.into_iter().for_each(|s| sheet.add(s));
    }
    for part in parts.iter().filter(|p| p.name.starts_with("keel-bolt-")) {
        let at = fit.line(&part.outline);
        labels.take(at[0].0 - 0.8, at[0].1.min(at[2].1), at[0].0 + 1.6, at[0].1.max(at[2].1));
    }
    let missed = parts::draw(&mut sheet, page, &fit, &parts, &find, &conditions, &marks, &mut labels);
    sheet.add(Shape::line(fit.line(&outline.rabbet)).pen(Pen::MIDDLE.dashed()));
    let foot = (field.right - 1.0, field.bottom - page.letter_mm * 0.3);
    fit.mark_scale(&mut sheet, page, foot, outline.basis == Basis::Schematic);
    let words = "The timbers of the centre line seen from the port side, the bow to the left; the rabbet is dashed.";
    sheet.description = parts::described(words, &conditions, marks.len(), missed);
    sheet
}

fn parts_of(outline: &Outline, has: &BackboneParts) -> Vec<Part> {
    let l = outline.length_m;
    let r = &resampled(&outline.rabbet, 140);
    // The rabbet comes from the stem head down; its lowest third is keel.
    let low = r.iter().map(|p| p.1).fold(f64::MAX, f64::min);
    let depth = outline.sheer_at(0.5 * l) - low;
    let thick = 0.022 * l;
    let foot_level = low + 0.16 * depth;
    let turn = r.iter().position(|p| p.1 < foot_level + 0.12 * depth).unwrap_or(0);
    let after = r.iter().rposition(|p| p.1 < foot_level + 0.12 * depth).unwrap_or(r.len() - 1);
    let stem_line: Vec<_> = r[..=turn].to_vec();
    let keel_line: Vec<_> = r[turn..=after].to_vec();
    let stern_line: Vec<_> = r[after..].to_vec();
    let outside = |line: &[(f64, f64)], by: f64| offset(line, by);
    let mut parts = Vec::new();
    let band = |line: &[(f64, f64)], inner: f64, outer: f64| {
        let mut o = outside(line, inner);
        let mut b = outside(line, outer);
        b.reverse();
        o.extend(b);
        o
    };
    let keel_depth = has.keel_depth_m.unwrap_or(0.42 * depth).max(2.2 * thick);
    parts.push(Part::new("stem", "stem", band(&stem_line, -0.2 * thick, thick)));
    parts.push(Part::new("apron", "apron", band(&stem_line, -thick, -0.2 * thick)));
    let hog_word = outside(&keel_line, -1.5 * thick)[keel_line.len() / 5];
    parts.push(Part::new("hog", "hog", band(&keel_line, -0.75 * thick, -0.1 * thick)).word_at(hog_word));
    // The knee fills the angle between apron and hog, hollowed on its inner side.
    let (up, along) = (outside(&stem_line, -thick), outside(&keel_line, -0.75 * thick));
    let arm = |line: &[(f64, f64)], from_end: bool| -> Vec<(f64, f64)> {
        let corner = if from_end { line[line.len() - 1] } else { line[0] };
        let mut arm: Vec<_> =
            line.iter().copied().filter(|p| libm::hypot(p.0 - corner.0, p.1 - corner.1) < 0.10 * l).collect();
        if !from_end {
            arm.reverse();
        }
        arm
    };
    let (stem_arm, keel_arm) = (arm(&up, true), arm(&along, false));
    if let (Some(s), Some(k), Some(c)) =
        (stem_arm.first().copied(), keel_arm.first().copied(), stem_arm.last().copied())
    {
        let mut knee = stem_arm.clone();
        knee.extend(keel_arm.iter().rev());
        let inner = |t: f64| {
            let pull = 0.55 * 4.0 * t * (1.0 - t);
            let chord = (k.0 + t * (s.0 - k.0), k.1 + t * (s.1 - k.1));
            (chord.0 + pull * (c.0 + 0.03 * l - chord.0) * 0.6, chord.1 + pull * (c.1 + 0.03 * l - chord.1) * 0.6)
        };
        knee.extend((1..10).map(|i| inner(f64::from(i) / 10.0)));
        parts.push(Part::new("stem-knee", "stem knee", knee).word_at((k.0, k.1 + 0.05 * l)));
    }
    // Keel: from the stem's foot to the sternpost, level below.
    let (k0, k1) = (keel_line[0], keel_line[keel_line.len() - 1]);
    let bottom = low - 1.1 * thick;
    let heel = k1.0 - 0.02 * l;
    let mut keel = keel_line.clone();
    keel.retain(|p| p.0 <= heel);
    let fore = k0.0;
    keel.extend([(heel, bottom), (fore + 0.10 * l, bottom)]);
    let keel_word = (fore + 0.12 * l, 0.5 * (bottom + outline.rabbet_at(fore + 0.12 * l)));
    parts.push(Part::new("keel", "keel", keel).word_at(keel_word));
    let ballast = has.keel_bolts.is_some();
    let deep = low - keel_depth;
    let (b0, b1) = (fore + 0.20 * l, (0.70 * l).min(heel - 0.12 * l));
    if ballast {
        parts.push(Part::new(
            "ballast-keel",
            "ballast keel",
            vec![
                (b0, bottom),
                (b1, bottom),
                (b1 - 0.005 * l, deep),
                (b0 + 0.13 * l, deep),
                (b0 + 0.05 * l, bottom - 0.55 * (bottom - deep)),
            ],
        ));
        parts.push(Part::new(
            "deadwood-aft",
            "deadwood",
            vec![(b1, bottom), (heel, bottom), (heel + 0.006 * l, deep), (b1 - 0.005 * l, deep)],
        ));
    } else {
        parts.push(Part::new(
            "deadwood-aft",
            "deadwood",
            vec![(0.72 * l, bottom), (heel, bottom), (heel, bottom - 0.8 * thick), (0.74 * l, bottom - 0.8 * thick)],
        ));
    }
    // Sternpost from the keel's heel up to the counter or sheer.
    let under = if ballast { deep } else { bottom };
    let head = stern_line.iter().find(|p| p.0 > heel + 0.04 * l).copied().unwrap_or(stern_line[stern_line.len() - 1]);
    let post_head = (head.0.min(heel + 0.07 * l), head.1 + 0.6 * thick);
    let post = Part::new(
        "sternpost",
        "sternpost",
        vec![
            (heel, under),
            (heel + 1.1 * thick, under),
            (post_head.0 + 1.1 * thick, post_head.1),
            (post_head.0, post_head.1),
        ],
    );
    parts.push(post.word_at((heel - 0.01 * l, under - 0.020 * l)));
    if stern_line.len() > 2 {
        // It ends where the transom begins, whose own rise is steep.
        let mut horn: Vec<_> = stern_line.iter().copied().filter(|p| p.0 >= post_head.0 - 1e-9).collect();
        if let Some(steep) = horn.windows(2).position(|p| (p[1].1 - p[0].1) > 1.3 * (p[1].0 - p[0].0)) {
            horn.truncate(steep + 1);
        }
        let slope = |p: &[(f64, f64)]| (p[p.len() - 1].1 - p[0].1) / (p[p.len() - 1].0 - p[0].0).max(1e-6);
        if horn.len() > 1 && slope(&horn) < 1.6 {
            parts.push(Part::new("horn-timber", "horn timber", band(&horn, -1.2 * thick, -0.2 * thick)));
        }
    }
    if !outline.transom.is_empty() {
        let top = r[r.len() - 1];
        let up = outline.transom.last().map_or(0.0, |t| t.1);
        let base = r
            .iter()
            .rev()
            .find(|p| libm::hypot(p.0 - top.0, p.1 - top.1) >= 0.97 * up)
            .copied()
            .unwrap_or(r[r.len() - 2]);
        parts.push(Part::new(
            "transom",
            "transom",
            vec![base, top, (top.0 + 0.5 * thick, top.1), (base.0 + 0.5 * thick, base.1)],
        ));
    }
    if has.rudder {
        let a = (heel + 1.25 * thick, under + 0.02 * depth);
        let b = (post_head.0 + 1.25 * thick, post_head.1 - 0.3 * thick);
        let mix = |t: f64| (a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1));
        let (c, d) = (mix(0.45), mix(0.9));
        let outline = vec![a, b, (d.0 + 0.018 * l, d.1), (c.0 + 0.055 * l, c.1), (a.0 + 0.05 * l, a.1 + 0.01 * depth)];
        let word = (a.0 + 0.065 * l, under - 0.020 * l);
        parts.push(Part::new("rudder-blade", "rudder", outline).word_at(word));
    }
    if let Some(bolts) = has.keel_bolts {
        for i in 0..bolts.min(60) {
            let x = b0 + 0.06 * l + (b1 - b0 - 0.08 * l) * if bolts > 1 { i as f64 / (bolts - 1) as f64 } else { 0.5 };
            let (top, foot) = (outline.rabbet_at(x) + 0.9 * thick, bottom - 0.7 * (bottom - deep));
            let w = 0.0016 * l;
            let name = format!("keel-bolt-{}", i + 1);
            let mut bolt = Part::new(&name, "", vec![(x - w, top), (x + w, top), (x + w, foot), (x - w, foot)]);
            bolt.word = String::new();
            parts.push(bolt);
        }
    }
    parts
}

/// The same line by evenly spaced points, so that parts can be cut from it by count.
fn resampled(line: &[(f64, f64)], count: usize) -> Vec<(f64, f64)> {
    let mut long = vec![0.0];
    for p in line.windows(2) {
        long.push(long[long.len() - 1] + libm::hypot(p[1].0 - p[0].0, p[1].1 - p[0].1));
    }
    let total = long[long.len() - 1];
    (0..=count)
        .map(|i| {
            let wanted = total * i as f64 / count as f64;
            let k = long.partition_point(|s| *s < wanted).clamp(1, long.len() - 1);
            let share = if long[k] > long[k - 1] { (wanted - long[k - 1]) / (long[k] - long[k - 1]) } else { 0.0 };
            let (a, b) = (line[k - 1], line[k]);
            (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
        })
        .collect()
}

/// A line moved sideways: positive to the left of its run from stem head downwards, which is outboard of the rabbet.
fn offset(line: &[(f64, f64)], by: f64) -> Vec<(f64, f64)> {
    let n = line.len();
    (0..n)
        .map(|i| {
            let (a, b) = (line[i.saturating_sub(1)], line[(i + 1).min(n - 1)]);
            let (dx, dy) = (b.0 - a.0, b.1 - a.1);
            let long = libm::hypot(dx, dy).max(1e-9);
            (line[i].0 + by * dy / long, line[i].1 - by * dx / long)
        })
        .collect()
}
