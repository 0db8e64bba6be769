//! The shell laid flat against exact bodies.

use crate::figures::near;
use crate::forms::{cutter, round, wigley};
use hull::{Basis, Expansion, Fairing, Frame, Lining, Surface};
use std::f64::consts::PI;

fn expansion(lines: &hull::Lines, strakes: usize) -> Expansion {
    let surface = Surface::through(lines, Fairing::default()).unwrap();
    let frames = Frame::evenly(20, 0.1 * surface.length_m(), 0.9 * surface.length_m());
    Expansion::new(surface, &Lining::Equal { strakes }, frames).unwrap()
}

#[test]
fn cylinder_and_cone_are_exact() {
    let cylinder = expansion(&round(5.0, 1.2, 1.2), 7);
    near("cylinder", cylinder.area_m2(), PI * 1.2 * 5.0 / 2.0, 1e-6);
    near("cylinder drawn", cylinder.drawn_area_m2(), PI * 1.2 * 5.0 / 2.0, 1e-6);
    let cone = expansion(&round(6.0, 0.0, 1.2), 6);
    near("cone", cone.area_m2(), 5.766855, 1e-6);
    near("cone drawn", cone.drawn_area_m2(), 5.654867, 1e-6);
    // Each strake of a cone is a sector of the same developed radius: six equal areas, centre lines straight.
    for strake in cone.strake_figures() {
        near("cone strake", strake.area_m2, 5.766855 / 6.0, 1e-5);
        near("cone strake length", strake.length_m, (6.0f64.powi(2) + 1.2f64.powi(2)).sqrt(), 1e-6);
    }
}

/// Reference strakes and girths of the Wigley boat, by independent quadrature (see tests/reference).
#[test]
fn wigley_strakes_and_girths() {
    let wigley = expansion(&wigley(8.0, 2.4, 1.0, 20, 8), 6);
    near("area", wigley.area_m2(), 11.151116, 1e-3);
    near("drawn", wigley.drawn_area_m2(), 10.919932, 1e-3);
    for (row, got) in include_str!("../data/wigley-strakes.csv").lines().skip(2).zip(wigley.strake_figures()) {
        let row: Vec<f64> = row.split(',').map(|c| c.parse().unwrap()).collect();
        near("strake area", got.area_m2, row[1], 1e-3);
        near("strake length", got.length_m, row[2], 1e-3);
    }
    for row in include_str!("../data/wigley-girths.csv").lines().skip(2) {
        let row: Vec<f64> = row.split(',').map(|c| c.parse().unwrap()).collect();
        near("girth", wigley.girth_m(row[1] + 4.0).unwrap(), row[4], 1e-3);
    }
}

#[test]
fn strakes_add_up_to_the_side() {
    for lines in [wigley(8.0, 2.4, 1.0, 10, 6), cutter()] {
        let boat = expansion(&lines, 13);
        let sum: f64 = boat.strake_figures().iter().map(|s| s.area_m2).sum();
        near("sum", sum, boat.area_m2(), 1e-5);
        let planks: f64 = boat.planks(5, &[2.0, 4.5]).unwrap().iter().map(|p| p.area_m2).sum();
        near("planks", planks, boat.strake_figures()[4].area_m2, 1e-6);
        assert!(boat.layout(Basis::Offsets).strakes() == 13);
    }
}

#[test]
fn half_sphere_area_is_close_though_its_ends_are_round() {
    // πR² and π²R²/4 for one side of the lower half of a sphere of 1.2 m, sections closing up towards both ends.
    let sections = (1..40).map(|i| {
        let angle = PI * f64::from(i) / 40.0;
        let (x, r) = (-1.2 * angle.cos(), 1.2 * angle.sin());
        let points = (0..=32).map(|j| {
            let t = PI / 2.0 * f64::from(j) / 32.0;
            (r * t.sin(), -r * t.cos())
        });
        hull::Section { name: i.to_string(), x_m: x, points: points.collect() }
    });
    let pole = |x: f64| Some(hull::Edge { points: vec![[x, 0.0, 0.0]] });
    let lines = hull::Lines {
        sections: sections.collect(),
        bow: pole(-1.2),
        stern: pole(1.2),
        stern_kind: hull::Stern::Unsaid,
    };
    let ball = expansion(&lines, 8);
    near("sphere", ball.area_m2(), 4.523893, 0.02);
    near("sphere drawn", ball.drawn_area_m2(), 3.553058, 0.01);
}

