//! Her planking in space, with the marks of the sheets on it: for a view that can be turned.

use crate::boat::Boat;
use crate::marks;
use hull::sheets::MarkKind;
use hull::{Along, Expansion, Place, Point, Side};
use survey::State;

/// Points along each seam.
const ALONG: usize = 48;

/// Her planking as triangles, lines and marks. Metres from the middle of the boat: ahead, to port, up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Solid {
    /// Corners of the triangles, nine numbers each.
    pub triangles_m: Vec<f32>,
    /// The direction out of the planking at each corner.
    pub outward: Vec<f32>,
    /// Ends of the lines of seams, six numbers each.
    pub seams_m: Vec<f32>,
    /// Ends of the lines of frames.
    pub frames_m: Vec<f32>,
    /// Marks on the planking.
    pub marks: Vec<SolidMark>,
    /// Half the greatest measure of her, in metres: what a view has to hold.
    pub reach_m: f32,
    /// What is shown, in a sentence.
    pub description: String,
}

/// A mark in space.
#[derive(Clone, Debug, PartialEq)]
pub struct SolidMark {
    /// Where.
    pub at_m: [f32; 3],
    /// Whether it speaks against the member.
    pub against: bool,
    /// What it is.
    pub word: &'static str,
    /// The entry it stands for.
    pub entry: String,
}

/// Returns her planking in space; none while her shape is not known, for a diagram has no third dimension.
pub fn solid(state: &State) -> Option<Solid> {
    let boat = Boat::of(state)?;
    let planking = boat.expansion.as_ref()?;
    let mut grid: Vec<Vec<Point>> = Vec::new();
    for seam in 0..=planking.strakes() {
        // Seam k is the upper edge of strake k, and the rabbet the lower edge of the first.
        let (strake, across) = if seam == 0 { (1, 0.0) } else { (seam, 1.0) };
        let points = (0..=ALONG).map(|i| planking.point(strake, across, i as f64 / ALONG as f64).ok());
        grid.push(points.collect::<Option<_>>()?);
    }
    let all = || grid.iter().flatten();
    let range = |of: fn(&Point) -> f64| {
        all().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
    };
    let ((fore, aft), (low, high)) = (range(|p| p.x_m), range(|p| p.z_m));
    let middle = [(fore + aft) / 2.0, (low + high) / 2.0];
    let space = |p: Point, port: bool| -> [f32; 3] {
        let y = if port { p.y_m } else { -p.y_m };
        [middle[0] - p.x_m, y, p.z_m - middle[1]].map(|v| v as f32)
    };
    let mut solid = Solid { reach_m: ((aft - fore) / 2.0) as f32, ..Solid::default() };
    for port in [true, false] {
        planks(&mut solid, &grid, port, &space);
        for seam in &grid {
            let line: Vec<[f32; 3]> = seam.iter().map(|p| space(*p, port)).collect();
            put_line(&mut solid.seams_m, &line);
        }
        for frame in planking.frames() {
            let at = |strake: usize| planking.spot(strake, 1.0, frame.from_stem_m).ok().map(|s| space(s.point, port));
            let lowest = planking.spot(1, 0.0, frame.from_stem_m).ok().map(|s| space(s.point, port));
            let line: Vec<[f32; 3]> = lowest.into_iter().chain((1..=planking.strakes()).filter_map(at)).collect();
            put_line(&mut solid.frames_m, &line);
        }
    }
    backbone(&mut solid, &grid, &space);
    solid.marks = marks::marks(state, &boat)
        .into_iter()
        .filter(|mark| mark.kind != MarkKind::Photograph)
        .filter_map(|mark| {
            let (point, port) = spot(planking, &mark.place)?;
            let against = matches!(
                mark.kind,
                MarkKind::ObservationAgainst | MarkKind::DrawAgainst | MarkKind::BlowDull | MarkKind::BlowChatters
            );
            Some(SolidMark { at_m: space(point, port), against, word: mark.kind.word(), entry: mark.entry })
        })
        .collect();
    let against = solid.marks.iter().filter(|mark| mark.against).count();
    solid.description = format!(
        "Her planking in space: {} strakes and {} frames a side, {} marks, {against} of them against her. All of it is on the \
         sheets too.",
        planking.strakes(),
        planking.frames().len(),
        solid.marks.len()
    );
    Some(solid)
}

