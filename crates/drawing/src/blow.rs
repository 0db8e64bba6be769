//! A hammer blow as a drawing: its course, how it dies away, its tones, each beside what the reference blows did; and the
//! blows along a member.

use crate::{Anchor, Ink, Pen, Shape, Sheet};

/// What is drawn of a blow. Levels are in decibels under the blow's own peak.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BlowTraces {
    /// The course of the sound, least and greatest of each short stretch, between -1 and 1.
    pub course: Vec<(f64, f64)>,
    /// Length of the course, in milliseconds.
    pub course_ms: f64,
    /// Dying away: time in milliseconds and level in decibels.
    pub decay: Vec<(f64, f64)>,
    /// Tones: frequency in hertz and level in decibels.
    pub tones: Vec<(f64, f64)>,
    /// The same of the reference blows; empty without any.
    pub reference_decay: Vec<(f64, f64)>,
    /// The same of the reference blows; empty without any.
    pub reference_tones: Vec<(f64, f64)>,
}

/// A blow on a member, for the drawing along it.
#[derive(Clone, Debug, PartialEq)]
pub struct StruckAt {
    /// Frame at which it was struck, from the stem.
    pub frame: f64,
    /// Strake, from the garboard; none on a member that is no plank.
    pub strake: Option<u32>,
    /// How it answered.
    pub answer: Answered,
}

/// How a blow answered, as it is marked: an open circle rings, a full one is dull, a cross cannot be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answered {
    /// Rings.
    Rings,
    /// Dull, hollow or chattering.
    Dull,
    /// Cannot be told.
    NotTold,
}

const LETTERS_MM: f64 = 3.0;
const DEEPEST_DB: f64 = -48.0;

/// A part of the sheet with its own axes.
struct Part {
    left: f64,
    top: f64,
    width: f64,
    height: f64,
}

impl Part {
    fn frame(&self, sheet: &mut Sheet, heading: &str, from: &str, to: &str) {
        sheet.add(Shape::text((self.left, self.top - 1.6), LETTERS_MM, heading));
        let mut pen = Pen::THIN;
        pen.ink = Ink::Faint;
        sheet.add(Shape::rectangle(self.left, self.top, self.width, self.height).pen(pen));
        let below = self.top + self.height + LETTERS_MM + 0.6;
        sheet.add(Shape::text((self.left, below), LETTERS_MM, from));
        sheet.add(Shape::text((self.left + self.width, below), LETTERS_MM, to).anchored(Anchor::End));
    }

    /// Returns the point at a share of the width and a level.
    fn at(&self, share: f64, db: f64) -> (f64, f64) {
        let down = (db / DEEPEST_DB).clamp(0.0, 1.0);
        (self.left + share.clamp(0.0, 1.0) * self.width, self.top + down * self.height)
    }
}

/// Returns the drawing of a blow, 120 mm × 44 mm: course, dying away, tones. What the reference blows did is dashed.
pub fn blow(title: &str, description: &str, traces: &BlowTraces) -> Sheet {
    let mut sheet = Sheet::new(120.0, 44.0, title, description);
    let part = |n: f64| Part { left: 2.0 + n * 40.0, top: 6.0, width: 36.0, height: 32.0 };
    let (course, decay, tones) = (part(0.0), part(1.0), part(2.0));

    course.frame(&mut sheet, "course", "0", &format!("{:.0} ms", traces.course_ms));
    let step = course.width / traces.course.len().max(1) as f64;
    let middle = course.top + course.height / 2.0;
    let y = |value: f64| middle - finite(value).clamp(-1.0, 1.0) * course.height / 2.0;
    let mut outline: Vec<(f64, f64)> = Vec::new();
    for (n, (least, greatest)) in traces.course.iter().enumerate() {
        let x = course.left + (n as f64 + 0.5) * step;
        outline.extend([(x, y(*least)), (x, y(*greatest))]);
    }
    if outline.len() > 1 {
        sheet.add(Shape::line(outline));
    }

    let last_ms = traces.decay.iter().chain(&traces.reference_decay).fold(1.0_f64, |most, (ms, _)| most.max(*ms));
    decay.frame(&mut sheet, "dying away, 48 dB", "0", &format!("{last_ms:.0} ms"));
    let by_time = |points: &[(f64, f64)]| -> Vec<(f64, f64)> {
        points.iter().map(|(ms, db)| decay.at(ms / last_ms, finite(*db))).collect()
    };
    pair(&mut sheet, by_time(&traces.reference_decay), by_time(&traces.decay));

    let all = traces.tones.iter().chain(&traces.reference_tones).map(|(hz, _)| *hz).filter(|hz| *hz > 0.0);
    let (low, high) = all.fold((f64::MAX, 1.0_f64), |(low, high), hz| (low.min(hz), high.max(hz)));
    let (low, high) = if low < high { (low, high) } else { (100.0, 10_000.0) };
    tones.frame(&mut sheet, "tones, 48 dB", &format!("{low:.0} Hz"), &format!("{:.0} kHz", high / 1000.0));
    let by_tone = |points: &[(f64, f64)]| -> Vec<(f64, f64)> {
        let share = |hz: f64| (hz.max(1.0) / low).ln() / (high / low).ln();
        points.iter().map(|(hz, db)| tones.at(share(*hz), finite(*db))).collect()
    };
    pair(&mut sheet, by_tone(&traces.reference_tones), by_tone(&traces.tones));
    sheet
}

