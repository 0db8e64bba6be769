//! Planks bent on: closed forms, limits, relaxation, and what a bung says.

use crate::table_file::{assert_close, number, rows};
use fastening::plank::beam::{constant_curve, forced, pull_sd_n};
use fastening::plank::bend::{Reading, bend};
use fastening::plank::curve::{from_radius, from_string, from_three_offsets};
use fastening::plank::explain::{Verdict, Where, explain};
use fastening::plank::relax::relaxed;
use fastening::plank::sprung::{Asked, Governs, Holding, Plank, judge, on_a_curve};
use fastening::planking_table::read_bung;
use proptest::prelude::*;

fn mahogany() -> Plank {
    Plank { thickness_mm: 22.0, width_mm: 120.0, moe_mpa: 10_300.0, mor_mpa: 79.3, freed_radius_m: None }
}

fn at_radius(radius_m: f64, rows: usize) -> Asked {
    on_a_curve(&mahogany(), from_radius(radius_m, false).unwrap(), 200.0, rows, 2).unwrap()
}

/// Runs of 3 to 12 frames worked by hand from the three-moment equation.
#[test]
fn even_runs_come_out_as_worked_by_hand() {
    let (ei, r, a) = (1.0e9, 2500.0, 180.0);
    let worked = rows(include_str!("../data/plank-reactions.csv"));
    for row in &worked {
        let n: usize = row[0].parse().unwrap();
        let i: usize = row[1].parse().unwrap();
        let positions: Vec<f64> = (0..n).map(|k| k as f64 * a).collect();
        let found = forced(ei, &positions, &constant_curve(&positions, 1.0 / r)).unwrap();
        assert!((found.moments_n_mm[i] * r / ei - number(row, 2)).abs() < 6e-5, "{row:?}");
        assert!((found.pulls_n[i] * r * a / ei - number(row, 3)).abs() < 6e-5, "{row:?}");
    }
    assert!(worked.len() > 30);
}

/// Simply supported beam pushed at its middle by δ: P = 48 E I δ/L³ (any handbook of beams).
#[test]
fn one_bay_either_side_is_the_handbook_beam() {
    let (ei, l, delta) = (2.0e9, 900.0, 7.0);
    let found = forced(ei, &[0.0, l / 2.0, l], &[0.0, delta, 0.0]).unwrap();
    let p = 48.0 * ei * delta / l.powi(3);
    assert_close(found.pulls_n[1], -p, 1e-12, "middle bears");
    assert_close(found.pulls_n[0], p / 2.0, 1e-12, "ends pull");
    assert_close(found.moments_n_mm[1], p * l / 4.0, 1e-12, "moment");
}

/// Point load at distance a from one end and b from the other: δ = P a² b²/(3 E I L).
#[test]
fn unequal_bays_are_the_handbook_beam_too() {
    let (ei, a, b, delta) = (5.0e8, 300.0, 700.0, 4.0);
    let p = 3.0 * ei * (a + b) * delta / (a * a * b * b);
    let found = forced(ei, &[0.0, a, a + b], &[0.0, delta, 0.0]).unwrap();
    assert_close(found.pulls_n[1], -p, 1e-12, "middle");
    assert_close(found.pulls_n[0], p * b / (a + b), 1e-12, "near end");
}

/// A long even run tends to (√3 − 1)√3 = 1.268 at its ends: M = (E I/R)(1 − rⁱ), r = −(2 − √3).
#[test]
fn a_long_run_asks_all_of_its_ends_and_nothing_of_its_middle() {
    let asked = at_radius(3.0, 40);
    let unit = mahogany().stiffness_n_mm2() / (3000.0 * 200.0);
    assert_close(asked.rows[0].pull_n / unit, 3.0 - 3f64.sqrt(), 1e-9, "end");
    assert!(asked.rows[20].pull_n.abs() < 1e-6 * unit);
    assert_eq!(asked.worst_row, 0);
}

