//! Sideways load: printed tables, solved examples and worked cases.

use crate::table_file::{assert_close, number, rows};
use fastening::kinds::{LagScrew, WoodScrew};
use fastening::lateral::{Dowel, Member, Mode, Shear, bearing_mpa, lateral, steel_yield_mpa, with_bearing};

const PSI: f64 = 4.448_221_615_260_5 / (25.4 * 25.4);
const LBF: f64 = 4.448_221_615_260_5;

fn wood(inches: f64, gravity: f64) -> Member {
    Member { bearing_mm: inches * 25.4, gravity, angle_deg: 0.0 }
}

fn dowel(shank_in: f64, bearing_in: f64, psi: f64) -> Dowel {
    Dowel { diameter_mm: shank_in * 25.4, bearing_diameter_mm: bearing_in * 25.4, yield_mpa: psi * PSI }
}

/// National Design Specification (2015) Table 12K, printed to ten pounds. It confirms the roots, yield strengths, bearing
/// strength across the grain and reduction terms that are otherwise from memory.
#[test]
fn lag_screws_under_steel_plates_come_out_as_printed() {
    let gravities = [0.67, 0.55, 0.50, 0.49, 0.46, 0.43, 0.42, 0.37, 0.36, 0.35];
    let mut cells = 0;
    for row in rows(include_str!("../data/nds-lag-lateral.csv")) {
        let lag = LagScrew::of_diameter(number(&row, 1) * 25.4, 100.0).unwrap();
        let screw = Dowel { diameter_mm: lag.diameter_mm, bearing_diameter_mm: lag.root_mm, yield_mpa: lag.yield_mpa };
        for (i, g) in gravities.iter().enumerate() {
            for (column, angle) in [(2 + 2 * i, 0.0), (3 + 2 * i, 90.0)] {
                if row[column].is_empty() {
                    continue;
                }
                let main = bearing_mpa(lag.diameter_mm, *g, angle).unwrap();
                let plate = (number(&row, 0) * 25.4, 61_850.0 * PSI);
                let found = with_bearing(screw, (8.0 * lag.diameter_mm, main), plate, angle, Shear::Single).unwrap();
                let (ours, printed) = (found.reference_n / LBF, number(&row, column));
                assert!((ours - printed).abs() <= 5.6, "{row:?} G {g} at {angle}: {ours} against {printed}");
                cells += 1;
            }
        }
    }
    assert!(cells > 170, "{cells} cells");
}

/// AWC Solved Example Problems, as carried in an open verification suite: a nail of 0.148 in through 3/4 in into Douglas
/// fir, 467.488 N; and a #10 screw in double shear, 1039.596 N (its G of 0.55, as that suite notes). That suite takes K_D at
/// the shank (2.4) where the specification's 12.3.7 puts the root (2.2): ours is higher by just that.
#[test]
fn solved_examples_come_out() {
    let nail = lateral(dowel(0.148, 0.148, 90_000.0), wood(2.25, 0.5), wood(0.75, 0.5), Shear::Single).unwrap();
    assert_close(nail.reference_n, 467.488_42, 2e-3, "nail");
    let screw = dowel(0.190, 0.152, 80_000.0);
    let double = lateral(screw, wood(3.0, 0.55), wood(1.31, 0.55), Shear::Double).unwrap();
    assert_close(double.reference_n * 2.2 / 2.4, 1039.596, 2e-3, "screw in double shear");
}

/// Sixty cells of Table 12L, from memory: they come out to a pound with K_D at the root, and would be up to a sixth lower with
/// K_D at the shank.
#[test]
fn wood_screws_come_out_as_remembered() {
    let gravities = [0.67, 0.55, 0.50, 0.49, 0.46, 0.43, 0.42, 0.37, 0.36, 0.35];
    for row in rows(include_str!("../data/nds-screw-lateral.csv")) {
        let screw = WoodScrew::of_gauge(row[0].parse().unwrap(), 50.0).unwrap();
        let of = Dowel {
            diameter_mm: screw.shank_mm(),
            bearing_diameter_mm: screw.root_mm(),
            yield_mpa: steel_yield_mpa(screw.shank_mm()),
        };
        for (i, g) in gravities.iter().enumerate() {
            let main = Member { bearing_mm: 10.0 * screw.shank_mm(), gravity: *g, angle_deg: 0.0 };
            let ours = lateral(of, main, wood(0.5, *g), Shear::Single).unwrap().reference_n / LBF;
            assert!((ours - number(&row, i + 1)).abs() <= 1.5, "{row:?} G {g}: {ours}");
        }
    }
}

