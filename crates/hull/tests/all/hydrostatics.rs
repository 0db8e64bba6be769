//! Volume, surface and coefficients against exact and published figures.

use crate::forms::{round, series60, wigley};
use hull::{Fairing, Surface};

fn near(what: &str, got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs().max(1e-12), "{what}: {got} against {wanted}");
}

/// Exact integrals of the Wigley form; wetted surface by independent quadrature (scipy, see tests/reference).
#[test]
fn wigley_hull_against_its_exact_figures() {
    let (l, b, t) = (8.0, 2.4, 1.0);
    let surface = Surface::through(&wigley(l, b, t, 20, 8), Fairing::default()).unwrap();
    let h = surface.hydrostatics(0.0).unwrap();
    eprintln!("{h:?}");
    near("volume", h.volume_m3, 4.0 / 9.0 * l * b * t, 1e-3);
    near("waterplane", h.waterplane_m2, 2.0 / 3.0 * l * b, 1e-3);
    near("wetted surface", h.wetted_surface_m2, 22.302233, 1e-3);
    near("lcb", h.lcb_x_m, l / 2.0, 1e-6);
    near("lcf", h.lcf_x_m, l / 2.0, 1e-6);
    near("kb", h.kb_m, 5.0 * t / 8.0, 1e-3);
    near("bm", h.bmt_m, 3.0 * b * b / (35.0 * t), 1e-3);
    near("bml", h.bml_m, 3.0 * l * l / (40.0 * t), 1e-3);
    near("cb", h.cb, 4.0 / 9.0, 1e-3);
    near("cp", h.cp, 2.0 / 3.0, 1e-3);
    near("cm", h.cm, 2.0 / 3.0, 1e-3);
    near("cw", h.cw, 2.0 / 3.0, 1e-3);
}

/// Half of a round cylinder: V = πR²L/2, wetted πRL.
#[test]
fn cylinder_is_exact() {
    let surface = Surface::through(&round(5.0, 1.2, 1.2), Fairing::default()).unwrap();
    let h = surface.hydrostatics(0.0).unwrap();
    near("volume", h.volume_m3, std::f64::consts::PI * 1.44 * 5.0 / 2.0, 1e-6);
    near("wetted", h.wetted_surface_m2, std::f64::consts::PI * 1.2 * 5.0, 1e-6);
    near("bm", h.bmt_m, 2.0 / 3.0 * 1.2f64.powi(3) * 5.0 / h.volume_m3, 1e-6);
}

/// Published coefficients of Series 60, CB 0.60 (Todd 1963): CB 0.600, CP 0.614, CX 0.977, CW 0.706, LCB 1.5 % L
/// abaft amidships. The waterlines of the table are coarse near the bilge: held to 0.5 % and 0.3 %.
#[test]
fn series_60_against_its_published_coefficients() {
    let length = 120.0;
    let draft = length / 7.5 / 2.5;
    let surface = Surface::through(&series60(length), Fairing::default()).unwrap();
    let h = surface.hydrostatics(draft).unwrap();
    eprintln!("{h:?}");
    near("cb", h.volume_m3 / (length * length / 7.5 * draft), 0.600, 5e-3);
    near("cw", h.waterplane_m2 / (length * length / 7.5), 0.706, 3e-3);
    near("cm", h.greatest_section_m2 / (length / 7.5 * draft), 0.977, 5e-3);
    near("cp", h.volume_m3 / (h.greatest_section_m2 * length), 0.614, 5e-3);
    let lcb = (0.5 * length - h.lcb_x_m) / length * 100.0;
    assert!((lcb + 1.5).abs() < 0.1, "lcb {lcb}");
}