/// Worked by hand: plank 22 × 120 mm, E 10.3 GPa, frames 200 mm, two screws a row, R 1.2, 2, 3, 6 m.
#[test]
fn the_worked_plank_comes_out() {
    for (radius, per_screw) in [(1.2, 2897.0), (2.0, 1738.0), (3.0, 1159.0), (6.0, 579.0)] {
        assert_close(at_radius(radius, 12).force_per_fastening_n, per_screw, 1e-3, "pull");
    }
    let asked = at_radius(1.2, 12);
    assert_close(asked.bending_stress_mpa, 10_300.0 * 22.0 / 2400.0, 1e-12, "stress E t/2R");
    assert_close(bend(22.0, 1.2, None).unwrap().strain_percent, 0.9167, 1e-3, "strain");
    let held = Holding { withdrawal_n: 1042.0, pull_through_n: 325.0, tension_n: None };
    let judged = judge(&at_radius(3.0, 12), &held, 40.0).unwrap();
    assert_eq!(judged.governs, Governs::PullThrough);
    assert!((judged.withdrawal_ratio - 1.11).abs() < 0.01 && (judged.pull_through_ratio - 3.57).abs() < 0.01);
    assert!((judged.pull_through_ratio * judged.relaxed.low - 1.18).abs() < 0.02);
}

#[test]
fn hollow_planking_pulls_at_the_second_row() {
    let hollow = on_a_curve(&mahogany(), from_radius(3.0, true).unwrap(), 200.0, 12, 2).unwrap();
    assert_eq!(hollow.worst_row, 1);
    assert!(hollow.rows[0].pull_n < 0.0 && hollow.rows[0].per_fastening_n == 0.0);
    let ratio = hollow.rows[1].pull_n / (mahogany().stiffness_n_mm2() / 600_000.0);
    assert_close(ratio, 1.6077, 1e-4, "second row");
}

#[test]
fn a_plank_that_keeps_its_shape_when_freed_asks_for_less() {
    let set = Plank { freed_radius_m: Some(6.0), ..mahogany() };
    let asked = on_a_curve(&set, from_radius(3.0, false).unwrap(), 200.0, 12, 2).unwrap();
    assert_close(asked.force_per_fastening_n, 0.5 * at_radius(3.0, 12).force_per_fastening_n, 1e-9, "half the bend");
    let free = Plank { freed_radius_m: Some(3.0), ..mahogany() };
    assert!(on_a_curve(&free, from_radius(3.0, false).unwrap(), 200.0, 12, 2).unwrap().force_per_fastening_n < 1e-6);
}

/// Points on a true circle give its radius: by string and by three offsets.
#[test]
fn radius_by_string_and_by_three_offsets() {
    let (r, c) = (2400.0f64, 1500.0f64);
    let rise = r - (r * r - c * c / 4.0).sqrt();
    assert_close(from_string(c, rise, 0.0).unwrap().radius_m(), 2.4, 1e-9, "string");
    let y = |x: f64| 50.0 - (r * r - x * x).sqrt() + r;
    let found = from_three_offsets(400.0, [y(-500.0), y(-100.0), y(300.0)], 0.5).unwrap();
    assert_close(found.radius_m(), 2.4, 1e-9, "offsets");
    assert!(found.per_mm > 0.0, "nearest the edge in the middle: convex");
    let (least, greatest) = found.radius_range_m();
    assert!(least < 2.4 && greatest > 2.4);
    let slack = from_three_offsets(100.0, [3.0, 2.9, 3.0], 1.0).unwrap();
    assert!(slack.radius_range_m().1.is_infinite(), "may be straight");
    assert!(from_string(500.0, 400.0, 1.0).unwrap_err().to_string().contains("half the chord"));
}

#[test]
fn errors_of_close_offsets_swamp_the_pull() {
    let positions: Vec<f64> = (0..8).map(|i| f64::from(i) * 200.0).collect();
    let sd = pull_sd_n(mahogany().stiffness_n_mm2(), &positions, 1.0).unwrap();
    assert!(sd[3] > 500.0, "a millimetre at 200 mm frames counts for hundreds of newtons: {sd:?}");
    // A push of one unit at one row, superposed: the law of the beam is linear.
    let one = forced(1e9, &positions, &[0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0]).unwrap();
    let two = forced(1e9, &positions, &[0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 0.0, 0.0]).unwrap();
    assert_close(two.pulls_n[2], 2.0 * one.pulls_n[2], 1e-12, "linear");
}

