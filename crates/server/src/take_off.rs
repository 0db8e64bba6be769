//! What a place of the record measures on the drawing.

use estimate::take_off::Piece;
use hull::{Basis, Layout, Place};
use report::Drawn;

/// Stations at which an edge is measured, for each strake.
const STATIONS: u32 = 48;

/// Measures a member's place on the shell laid flat. None for a place that is not on the planking, and where the shape is
/// invented from counts alone, so that nobody buys timber by an invented shape.
pub(crate) fn measured(layout: &Layout, member: &str, place: &survey::Place) -> Option<Drawn> {
    if layout.basis == Basis::Schematic {
        return None;
    }
    let Place::Shell(patch) = plans::hull_place(layout, member, place)? else { return None };
    let (from, to) = (layout.from_stem_m(patch.from).ok()?, layout.from_stem_m(patch.to).ok()?);
    if to - from <= 0.0 {
        return None;
    }
    let mut drawn = Drawn::default();
    for strake in patch.strake..=patch.to_strake {
        let low = if strake == patch.strake { patch.low } else { 0.0 };
        let high = if strake == patch.to_strake { patch.high } else { 1.0 };
        let stations = (0..=STATIONS).map(|i| from + (to - from) * f64::from(i) / f64::from(STATIONS));
        // Stations before the strake begins or after it ends have no point, and are left out.
        let edges: Vec<_> =
            stations.filter_map(|at| Some((layout.point(strake, low, at)?, layout.point(strake, high, at)?))).collect();
        let (lower, upper): (Vec<_>, Vec<_>) = edges.into_iter().unzip();
        let piece = Piece::between(&lower, &upper).ok()?;
        drawn.length_m += piece.length_m;
        drawn.area_m2 += piece.area_m2;
        let within = layout.frames.iter().filter(|f| (from - 1e-9..=to + 1e-9).contains(&f.from_stem_m)).count();
        drawn.crossings += u32::try_from(within).unwrap_or(u32::MAX);
    }
    Some(drawn)
}
