//! The shell laid flat, one side or both about the keel line.

use super::{
    Condition, Mark, Page, annotate,
    labels::Labels,
    page::{self, Field, Paper},
};
use crate::{Basis, Layout, Patch, Place, Side};
use drawing::{Anchor, Ink, Pen, Shape, Sheet};

/// Returns the shell of one side laid flat, as wide as a report's column, seen from outside: the bow to the left
/// on the port side and to the right on the starboard side. Conditions and marks of the other side, and those
/// that this sheet has no place for, are left out and counted in the sheet's description.
pub fn shell(layout: &Layout, side: Side, conditions: &[Condition], marks: &[Mark]) -> Sheet {
    shell_on(Page::REPORT, layout, side, conditions, marks)
}

/// Returns the shell of one side laid flat on the given paper; see [`shell`].
pub fn shell_on(
    paper: impl Into<Paper>,
    layout: &Layout,
    side: Side,
    conditions: &[Condition],
    marks: &[Mark],
) -> Sheet {
    shell_drawn(paper, layout, &[side], conditions, marks).sheet
}

/// Returns both sides laid flat about one keel line, port above, the bow to the left.
pub fn shell_pair(paper: impl Into<Paper>, layout: &Layout, conditions: &[Condition], marks: &[Mark]) -> Sheet {
    shell_drawn(paper, layout, &[Side::Port, Side::Starboard], conditions, marks).sheet
}

/// Returns the shell of one side, or of port and starboard about one keel line, with where it lies on the paper, so
/// that a point of the paper can be found again on the planking.
pub fn shell_drawn(
    paper: impl Into<Paper>,
    layout: &Layout,
    sides: &[Side],
    conditions: &[Condition],
    marks: &[Mark],
) -> ShellSheet {
    let title = match sides {
        [Side::Port] => "Port shell, laid flat, from outside",
        [Side::Starboard] => "Starboard shell, laid flat, from outside",
        _ => "Shell laid flat about the keel line, from outside",
    };
    draw(&paper.into(), title, layout, sides, conditions, marks)
}

/// A drawing of the shell, and where it lies on its paper.
#[derive(Clone, Debug)]
pub struct ShellSheet {
    /// The drawing.
    pub sheet: Sheet,
    /// Where the shell lies on it.
    pub lay: ShellLay,
}

/// Where the shell lies on the paper of one drawing.
#[derive(Clone, Debug)]
pub struct ShellLay {
    sides: Vec<(Side, Lay)>,
}

/// A point on the planking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnShell {
    /// Side.
    pub side: Side,
    /// Strake, counted from the garboard, which is 1.
    pub strake: usize,
    /// Share across the strake, 0 at its lower edge.
    pub across: f64,
    /// Distance abaft the foremost point of the stem, in metres.
    pub from_stem_m: f64,
}

impl ShellLay {
    /// Returns where on the planking a point of the paper lies, in millimetres from its upper left corner; none off
    /// the shell. `layout` is the one that was drawn.
    pub fn locate(&self, layout: &Layout, x_mm: f64, y_mm: f64) -> Option<OnShell> {
        self.sides.iter().find_map(|(side, lay)| {
            let (from_stem_m, up_m) = lay.back((x_mm, y_mm));
            let (strake, across) = layout.locate(from_stem_m, up_m)?;
            Some(OnShell { side: *side, strake, across, from_stem_m })
        })
    }

    /// Returns where on the paper, in millimetres, a place of the layout is drawn; none when it is not on this sheet.
    pub fn point(&self, layout: &Layout, place: &Place) -> Option<(f64, f64)> {
        let (_, lay) = self.sides.iter().find(|(side, _)| place.side() == Some(*side))?;
        spot(layout, place).map(|p| lay.at(p))
    }
}

/// From metres on the layout to millimetres on paper.
#[derive(Clone, Copy, Debug)]
struct Lay {
    origin: (f64, f64),
    per_m: (f64, f64),
}

impl Lay {
    fn at(&self, p: (f64, f64)) -> (f64, f64) {
        (self.origin.0 + self.per_m.0 * p.0, self.origin.1 + self.per_m.1 * p.1)
    }

    fn back(&self, p: (f64, f64)) -> (f64, f64) {
        ((p.0 - self.origin.0) / self.per_m.0, (p.1 - self.origin.1) / self.per_m.1)
    }

    fn line(&self, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        points.iter().map(|p| self.at(*p)).collect()
    }
}

