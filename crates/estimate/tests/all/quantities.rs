//! Quantities against worked figures.

use estimate::quantities::{BOARD_FOOT_M3, Fastenings, PlankBlank, board_feet, caulking_m, frame_crossings, sister_mm};
use proptest::prelude::*;

#[test]
fn a_board_foot_is_144_cubic_inches() {
    // Exact from 1 in = 25.4 mm: 2359.737216 cm3.
    assert!((BOARD_FOOT_M3 - 144.0 * 0.0254f64.powi(3)).abs() < 1e-18);
    // 8 ft x 6 in x 1.25 in = 5.0 board feet = 0.011799 m3.
    assert!((board_feet(2438.4, 152.4, 31.75) - 5.0).abs() < 1e-12);
    assert!((5.0 * BOARD_FOOT_M3 - 0.011799).abs() < 5e-7);
}

#[test]
fn crossings_fastenings_and_seams_by_hand() {
    // 10 m at 250 mm: 41 crossings; two at each: 82, and the butts.
    assert_eq!(frame_crossings(10_000.0, 250.0).expect("good"), 41);
    let run = Fastenings { planks: 1, crossings: 41, per_crossing: 2, butts: 1, per_butt_end: 4, left: 10 };
    assert_eq!(run.count(), 82 + 8 - 10);
    // 12 strakes a side, 9 m: (11 + 1) x 9 x 2 = 216 m and the ends.
    assert!((caulking_m(12, 9.0, 6.0, 1.5) - 223.5).abs() < 1e-12);
    assert!((sister_mm(300.0, 450.0) - 1200.0).abs() < 1e-12);
    assert!(frame_crossings(10_000.0, 0.0).is_err());
}

#[test]
fn a_plank_taken_off() {
    // 9 m x 0.14 m: 1.26 m2 finished.
    let plank = PlankBlank {
        length_mm: 9000.0,
        width_mm: 140.0,
        thickness_mm: 28.0,
        sweep_mm: 60.0,
        edge_mm: 5.0,
        planing_mm: 4.0,
        ends_mm: 500.0,
        yield_percent: 60.0,
    };
    let timber = plank.timber(1).expect("good");
    assert!((timber.finished_m2 - 1.26).abs() < 1e-12);
    // 9.5 x 0.21 x 0.032 = 0.06384 m3, over 0.6 = 0.1064 m3.
    assert!((timber.blanks_m3 - 0.06384).abs() < 1e-12);
    assert!((timber.to_buy_m3 - 0.1064).abs() < 1e-12);
    assert!(PlankBlank { yield_percent: 0.0, ..plank }.timber(1).is_err());
}

proptest! {
    #[test]
    fn whole_spacings_never_lose_their_last_frame(spaces in 1u32..200, spacing_mm in 50.0f64..900.0) {
        let length_mm = f64::from(spaces) * spacing_mm;
        prop_assert_eq!(frame_crossings(length_mm, spacing_mm).expect("good"), u64::from(spaces) + 1);
    }
}