/// National Design Specification (2005) Table 11N quoted by an engineer: 16d nail, 1 1/2 in side, G 0.50: 141 lbf.
#[test]
fn a_sixteen_penny_nail_comes_out() {
    let nail = lateral(dowel(0.162, 0.162, 90_000.0), wood(1.62, 0.5), wood(1.5, 0.5), Shear::Single).unwrap();
    assert!((nail.reference_n / LBF - 141.0).abs() < 0.6, "{}", nail.reference_n / LBF);
}

/// Three cases worked by hand from the equations, all six modes.
#[test]
fn every_mode_comes_out_as_worked_by_hand() {
    let cases = [
        ((10, 80_000.0), (1.0, 0.50), (0.75, 0.50), [320.4, 240.3, 118.1, 127.1, 106.3, 116.8]),
        ((12, 80_000.0), (1.0, 0.73), (0.50, 0.50), [719.8, 179.4, 209.0, 232.3, 124.3, 170.0]),
        ((14, 70_000.0), (1.2, 0.73), (0.55, 0.45), [889.5, 167.4, 249.1, 267.7, 126.5, 175.5]),
    ];
    for ((gauge, psi), (lm, gm), (ls, gs), worked) in cases {
        let screw = WoodScrew::of_gauge(gauge, 50.0).unwrap();
        let of = Dowel { diameter_mm: screw.shank_mm(), bearing_diameter_mm: screw.root_mm(), yield_mpa: psi * PSI };
        let found = lateral(of, wood(lm, gm), wood(ls, gs), Shear::Single).unwrap();
        for ((mode, n), lbf) in found.modes.iter().zip(worked) {
            assert_close(*n / LBF, lbf, 1e-3, &format!("#{gauge} {mode}"));
        }
        assert_eq!(found.mode, Mode::IIIs);
        assert_eq!(found.mode.to_string(), "IIIs");
    }
}

/// Mode IIIm by statics worked anew: turned round, plank and frame change places and IIIm becomes IIIs.
#[test]
fn turning_the_joint_round_swaps_the_modes() {
    let of = dowel(0.190, 0.152, 80_000.0);
    let one = lateral(of, wood(1.1, 0.7), wood(0.6, 0.4), Shear::Single).unwrap();
    let other = lateral(of, wood(0.6, 0.4), wood(1.1, 0.7), Shear::Single).unwrap();
    let at = |found: &fastening::lateral::Lateral, mode| found.modes.iter().find(|(m, _)| *m == mode).unwrap().1;
    for (a, b) in [(Mode::Im, Mode::Is), (Mode::II, Mode::II), (Mode::IIIm, Mode::IIIs), (Mode::IV, Mode::IV)] {
        assert_close(at(&one, a), at(&other, b), 1e-9, &format!("{a}"));
    }
}

#[test]
fn thin_stock_is_stronger_steel() {
    assert_close(steel_yield_mpa(0.19 * 25.4), 80_000.0 * PSI, 1e-12, "#10, read");
    assert!(steel_yield_mpa(3.0) > steel_yield_mpa(6.0) && steel_yield_mpa(6.0) > steel_yield_mpa(12.0));
}

#[test]
fn a_root_larger_than_the_shank_is_refused() {
    let refused = lateral(dowel(0.19, 0.2, 80_000.0), wood(1.0, 0.5), wood(1.0, 0.5), Shear::Single).unwrap_err();
    assert!(refused.to_string().contains("larger than the shank"), "{refused}");
}
