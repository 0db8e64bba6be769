//! Ballast bolts.

use crate::table_file::assert_close;
use fastening::keel::order::{Known, draw_first};
use fastening::keel::residual::residual;
use fastening::keel::statics::BallastKeel;
use fastening::kinds::Thread;
use fastening::metal;

fn keel() -> BallastKeel {
    BallastKeel {
        ballast_kg: 2000.0,
        depth_mm: 500.0,
        joint_mm: 300.0,
        positions_mm: (0..8).map(|i| f64::from(i) * 400.0).collect(),
        half_row_mm: 0.0,
        crushed_share: 0.1,
    }
}

/// Worked by hand: 2,000 kg, 0.5 m, joint 0.30 m, 8 bolts, z 0.135 m: 9,080 N a bolt at 90°, 42.1 N/mm² on 3/4-10.
#[test]
fn the_worked_keel_comes_out() {
    let heeled = keel().heeled(90.0, 1.0).unwrap();
    assert_close(heeled.greatest_n, 9080.0, 1e-4, "tension");
    let thread = Thread::named("3/4-10 UNC").unwrap();
    assert_close(heeled.greatest_n / thread.stress_area_mm2(), 42.1, 2e-3, "stress");
    assert_close(keel().heeled(90.0, 1.4).unwrap().greatest_n, 1.4 * heeled.greatest_n, 1e-12, "factor");
    assert_close(keel().upright().unwrap().greatest_n, 2000.0 * 9.806_65 / 8.0, 1e-12, "upright");
}

/// Statics: bolt tensions and their moment balance weight and its moment about the line the joint turns on.
#[test]
fn forces_and_moments_balance() {
    let paired = BallastKeel { half_row_mm: 80.0, ..keel() };
    for heel in [0.0, 30.0, 60.0, 90.0] {
        let case = paired.heeled(heel, 1.0).unwrap();
        let arms = [135.0 + 80.0, 135.0 - 80.0];
        let weight = 2000.0 * 9.806_65;
        let share = weight * heel.to_radians().cos().max(0.0) / 8.0;
        let moment: f64 = case.tensions_n.iter().enumerate().map(|(i, t)| (t - share) * arms[i % 2]).sum();
        assert_close(moment, weight * 500.0 * heel.to_radians().sin(), 1e-9, "moment");
        assert!(case.tensions_n[0] >= case.tensions_n[1], "the windward row takes more");
    }
    let ground = keel().grounding(6000.0, 0.5, 700.0).unwrap();
    let moment: f64 = ground.tensions_n.iter().zip(keel().positions_mm).map(|(t, x)| t * (2800.0 - x)).sum();
    assert_close(moment, 6000.0 * 9.806_65 * 0.5 * 700.0, 1e-9, "grounding");
    assert_close(ground.greatest_n, ground.tensions_n[0], 1e-12, "the forward bolt");
}

#[test]
fn every_assumption_is_printed() {
    let cases =
        [keel().upright().unwrap(), keel().heeled(90.0, 1.0).unwrap(), keel().grounding(6000.0, 0.5, 700.0).unwrap()];
    assert!(cases.iter().all(|case| case.assumptions.len() >= 3));
    assert!(cases[1].assumptions.iter().any(|a| a.contains("135 mm") && a.contains("convention")));
}

/// A thread is already as weak as a shank of 0.84 to 0.89 of the diameter: the first wasting costs no tension.
#[test]
fn the_first_tenth_of_a_threaded_bolt_costs_no_tension() {
    let (steel, thread) = (metal::find("mild steel").unwrap(), Thread::named("3/4").unwrap());
    let tenth = residual(19.05, 19.05 * 0.9, Some(&thread), steel).unwrap();
    assert!(tenth.thread_governs && (tenth.strength_percent - 100.0).abs() < 1e-9);
    assert_close(tenth.area_percent, 81.0, 1e-9, "area");
    let half = residual(19.05, 19.05 * 0.5, Some(&thread), steel).unwrap();
    assert_close(
        half.strength_percent,
        100.0 * (0.5f64 / (thread.equivalent_shank_mm() / 19.05)).powi(2),
        1e-9,
        "half",
    );
    let plain = residual(19.05, 19.05 * 0.9, None, steel).unwrap();
    assert_close(plain.strength_percent, 81.0, 1e-9, "no thread: the area");
    assert_close(plain.bending_percent, 72.9, 1e-9, "bending");
}

#[test]
fn a_bolt_larger_than_new_is_refused() {
    let refused = residual(20.0, 25.0, None, metal::find("monel").unwrap()).unwrap_err();
    assert!(refused.to_string().contains("larger than the bolt was new"), "{refused}");
    let scale = residual(20.0, 20.3, None, metal::find("monel").unwrap()).unwrap();
    assert_eq!(scale.area_percent, 100.0, "within makers' tolerance it is taken as new");
    let thread = Thread::named("M30").unwrap();
    assert!(residual(20.0, 19.0, Some(&thread), metal::find("monel").unwrap()).is_err());
    assert!(keel().heeled(90.0, 0.5).is_err());
    assert!(BallastKeel { positions_mm: vec![0.0; 3], ..keel() }.grounding(6000.0, 0.5, 700.0).is_err());
}

#[test]
fn a_bolt_with_a_sign_is_drawn_first_and_equals_are_spread() {
    let mut bolts: Vec<Known> = (1..=8).map(|number| Known { number, tension_n: 100.0, ..Known::default() }).collect();
    bolts[2].signs.push("rust weep".to_owned());
    let order: Vec<usize> = draw_first(&bolts).iter().map(|b| b.number).collect();
    assert_eq!(order[..3], [3, 8, 1], "the weeping one, then far from it, then the other end");
    assert_eq!(order.len(), 8);
}