fn draw(
    paper: &Paper,
    title: &str,
    layout: &Layout,
    sides: &[Side],
    conditions: &[Condition],
    marks: &[Mark],
) -> ShellSheet {
    let page = paper.page;
    let here = |place: &Place| {
        matches!(place, Place::Shell(_) | Place::Seam { .. } | Place::Frame { .. })
            && place.side().is_some_and(|side| sides.contains(&side))
    };
    let conditions: Vec<Condition> = conditions.iter().filter(|c| here(&c.place)).cloned().collect();
    let marks: Vec<Mark> = marks.iter().filter(|m| here(&m.place)).cloned().collect();
    let (mut sheet, field) = page::begin(paper, title, &note(layout), &conditions, &marks);

    // Room for lettering: frame numbers along the keel, strake numbers at the hood ends, a line for the scale.
    let letter = page.letter_mm;
    let pair = sides.len() > 1;
    let scale_room = letter * 2.2;
    let frame_room = letter * 1.6;
    let room = Field {
        left: field.left + letter * 2.4,
        right: field.right - letter * 2.4,
        top: field.top + letter * 0.4,
        bottom: field.bottom - scale_room - if pair { 0.0 } else { frame_room },
    };
    let girth = (0..=layout.strakes()).filter_map(|k| layout.seam(k)).flatten().map(|p| p.1).fold(1e-6, f64::max);
    let middle_gap = if pair { frame_room * 1.3 } else { 0.0 };
    let high_m = girth * sides.len() as f64;
    let room_mm = (room.width(), room.height() - middle_gap);
    let (per_m, scale) = if layout.basis == Basis::Schematic {
        let fit = (room_mm.0 / layout.length_m, room_mm.1 / high_m);
        // A schematic may be stretched a little to be legible, never beyond a boat's look.
        ((fit.0, fit.1.min(fit.0 * 1.5)), None)
    } else {
        match page::usual_scale((layout.length_m, high_m), room_mm) {
            Some(scale) => ((1000.0 / scale, 1000.0 / scale), Some(scale)),
            None => {
                let fit = (room_mm.0 / layout.length_m).min(room_mm.1 / high_m);
                ((fit, fit), None)
            }
        }
    };
    let drawn = (layout.length_m * per_m.0, high_m * per_m.1 + middle_gap);
    let left = room.left + (room.width() - drawn.0) / 2.0;
    let top = room.top + (room.height() - drawn.1) / 2.0;

    let mut labels = Labels::within(field.left, field.top - letter, field.right, field.bottom);
    let mut missed = 0;
    let mut lays = Vec::new();
    for side in sides {
        let lay = match (side, pair) {
            (Side::Starboard, false) => Lay { origin: (left + drawn.0, top + drawn.1), per_m: (-per_m.0, -per_m.1) },
            (Side::Starboard, true) => Lay { origin: (left, top + girth * per_m.1 + middle_gap), per_m },
            (Side::Port, _) => Lay { origin: (left, top + girth * per_m.1), per_m: (per_m.0, -per_m.1) },
        };
        lays.push((*side, lay));
        missed += side_of(&mut sheet, page, layout, *side, &lay, pair, &conditions, &marks, &mut labels);
    }
    if pair {
        let y = top + girth * per_m.1 + middle_gap / 2.0;
        sheet.add(Shape::text((left + drawn.0 / 2.0, y + letter * 0.35), letter, "").anchored(Anchor::Middle));
    }
    let foot = field.bottom - letter * 0.3;
    if let Some(scale) = scale {
        sheet.add(page::scale_bar((field.right - 1.0, foot), scale, page.small_mm()));
    } else {
        let words = "Not to scale";
        sheet.add(Shape::text((field.right, foot), page.small_mm(), words).anchored(Anchor::End).inked(Ink::Faint));
    }
    sheet.description = describe(layout, sides, &conditions, &marks, missed);
    ShellSheet { sheet, lay: ShellLay { sides: lays } }
}

fn note(layout: &Layout) -> String {
    match layout.basis {
        Basis::Schematic => format!(
            "Schematic: no lines known. {} strakes a side and {} frames by count only; shape, widths and spacing are invented.",
            layout.strakes(),
            layout.frames.len()
        ),
        Basis::Measured => {
            "Hull fitted to a few measurements. Along: true length fore and aft. Up: girth from the rabbet.".to_owned()
        }
        Basis::Offsets => {
            "From a table of offsets. Along: true length fore and aft. Up: girth from the rabbet.".to_owned()
        }
    }
}

fn describe(layout: &Layout, sides: &[Side], conditions: &[Condition], marks: &[Mark], missed: usize) -> String {
    let names: Vec<_> = sides.iter().map(|s| s.word()).collect();
    let mut words = format!(
        "The planking of the {} side laid flat: {} strakes from the garboard up, {} frames from forward. {} conditions and {} marks.",
        names.join(" and "),
        layout.strakes(),
        layout.frames.len(),
        conditions.iter().filter(|c| !c.is_not_recorded()).count(),
        marks.len()
    );
    if missed > 0 {
        words.push_str(&format!(" {missed} could not be placed and are not drawn."));
    }
    words
}