/// g_out = g_in + t θ: the half of a round section of radius R turns by π/2.
#[test]
fn girth_over_plank_is_that_of_the_parallel_curve() {
    let quarter: Vec<[f64; 2]> =
        (0..=48).map(|i| PI / 2.0 * f64::from(i) / 48.0).map(|a| [1.2 * a.sin(), -1.2 * a.cos()]).collect();
    let curve = hull::Girth::through(&quarter).unwrap();
    near("inside", curve.length(), PI * 1.2 / 2.0, 1e-7);
    near("outside", curve.over_plank_m(0.03), PI * 1.23 / 2.0, 1e-6);
}

#[test]
fn measured_widths_come_back_where_they_were_measured() {
    let surface = Surface::through(&cutter(), Fairing::default()).unwrap();
    let frames = Frame::evenly(30, 0.6, 7.2);
    let girth = |x: f64| {
        let boat = Expansion::new(surface.clone(), &Lining::Equal { strakes: 3 }, Vec::new()).unwrap();
        boat.girth_m(surface.fore_x_m() + x).unwrap() * 1000.0
    };
    let widths =
        |x: f64, shares: [f64; 5]| hull::Widths { from_stem_m: x, widths_mm: shares.map(|s| s * girth(x)).to_vec() };
    let stations = vec![
        widths(1.6, [0.22, 0.2, 0.2, 0.2, 0.18]),
        widths(4.0, [0.26, 0.21, 0.19, 0.18, 0.16]),
        widths(6.5, [0.20, 0.22, 0.2, 0.2, 0.18]),
    ];
    let boat = Expansion::new(surface.clone(), &Lining::Measured { stations: stations.clone() }, frames).unwrap();
    assert!(boat.misfit.iter().all(|m| m.abs() < 1e-9), "{:?}", boat.misfit);
    for station in &stations {
        let mut sum = 0.0;
        for (k, width) in station.widths_mm.iter().enumerate() {
            sum += width / 1000.0;
            let seam = boat.at_girth(station.from_stem_m, sum.min(girth(station.from_stem_m) / 1000.0)).unwrap();
            let at = seam.strake as f64 - 1.0 + seam.across;
            assert!((at - (k + 1) as f64).abs() < 1e-6, "seam {} at {at}", k + 1);
        }
    }
    let wrong = vec![widths(1.6, [0.2; 5]), hull::Widths { from_stem_m: 3.0, widths_mm: vec![100.0; 4] }];
    let refused = Expansion::new(surface, &Lining::Measured { stations: wrong }, Vec::new()).unwrap_err().to_string();
    assert!(refused.contains("3 m") && refused.contains("5 widths"), "{refused}");
}

#[test]
fn places_off_the_boat_are_refused_with_what_there_is() {
    let boat = expansion(&cutter(), 10);
    let said = |r: Result<hull::Spot, hull::HullError>| r.unwrap_err().to_string();
    assert!(said(boat.spot(11, 0.5, 3.0)).contains("1 (the garboard) to 10"));
    assert!(said(boat.spot(1, 0.5, 0.2)).contains("the strake runs from"));
    assert!(said(boat.spot_at_frame(3, 0.5, 21.0)).contains("1 to 20"));
    assert!(said(boat.at_girth(4.0, 9.0)).contains("the girth there is"));
}