/// Where the middle of a place on the planking is, and whether that is to port.
fn spot(planking: &Expansion, place: &Place) -> Option<(Point, bool)> {
    let Place::Shell(patch) = place else { return None };
    let length = planking.surface().length_m();
    let metres = |along: Along| match along {
        Along::Stem => Some(0.0),
        Along::Stern => Some(length),
        Along::FromStemM(m) => Some(m),
        Along::Frame(n) => {
            let frames = planking.frames();
            let (low, share) = (n.floor(), n - n.floor());
            let at = |n: f64| frames.get((n as usize).checked_sub(1)?).map(|f| f.from_stem_m);
            Some(at(low)? + if share > 0.0 { share * (at(low + 1.0)? - at(low)?) } else { 0.0 })
        }
    };
    let middle = (metres(patch.from)? + metres(patch.to)?) / 2.0;
    let across = if patch.strake == patch.to_strake { (patch.low + patch.high) / 2.0 } else { 0.5 };
    let strake = (patch.strake + patch.to_strake) / 2;
    let found = planking.spot(strake, across, middle).ok()?;
    Some((found.point, patch.side == Side::Port))
}

fn planks(solid: &mut Solid, grid: &[Vec<Point>], port: bool, space: &impl Fn(Point, bool) -> [f32; 3]) {
    let at = |k: usize, i: usize| space(grid[k][i], port);
    let last = grid.len() - 1;
    let minus = |a: [f32; 3], b: [f32; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let outward = |k: usize, i: usize| {
        let along = minus(at(k, (i + 1).min(ALONG)), at(k, i.saturating_sub(1)));
        let up = minus(at((k + 1).min(last), i), at(k.saturating_sub(1), i));
        let n = [
            along[1] * up[2] - along[2] * up[1],
            along[2] * up[0] - along[0] * up[2],
            along[0] * up[1] - along[1] * up[0],
        ];
        let turned = if (n[1] >= 0.0) == port { 1.0 } else { -1.0 };
        let long = (n[0] * n[0] + n[1] * n[1] + n[2] * n[2]).sqrt().max(1e-9) * turned;
        [n[0] / long, n[1] / long, n[2] / long]
    };
    for k in 0..last {
        for i in 0..ALONG {
            for (k, i) in [(k, i), (k, i + 1), (k + 1, i), (k + 1, i), (k, i + 1), (k + 1, i + 1)] {
                solid.triangles_m.extend(at(k, i));
                solid.outward.extend(outward(k, i));
            }
        }
    }
}

/// Stem, keel and sternpost as the strip between the rabbets of both sides.
fn backbone(solid: &mut Solid, grid: &[Vec<Point>], space: &impl Fn(Point, bool) -> [f32; 3]) {
    let down_the_stem = grid.iter().rev().filter_map(|seam| seam.first());
    let along_the_keel = grid.first().into_iter().flatten();
    let up_the_post = grid.iter().filter_map(|seam| seam.last());
    let path: Vec<Point> = down_the_stem.chain(along_the_keel).chain(up_the_post).copied().collect();
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let (along, up) = ((a.x_m - b.x_m) as f32, (b.z_m - a.z_m) as f32);
        let long = along.hypot(up);
        if long < 1e-6 {
            continue;
        }
        for (point, port) in [(a, true), (b, true), (a, false), (a, false), (b, true), (b, false)] {
            solid.triangles_m.extend(space(point, port));
            solid.outward.extend([-up / long, 0.0, along / long]);
        }
    }
}

fn put_line(into: &mut Vec<f32>, points: &[[f32; 3]]) {
    for pair in points.windows(2) {
        into.extend(pair[0]);
        into.extend(pair[1]);
    }
}