#[test]
fn limits_of_bending_say_where_they_come_from() {
    let gentle = bend(22.0, 6.0, Some(79.3 / 10_300.0)).unwrap();
    assert!(gentle.reading.contains("cold") && gentle.limits[0].reading == Reading::Gentler);
    let sharp = bend(22.0, 1.2, Some(79.3 / 10_300.0)).unwrap();
    assert!(sharp.reading.contains("steamed") && sharp.limits[2].reading == Reading::Sharper);
    // Lemoine and Koch (1971), abstract: southern pine with strap at 12 to 16 thicknesses.
    assert!(sharp.limits.iter().any(|l| l.least_r_over_t == (12.0, 16.0) && l.mark == fastening::Mark::Read));
}

#[test]
fn force_relaxes_between_a_third_and_seven_tenths() {
    assert_eq!((relaxed(0.0).unwrap().low, relaxed(0.0).unwrap().high), (1.0, 1.0));
    let old = relaxed(40.0).unwrap();
    assert!(old.low < old.high && old.sentence.contains("from memory"));
    assert!(relaxed(-1.0).is_err());
}

#[test]
fn the_curve_explains_larger_bungs_at_the_ends_but_not_in_the_middle() {
    let (asked, large) = (at_radius(3.0, 12), read_bung(16.0, 22.0).unwrap());
    let at = |place| explain(&large, &asked, 325.0, "head", place, 40.0).unwrap();
    assert_eq!(at(Where::Ends).verdict, Verdict::Explained);
    assert!(at(Where::Ends).next[0].contains("washer"));
    let middle = at(Where::Middle);
    assert_eq!(middle.verdict, Verdict::NotExplained);
    assert!(middle.reasons.last().unwrap().contains("Refastening"), "{:?}", middle.reasons);
    assert_eq!(at(Where::Throughout).verdict, Verdict::NotExplained);
    assert_eq!(middle.rows[5].verdict, Verdict::NotExplained);
    let gentle = explain(&large, &at_radius(40.0, 12), 325.0, "head", Where::Ends, 40.0).unwrap();
    assert_eq!(gentle.verdict, Verdict::NotExplained);
    let between = explain(&large, &at_radius(15.0, 12), 325.0, "head", Where::Ends, 40.0).unwrap();
    assert_eq!(between.verdict, Verdict::Undecided);
    assert!(between.next.iter().any(|n| n.contains("Draw one")));
    let usual = explain(&read_bung(12.7, 22.0).unwrap(), &asked, 325.0, "head", Where::Ends, 40.0).unwrap();
    assert_eq!(usual.verdict, Verdict::NothingToExplain);
}

#[test]
fn what_cannot_be_a_plank_is_refused() {
    let curve = from_radius(3.0, false).unwrap();
    let two = on_a_curve(&mahogany(), curve, 200.0, 2, 2).unwrap_err();
    assert!(two.to_string().contains("fewer than three frames"), "{two}");
    assert!(on_a_curve(&Plank { moe_mpa: f64::NAN, ..mahogany() }, curve, 200.0, 5, 2).is_err());
    assert!(forced(1e9, &[0.0, 200.0, 150.0], &[0.0, 1.0, 0.0]).unwrap_err().to_string().contains("150"));
    assert!(forced(1e9, &[0.0, 200.0, 400.0], &[0.0, 1.0]).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn pulls_and_their_moments_balance(
        bays in proptest::collection::vec(60.0..600.0f64, 2..20),
        seed in proptest::collection::vec(-40.0..40.0f64, 21),
    ) {
        let mut positions = vec![0.0];
        for bay in &bays {
            positions.push(positions[positions.len() - 1] + bay);
        }
        let offsets = &seed[..positions.len()];
        let found = forced(1e9, &positions, offsets).unwrap();
        let scale: f64 = found.pulls_n.iter().map(|p| p.abs()).sum();
        let turning: f64 = found.pulls_n.iter().zip(&positions).map(|(p, x)| p * x).sum();
        prop_assert!(found.pulls_n.iter().sum::<f64>().abs() <= 1e-9 * scale + 1e-9);
        prop_assert!(turning.abs() <= 1e-9 * scale * positions[positions.len() - 1] + 1e-6);
    }
}
