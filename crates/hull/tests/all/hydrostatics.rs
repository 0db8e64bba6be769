//! Volume, surface and coefficients against exact and published figures.

use crate::figures::near;
use crate::forms::{cutter, round, series60, wigley};
use hull::{Fairing, Surface};

/// Exact integrals of the Wigley form; wetted surface by independent quadrature (scipy, see tests/reference).
#[test]
fn wigley_hull_against_its_exact_figures() {
    let (l, b, t) = (8.0, 2.4, 1.0);
    let surface = Surface::through(&wigley(l, b, t, 20, 8), Fairing::default()).unwrap();
    let h = surface.hydrostatics(0.0).unwrap();
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
    near("cb", h.volume_m3 / (length * length / 7.5 * draft), 0.600, 5e-3);
    near("cw", h.waterplane_m2 / (length * length / 7.5), 0.706, 3e-3);
    near("cm", h.greatest_section_m2 / (length / 7.5 * draft), 0.977, 5e-3);
    near("cp", h.volume_m3 / (h.greatest_section_m2 * length), 0.614, 5e-3);
    let lcb = (0.5 * length - h.lcb_x_m) / length * 100.0;
    assert!((lcb + 1.5).abs() < 0.1, "lcb {lcb}");
}

/// Wetted surface by quadrature with scipy (tests/reference/wigley.py) for a slender and a beamy hull.
#[test]
fn wigley_wetted_surface_by_independent_quadrature() {
    for row in crate::figures::rows(include_str!("../reference/wigley.csv")) {
        let f: Vec<f64> = row.iter().map(|c| crate::figures::number(c)).collect();
        let surface = Surface::through(&wigley(f[0], f[1], f[2], 20, 8), Fairing::default()).unwrap();
        near("wetted", surface.hydrostatics(0.0).unwrap().wetted_surface_m2, f[3], 1e-3);
    }
}

/// The Wigley form below a lower waterline has an exact volume too: V(z₁) = (2/3) L B ∫(1 - (z/T)²) dz from -T to z₁.
#[test]
fn a_waterline_within_the_hull_is_cut_exactly() {
    let (l, b, t, z) = (8.0, 2.4, 1.0, -0.35);
    let surface = Surface::through(&wigley(l, b, t, 20, 10), Fairing::default()).unwrap();
    let h = surface.hydrostatics(z).unwrap();
    let inner = |z: f64| z - z.powi(3) / (3.0 * t * t);
    near("volume", h.volume_m3, 2.0 / 3.0 * l * b * (inner(z) - inner(-t)), 1e-3);
    near("waterplane", h.waterplane_m2, 2.0 / 3.0 * l * b * (1.0 - z * z / (t * t)), 1e-3);
    assert!(!h.over_sheer);
    assert!(surface.hydrostatics(0.3).unwrap().over_sheer);
    assert!(surface.hydrostatics(-1.2).is_err());
}

/// Turned end for end, everything but the place of the centres stays; scaled by k, areas go with k², volumes with k³.
#[test]
fn mirrored_and_scaled_hulls_give_mirrored_and_scaled_figures() {
    let lines = cutter();
    let h = Surface::through(&lines, Fairing::default()).unwrap().hydrostatics(0.85).unwrap();
    let turned = Surface::through(&lines.reversed(), Fairing::default()).unwrap().hydrostatics(0.85).unwrap();
    near("volume", turned.volume_m3, h.volume_m3, 1e-3);
    near("lcb", -turned.lcb_x_m, h.lcb_x_m, 1e-3);
    let k = 1.7;
    let large = Surface::through(&lines.scaled(k), Fairing::default()).unwrap().hydrostatics(0.85 * k).unwrap();
    near("volume", large.volume_m3, h.volume_m3 * k.powi(3), 1e-6);
    near("wetted", large.wetted_surface_m2, h.wetted_surface_m2 * k * k, 1e-6);
    near("cb", large.cb, h.cb, 1e-6);
}

/// A fair surface within the offsets' uncertainty stays near them and does not change the volume by much.
#[test]
fn fairing_within_the_uncertainty_keeps_the_volume() {
    let mut lines = wigley(8.0, 2.4, 1.0, 16, 6);
    // Roughened by a fixed pattern of ± 6 mm, as lines lifted in a yard are.
    for (i, s) in lines.sections.iter_mut().enumerate() {
        for (j, p) in s.points.iter_mut().enumerate() {
            p.0 += if p.0 > 0.05 { 0.006 * f64::from([1, -1, 1, 1, -1, -1, 1][(3 * i + 2 * j) % 7]) } else { 0.0 };
        }
    }
    let fair = Surface::through(&lines, Fairing { sd_mm: 6.0 }).unwrap();
    near("volume", fair.hydrostatics(0.0).unwrap().volume_m3, 8.0 * 2.4 * 4.0 / 9.0, 0.01);
    let off = hull::deviations(&fair, &lines);
    let rms = (off.iter().map(|d| d.off_mm.powi(2)).sum::<f64>() / off.len() as f64).sqrt();
    assert!(rms > 1.0 && rms < 8.0, "{rms}");
    let through = Surface::through(&lines, Fairing::default()).unwrap();
    assert!(hull::deviations(&through, &lines).iter().all(|d| d.off_mm < 2.0));
}
