//! A hull from an hour's measuring: held against a hull whose lines are known.

use crate::figures::near;
use hull::measured::{MeasuredSection, Particulars, fit};
use hull::{Expansion, Fairing, Girth, Lining, Stern, Surface};

fn particulars(stern: Stern) -> Particulars {
    // Girths that such a boat can have: each stern has its own overhang and its own depth aft.
    let girths = match stern {
        Stern::DoubleEnded => [1.90, 2.30, 1.98],
        Stern::Counter => [1.98, 2.25, 1.90],
        _ => [1.90, 2.25, 1.97],
    };
    Particulars {
        length_m: 9.2,
        waterline_length_m: 7.6,
        beam_m: 2.75,
        rabbet_draft_m: 0.72,
        freeboards_m: [1.35, 0.82, 0.95],
        stern,
        transom_half_breadth_m: match stern {
            Stern::Transom => 0.95,
            Stern::Counter => 0.45,
            _ => 0.0,
        },
        stem: Vec::new(),
        stern_profile: Vec::new(),
        sections: vec![
            MeasuredSection {
                from_stem_m: 2.4,
                girth_m: Some(girths[0]),
                waterline_half_breadth_m: Some(0.72),
                ..Default::default()
            },
            MeasuredSection {
                from_stem_m: 4.8,
                girth_m: Some(girths[1]),
                waterline_half_breadth_m: Some(1.27),
                ..Default::default()
            },
            MeasuredSection {
                from_stem_m: 7.0,
                girth_m: Some(girths[2]),
                waterline_half_breadth_m: Some(0.95),
                ..Default::default()
            },
        ],
    }
}

#[test]
fn double_enders_transoms_and_counters_come_out_as_boats() {
    for stern in [Stern::DoubleEnded, Stern::Transom, Stern::Counter] {
        let boat = fit(&particulars(stern)).unwrap();
        let h = boat.surface.hydrostatics(0.0).unwrap();
        near("length", boat.surface.length_m(), 9.2, 1e-6);
        near("waterline", h.waterline_length_m, 7.6, 0.01);
        near(
            "beam",
            2.0 * (0..=40).map(|i| boat.surface.at(f64::from(i) / 40.0, 1.0).y_m).fold(0.0, f64::max),
            2.75,
            0.01,
        );
        assert!((0.4..0.7).contains(&h.cp) && h.volume_m3 > 3.0 && h.volume_m3 < 9.0, "{stern:?} {h:?}");
        for (what, mm) in &boat.residuals {
            assert!(mm.abs() < 30.0, "{stern:?} {what}: {mm} mm");
        }
        assert!(boat.assumed.iter().any(|s| s.contains("stem's profile")), "{:?}", boat.assumed);
        // Nowhere does the skin cross the centre plane.
        for i in 0..=40 {
            for j in 0..=20 {
                assert!(boat.surface.at(f64::from(i) / 40.0, f64::from(j) / 20.0).y_m > -0.005, "{stern:?} {i} {j}");
            }
        }
        Expansion::new(boat.surface, &Lining::Equal { strakes: 12 }, Vec::new()).unwrap();
    }
}

/// The invented cutter of the other tests, measured as a surveyor would and fitted: areas within 4 %.
#[test]
fn a_known_hull_measured_and_fitted_has_nearly_its_area() {
    let known = Surface::through(&crate::forms::cutter(), Fairing::default()).unwrap();
    let water = 0.85;
    let h = known.hydrostatics(water).unwrap();
    let at = |x: f64| {
        let (low, high) = known.section_range(x).unwrap();
        let boat = Expansion::new(known.clone(), &Lining::Equal { strakes: 4 }, Vec::new()).unwrap();
        let (foot, top) = (known.at(known.u_at(x, low), low), known.at(known.u_at(x, high), high));
        let wet = boat.at_height(x - known.fore_x_m(), water);
        MeasuredSection {
            from_stem_m: x - known.fore_x_m(),
            girth_m: boat.girth_m(x),
            waterline_half_breadth_m: wet.first().map(|s| s.point.y_m),
            sheer_half_breadth_m: Some(top.y_m),
            freeboard_m: Some(top.z_m - water),
            rabbet_depth_m: Some(water - foot.z_m),
        }
    };
    let profile = |e: &hull::Edge| e.points.iter().map(|p| (p[0] - known.fore_x_m(), p[2] - water)).collect::<Vec<_>>();
    let lines = crate::forms::cutter();
    let boat = fit(&Particulars {
        length_m: known.length_m(),
        waterline_length_m: h.waterline_length_m,
        beam_m: 2.72,
        rabbet_draft_m: water - 0.15,
        freeboards_m: [1.78 - water, 1.36 - water, 1.45 - water],
        stern: Stern::Transom,
        transom_half_breadth_m: 0.83,
        stem: profile(lines.bow.as_ref().unwrap()),
        stern_profile: profile(lines.stern.as_ref().unwrap()),
        sections: [1.8, 3.0, 4.4, 5.6, 6.6].map(at).to_vec(),
    })
    .unwrap();
    let area = |s: &Surface| Expansion::new(s.clone(), &Lining::Equal { strakes: 4 }, Vec::new()).unwrap().area_m2();
    near("area", area(&boat.surface), area(&known), 0.04);
    near("volume", boat.surface.hydrostatics(0.0).unwrap().volume_m3, h.volume_m3, 0.08);
}

#[test]
fn what_no_boat_has_is_refused_and_what_is_missing_is_said() {
    let refused = |change: &dyn Fn(&mut Particulars)| {
        let mut p = particulars(Stern::Transom);
        change(&mut p);
        fit(&p).unwrap_err().to_string()
    };
    assert!(refused(&|p| p.beam_m = 10.0).contains("beam in metres is 10; accepted is less than the length"));
    assert!(refused(&|p| p.waterline_length_m = 9.5).contains("at most the length over all"));
    assert!(refused(&|p| p.freeboards_m[1] = -0.2).contains("least freeboard"));
    assert!(refused(&|p| p.sections[1].from_stem_m = 12.0).contains("Measured section 2"));
    assert!(refused(&|p| p.sections[2].waterline_half_breadth_m = Some(1.9)).contains("half the beam"));
    let one =
        Particulars { sections: particulars(Stern::Transom).sections[1..2].to_vec(), ..particulars(Stern::Transom) };
    assert!(fit(&one).unwrap().assumed.iter().any(|s| s.contains("One girth only, 4.80 m")));
    let none = Particulars { sections: Vec::new(), ..particulars(Stern::Counter) };
    assert!(fit(&none).unwrap().assumed.iter().any(|s| s.contains("No girth was measured")));
    // A girth that cannot belong to that section is met as nearly as may be, and pointed at.
    let mut odd = particulars(Stern::Transom);
    odd.sections[1].girth_m = Some(3.4);
    let odd = fit(&odd).unwrap();
    assert!(odd.warnings.iter().any(|w| w.contains("girth 4.80 m")), "{:?}", odd.warnings);
}

/// p = 2.2, q = 1.4, half-breadth 1.2, depth 1.0: girth 1.695012 (reference quadrature with scipy).
#[test]
fn girth_of_the_section_family() {
    // Closely spaced at the foot, where the section turns within a hair's breadth.
    let points: Vec<[f64; 2]> = (0..=4000)
        .map(|i| {
            let t = (f64::from(i) / 4000.0).powi(4);
            [1.2 * (1.0 - (1.0 - t).powf(2.2)).powf(1.0 / 1.4), t]
        })
        .collect();
    near("girth", Girth::through(&points).unwrap().length(), 1.695012, 1e-6);
}
