//! Planks as beams, and the published small-craft rule's worked figures.

use crate::figures::near;
use hull::craft_rule::{self, Category, Panel, pressures};
use hull::planking::*;

fn panel() -> Panel {
    Panel {
        mass_kg: 8000.0,
        waterline_m: Some(10.0),
        category: Category::B,
        short_mm: 300.0,
        long_mm: 1500.0,
        station: 0.7,
        side_share: 0.5,
    }
}

/// L_WL 10 m, 8000 kg, category B, 300 × 1500 mm, x/L 0.7: the rule's formulas (ISO 12215-5, clause numbers of 2008,
/// second-hand) worked independently in double precision.
#[test]
fn rule_pressure_worked_figures() {
    let p = pressures(&panel()).unwrap();
    near("area", p.area_m2, 0.225, 1e-9);
    near("k_AR", p.area_factor, 0.8492, 1e-4);
    near("bottom", p.bottom_kpa, 45.2359, 1e-5);
    near("side", p.side_kpa.unwrap(), 28.7664, 1e-5);
    near("thickness", craft_rule::thickness_mm(300.0, 1500.0, p.bottom_kpa, 20.0), 10.089, 1e-4);
    let small = Panel { station: 0.0, ..panel() };
    near("k_L at the after end", pressures(&small).unwrap().length_factor, 0.501, 1e-9);
    assert!(pressures(&Panel { waterline_m: None, ..panel() }).unwrap().side_kpa.is_none());
    assert!(pressures(&Panel { mass_kg: 0.0, ..panel() }).is_err());
}

/// p 45.2359 kPa, span 300, thickness 25 mm: 3.2570 and 4.8855 N/mm²; E 10,000: 0.0733 and 0.3664 mm (closed forms of
/// the beam held at both ends and of the beam free at both).
#[test]
fn plank_between_frames() {
    let plank = PlankBeam::new(300.0, 25.0).unwrap();
    near("held", plank.bending_mpa(45.2359, Held::Continuous), 3.2570, 1e-4);
    near("free", plank.bending_mpa(45.2359, Held::Simply), 4.8855, 1e-4);
    near("deflection held", plank.deflection_mm(45.2359, 1e4, Held::Continuous), 0.0733, 1e-3);
    near("deflection free", plank.deflection_mm(45.2359, 1e4, Held::Simply), 0.3664, 1e-3);
    near("head", SEA_WATER_KPA_PER_M, 10.0518, 1e-4);
    let t = thickness_mm(300.0, 45.2359, 12.75, Held::Continuous);
    near(
        "thickness and stress agree",
        PlankBeam::new(300.0, t).unwrap().bending_mpa(45.2359, Held::Continuous),
        12.75,
        1e-9,
    );
    near("pressure and stress agree", plank.pressure_kpa_at(3.257), 45.2359, 1e-4);
    assert!(PlankBeam::new(300.0, 0.0).is_err() && PlankBeam::new(f64::NAN, 20.0).is_err());
}

#[test]
fn what_is_left() {
    let left = residual(20.0, 25.0).unwrap();
    near("thickness", left.thickness_percent, 80.0, 1e-12);
    near("strength", left.strength_percent, 64.0, 1e-12);
    near("stiffness", left.stiffness_percent, 51.2, 1e-12);
    // One frame dead: moment × 4, neighbours × 1.5; two: × 9, × 2 (span and its square).
    assert_eq!((lost_frames(1).plank_moment_times, lost_frames(1).neighbour_load_times), (4.0, 1.5));
    assert_eq!((lost_frames(2).plank_moment_times, lost_frames(2).neighbour_load_times), (9.0, 2.0));
}