#[expect(clippy::too_many_arguments, reason = "one drawing step, called once a side")]
fn side_of(
    sheet: &mut Sheet,
    page: Page,
    layout: &Layout,
    side: Side,
    lay: &Lay,
    pair: bool,
    conditions: &[Condition],
    marks: &[Mark],
    labels: &mut Labels,
) -> usize {
    let letter = page.letter_mm;
    let small = page.small_mm();
    let n = layout.strakes();
    let mut missed = 0;

    // Frames first, then conditions over them, then seams over both: the seams must stay readable.
    let frames: Vec<_> =
        layout.frames.iter().map(|f| Shape::line(lay.line(&layout.section(f.from_stem_m))).pen(Pen::FAINT)).collect();
    sheet.add(Shape::group(format!("frames-{side}"), "", frames));

    // The strakes themselves, to be pointed at.
    let strakes: Vec<_> = (1..=n).filter_map(|strake| strake_of(layout, lay, side, strake)).collect();
    sheet.add(Shape::group(format!("strakes-{side}"), "", strakes));

    let mut filled = Vec::new();
    let mut words = Vec::new();
    for condition in conditions.iter().filter(|c| c.place.side() == Some(side)) {
        let outline = match &condition.place {
            Place::Shell(patch) => layout.outline(patch).unwrap_or_default(),
            Place::Seam { seam, from, to, .. } => seam_band(layout, *seam, *from, *to, 0.8 / lay.per_m.1.abs()),
            Place::Frame { frame, .. } => frame_band(layout, *frame, 0.8 / lay.per_m.0.abs()),
            _ => Vec::new(),
        };
        match annotate::filled(condition, lay.line(&outline)) {
            Some(shape) => {
                filled.push(shape);
                if !condition.word.is_empty() {
                    words.push((lay.line(&outline), condition.word.clone()));
                }
            }
            None => missed += 1,
        }
    }
    sheet.add(Shape::group(format!("conditions-{side}"), "", filled));

    let seams: Vec<_> = (1..n).filter_map(|k| layout.seam(k)).map(|s| Shape::line(lay.line(s))).collect();
    sheet.add(Shape::group(format!("seams-{side}"), "", seams));
    if !layout.waterline.is_empty() {
        let pen = Pen { width_mm: 0.25, ink: Ink::Faint, dashed: true };
        sheet.add(Shape::line(lay.line(&layout.waterline)).pen(pen));
    }
    sheet.add(Shape::outline(lay.line(&rim(layout))).pen(Pen::MIDDLE));
    if let Some(rabbet) = layout.seam(0) {
        sheet.add(Shape::line(lay.line(rabbet)).pen(Pen::THICK));
    }

    sheet.add(Shape::group(format!("numbers-{side}"), "", numbers(page, layout, lay, pair, side, labels)));

    let placed: Vec<_> = marks
        .iter()
        .filter(|m| m.place.side() == Some(side))
        .filter_map(|m| {
            let at = spot(layout, &m.place);
            missed += usize::from(at.is_none());
            at.map(|at| (m, lay.at(at)))
        })
        .collect();
    let drawn = annotate::marks(&placed, labels, letter);
    let mut noted = Vec::new();
    for (outline, word) in words {
        noted.extend(annotate::lettered(labels, &outline, small, &word));
    }
    // Words last: where there is no room left, a number covers a mark and not the other way round.
    sheet.add(Shape::group(format!("marks-{side}"), "", drawn));
    sheet.add(Shape::group(format!("words-{side}"), "", noted));
    missed
}

/// The outline of the whole side: rabbet, stern, sheer, stem.
fn rim(layout: &Layout) -> Vec<(f64, f64)> {
    let n = layout.strakes();
    let mut rim: Vec<_> = layout.seam(0).unwrap_or_default().to_vec();
    rim.extend((1..n).filter_map(|k| layout.seam(k)?.last().copied()));
    rim.extend(layout.seam(n).unwrap_or_default().iter().rev());
    rim.extend((1..n).rev().filter_map(|k| layout.seam(k)?.first().copied()));
    rim
}