/// Draws the reference dashed and the blow over it.
fn pair(sheet: &mut Sheet, reference: Vec<(f64, f64)>, own: Vec<(f64, f64)>) {
    if reference.len() > 1 {
        let mut pen = Pen::THIN;
        pen.dashed = true;
        sheet.add(Shape::line(reference).pen(pen));
    }
    if own.len() > 1 {
        let mut pen = Pen::THIN;
        pen.width_mm *= 2.0;
        sheet.add(Shape::line(own).pen(pen));
    }
}

fn finite(value: f64) -> f64 {
    if value.is_finite() { value } else { DEEPEST_DB }
}

/// Returns the blows along a member, 120 mm wide: one row a strake, frames from the stem on the left. Nothing is drawn
/// where nothing was struck. Several blows on one place stand one above the other. `None` without any blow.
pub fn along(title: &str, description: &str, struck: &[StruckAt]) -> Option<Sheet> {
    let frames = || struck.iter().map(|one| one.frame).filter(|frame| frame.is_finite());
    let first = frames().min_by(f64::total_cmp)?.floor() - 1.0;
    let last = frames().max_by(f64::total_cmp)?.ceil() + 1.0;
    let mut rows: Vec<Option<u32>> = struck.iter().map(|one| one.strake).collect();
    // The sheer is above, as on the boat.
    rows.sort_by_key(|row| std::cmp::Reverse(*row));
    rows.dedup();
    let (left, right, tall) = (20.0, 117.0, 12.0);
    let bottom = 4.0 + rows.len() as f64 * tall;
    let mut sheet = Sheet::new(120.0, bottom + 8.0, title, description);
    let x = |frame: f64| left + (frame - first) / (last - first) * (right - left);
    let mut faint = Pen::THIN;
    faint.ink = Ink::Faint;
    let every = ((last - first) / 12.0).ceil().max(1.0);
    let mut frame = first + 1.0;
    while frame < last {
        sheet.add(Shape::line([(x(frame), 4.0), (x(frame), bottom)]).pen(faint));
        let words = Shape::text((x(frame), bottom + 4.5), LETTERS_MM, format!("{frame:.0}"));
        sheet.add(words.anchored(Anchor::Middle));
        frame += every;
    }
    sheet.add(Shape::text((2.0, bottom + 4.5), LETTERS_MM, "frame"));
    for (n, row) in rows.iter().enumerate() {
        let top = 4.0 + n as f64 * tall;
        for edge in [top, top + tall] {
            sheet.add(Shape::line([(left, edge), (right, edge)]));
        }
        if let Some(strake) = row {
            sheet.add(Shape::text((2.0, top + tall / 2.0 + 1.0), LETTERS_MM, format!("strake {strake}")));
        }
        let mut drawn: Vec<f64> = Vec::new();
        for one in struck.iter().filter(|one| one.strake == *row && one.frame.is_finite()) {
            let before = drawn.iter().filter(|frame| (**frame - one.frame).abs() < 1e-9).count();
            drawn.push(one.frame);
            let centre = (x(one.frame), top + tall - 2.2 - (before % 4) as f64 * 2.6);
            sheet.add(mark(centre, one.answer));
        }
    }
    Some(sheet)
}

fn mark(centre: (f64, f64), answer: Answered) -> Shape {
    let r = 1.1;
    let mut bold = Pen::THIN;
    bold.width_mm *= 2.0;
    match answer {
        Answered::Rings => Shape::group("blow", "rings", vec![Shape::circle(centre, r).pen(bold)]),
        Answered::Dull => {
            let rings = [1.0, 0.66, 0.33].map(|part| Shape::circle(centre, r * part).pen(bold));
            Shape::group("blow", "dull", rings.to_vec())
        }
        Answered::NotTold => {
            let (x, y) = centre;
            let strokes = [[(x - r, y - r), (x + r, y + r)], [(x - r, y + r), (x + r, y - r)]];
            Shape::group("blow", "cannot be told", strokes.map(|stroke| Shape::line(stroke).pen(bold)).to_vec())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_blow_shows_its_own_lines_and_the_reference_dashed() {
        let falling = |by: f64| (0..20).map(|n| (f64::from(n) * 5.0, -by * f64::from(n))).collect::<Vec<_>>();
        let own =
            BlowTraces { course: vec![(-1.0, 1.0); 9], course_ms: 60.0, decay: falling(4.0), ..Default::default() };
        let alone = blow("Blow", "One blow", &own).to_svg();
        assert!(!alone.contains("dash"), "nothing to compare with is drawn without references");
        let beside = BlowTraces { reference_decay: falling(2.0), ..own };
        assert!(blow("Blow", "One blow", &beside).to_svg().contains("dash"));
    }

    #[test]
    fn numbers_that_are_none_do_not_reach_the_page() {
        let bad = f64::NAN;
        let traces = BlowTraces {
            course: vec![(bad, bad); 4],
            decay: vec![(0.0, bad); 3],
            tones: vec![(bad, bad), (0.0, 0.0)],
            ..Default::default()
        };
        assert!(!blow("Blow", "", &traces).to_svg().contains("NaN"));
    }

    #[test]
    fn every_blow_has_its_mark_on_its_row() {
        let at = |frame, strake, answer| StruckAt { frame, strake: Some(strake), answer };
        let struck = [at(9.0, 4, Answered::Rings), at(9.0, 4, Answered::Dull), at(11.0, 5, Answered::NotTold)];
        let sheet = along("Blows", "", &struck).expect("there are blows");
        let labels: Vec<&str> = sheet
            .shapes
            .iter()
            .filter_map(|s| if let Shape::Group { label, .. } = s { Some(label.as_str()) } else { None })
            .collect();
        assert_eq!(labels, ["cannot be told", "rings", "dull"], "the upper strake comes first");
        assert!(sheet.to_svg().contains("strake 5"));
        assert!(along("Blows", "", &[]).is_none());
    }
}