#[test]
fn a_height_where_she_tumbles_home_names_two_spots() {
    let mut lines = round(5.0, 1.2, 1.2);
    for section in &mut lines.sections {
        // Beyond the level: the side turns in again above its greatest breadth and comes back down at the rail.
        section.points.extend([(1.15, 0.35), (1.02, 0.62), (0.90, 0.70), (0.80, 0.66)]);
    }
    let boat = expansion(&lines, 6);
    assert_eq!(boat.at_height(2.5, -0.5).len(), 1);
    assert_eq!(boat.at_height(2.5, 0.68).len(), 2, "{:?}", boat.at_height(2.5, 0.68));
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(40))]

    /// Place → surface → place is the identity, by strake, by frame and by girth.
    #[test]
    fn places_come_back(strake in 1usize..=11, across in 0.02..0.98f64, share in 0.03..0.97f64) {
        thread_local!(static BOAT: Expansion = expansion(&cutter(), 11));
        BOAT.with(|boat| {
            let ends = [0.0, 1.0].map(|u| boat.surface().at(u, (strake as f64 - 1.0 + across) / 11.0).x_m - boat.surface().fore_x_m());
            let x = ends[0] + 0.02 + share * (ends[1] - ends[0] - 0.04);
            let spot = boat.spot(strake, across, x).unwrap();
            let (back, off) = boat.nearest(spot.point);
            proptest::prop_assert!(off < 1e-7, "off by {off}");
            proptest::prop_assert_eq!(back.strake, strake);
            proptest::prop_assert!((back.across - across).abs() < 1e-5 && (back.from_stem_m - x).abs() < 1e-6, "{:?} {:?}", back, spot);
            if let Some(frame) = boat.frame_at(x) {
                let again = boat.spot_at_frame(strake, across, frame).unwrap();
                proptest::prop_assert!((again.from_stem_m - x).abs() < 1e-9);
            }
            Ok(())
        })?;
    }

    /// Strakes add up to the side, and areas scale by k².
    #[test]
    fn areas_add_up_and_scale(strakes in 1usize..20, k in 0.3..4.0f64) {
        let (one, other) = (expansion(&cutter(), strakes), expansion(&cutter().scaled(k), strakes));
        let sum = |b: &Expansion| b.strake_figures().iter().map(|s| s.area_m2).sum::<f64>();
        proptest::prop_assert!((sum(&one) / one.area_m2() - 1.0).abs() < 1e-4);
        proptest::prop_assert!((sum(&other) / (sum(&one) * k * k) - 1.0).abs() < 1e-7);
    }

    /// A boat turned end for end has the same strakes.
    #[test]
    fn turned_end_for_end_strakes_stay(strakes in 2usize..16) {
        let (one, other) = (expansion(&cutter(), strakes), expansion(&cutter().reversed(), strakes));
        for (a, b) in one.strake_figures().iter().zip(other.strake_figures()) {
            proptest::prop_assert!((a.area_m2 / b.area_m2 - 1.0).abs() < 1e-3 && (a.length_m / b.length_m - 1.0).abs() < 1e-3);
        }
    }
}

/// Closed form: the deck line of Wigley's boat is y = B/2 (1 − (2x/L)²), so amidships its radius is L²/(4 B). Its sheer lies
/// in a level plane and its sides stand upright there, so that the topmost strake is bent about its flat alone.
#[test]
fn a_plank_is_bent_as_the_deck_line_is_amidships() {
    let boat = expansion(&wigley(8.0, 2.4, 1.0, 20, 8), 40);
    let bend = boat.bend(40, 3.8, 4.2).unwrap();
    assert!((bend.chord_m - 0.4).abs() < 1e-3, "{bend:?}");
    assert!(bend.rise_m > 0.0, "convex from outside");
    near("radius", bend.radius_m().unwrap(), 8.0 * 8.0 / (4.0 * 2.4), 2e-2);
    assert!(boat.bend(40, 7.9, 9.0).is_err());
}