/// Strake numbers at both hood ends, frame numbers along the keel, and the words bow, stern, sheer side.
fn numbers(page: Page, layout: &Layout, lay: &Lay, pair: bool, side: Side, labels: &mut Labels) -> Vec<Shape> {
    let small = page.small_mm();
    let n = layout.strakes();
    let mut shapes = Vec::new();
    let bow_left = lay.per_m.0 > 0.0;
    for (fore, at_left) in [(true, bow_left), (false, !bow_left)] {
        let mut last: Option<f64> = None;
        for strake in 1..=n {
            let ends = [strake - 1, strake].map(|k| {
                let seam = layout.seam(k).unwrap_or_default();
                (if fore { seam.first() } else { seam.last() }).copied().unwrap_or_default()
            });
            let middle = lay.at((0.5 * (ends[0].0 + ends[1].0), 0.5 * (ends[0].1 + ends[1].1)));
            if last.is_some_and(|y| (middle.1 - y).abs() < small * 0.95) {
                continue;
            }
            last = Some(middle.1);
            let out = if at_left { -1.2 } else { 1.2 };
            let anchor = if at_left { Anchor::End } else { Anchor::Start };
            let at = (middle.0 + out, middle.1 + small * 0.34);
            shapes.push(Shape::text(at, small, strake.to_string()).anchored(anchor));
            labels.take(at.0 - small, middle.1 - small / 2.0, at.0 + small, middle.1 + small / 2.0);
        }
    }
    if side == Side::Starboard && pair {
        return shapes;
    }
    let mut last = f64::NEG_INFINITY;
    let count = layout.frames.len();
    for (i, frame) in layout.frames.iter().enumerate() {
        let x = lay.at((frame.from_stem_m, 0.0)).0;
        let number = i + 1;
        let wide = super::labels::width_mm(&frame.name, small) + 1.4;
        let regular = number == 1 || number == count || number % 5 == 0;
        let crowded = count > 1 && lay.per_m.0.abs() * layout.length_m / count as f64 <= wide;
        if (crowded && !regular) || (x - last).abs() < wide {
            continue;
        }
        last = x;
        let foot = lay.at((0.0, 0.0)).1;
        shapes.push(Shape::line([(x, foot + 0.4), (x, foot + 1.4)]).pen(Pen::THIN));
        let at = (x, foot + small * 1.35 + 0.6);
        labels.take(x - wide / 2.0, foot, x + wide / 2.0, at.1);
        shapes.push(Shape::text(at, small, frame.name.clone()).anchored(Anchor::Middle));
    }
    shapes
}

/// Where a mark goes, in metres on the layout.
fn spot(layout: &Layout, place: &Place) -> Option<(f64, f64)> {
    match place {
        Place::Shell(patch) => layout.middle(patch).ok(),
        Place::Seam { seam, from, to, .. } => {
            let x = 0.5 * (layout.from_stem_m(*from).ok()? + layout.from_stem_m(*to).ok()?);
            if *seam == 0 { layout.point(1, 0.0, x) } else { layout.point(*seam, 1.0, x) }
        }
        Place::Frame { frame, .. } => {
            let x = layout.from_stem_m(crate::Along::Frame(*frame as f64)).ok()?;
            let section = layout.section(x);
            section.get(section.len() / 2).copied()
        }
        _ => None,
    }
}

/// A narrow band along a seam, in metres.
fn seam_band(layout: &Layout, seam: usize, from: crate::Along, to: crate::Along, half: f64) -> Vec<(f64, f64)> {
    let (Some(line), Ok(a), Ok(b)) = (layout.seam(seam), layout.from_stem_m(from), layout.from_stem_m(to)) else {
        return Vec::new();
    };
    let (a, b) = (a.min(b), a.max(b));
    let part: Vec<_> = line.iter().filter(|p| p.0 >= a && p.0 <= b).copied().collect();
    let mut band: Vec<_> = part.iter().map(|p| (p.0, p.1 - half)).collect();
    band.extend(part.iter().rev().map(|p| (p.0, p.1 + half)));
    band
}

/// A narrow band along a frame, in metres.
fn frame_band(layout: &Layout, frame: usize, half: f64) -> Vec<(f64, f64)> {
    let Ok(x) = layout.from_stem_m(crate::Along::Frame(frame as f64)) else { return Vec::new() };
    let line = layout.section(x);
    let mut band: Vec<_> = line.iter().map(|p| (p.0 - half, p.1)).collect();
    band.extend(line.iter().rev().map(|p| (p.0 + half, p.1)));
    band
}

/// A strake as an outline without a line.
fn strake_of(layout: &Layout, lay: &Lay, side: Side, strake: usize) -> Option<Shape> {
    let patch = Patch::strake(side, strake);
    let outline = layout.outline(&patch).ok().filter(|o| !o.is_empty())?;
    let shape = Shape::outline(lay.line(&outline)).pen(Pen::NONE);
    let group = Shape::group(format!("strake-{side}-{strake}"), format!("{side}, strake {strake}"), vec![shape]);
    Some(annotate::told(group, "", &Place::Shell(patch)))
}
