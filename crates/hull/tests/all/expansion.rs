//! The shell laid flat against exact bodies.

use crate::forms::{cutter, round, wigley};
use hull::{Basis, Expansion, Fairing, Frame, Lining, Surface};
use std::f64::consts::PI;

fn expansion(lines: &hull::Lines, strakes: usize) -> Expansion {
    let surface = Surface::through(lines, Fairing::default()).unwrap();
    let frames = Frame::evenly(20, 0.1 * surface.length_m(), 0.9 * surface.length_m());
    Expansion::new(surface, &Lining::Equal { strakes }, frames).unwrap()
}

fn near(what: &str, got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs().max(1e-12), "{what}: {got} against {wanted}");
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
    for (row, got) in include_str!("../data/wigley-strakes.csv").lines().skip(1).zip(wigley.strake_figures()) {
        let row: Vec<f64> = row.split(',').map(|c| c.parse().unwrap()).collect();
        near("strake area", got.area_m2, row[1], 1e-3);
        near("strake length", got.length_m, row[2], 1e-3);
    }
    for row in include_str!("../data/wigley-girths.csv").lines().skip(1) {
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
