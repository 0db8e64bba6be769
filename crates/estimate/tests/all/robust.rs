//! Robust location and bootstrap against scipy (`tests/reference/robust.py`).

use crate::{number, rows};
use estimate::robust::{
    bootstrap_median_chances, bootstrap_median_range, hodges_lehmann, median, median_absolute_deviation, median_range,
};
use proptest::prelude::*;

#[test]
fn location_spread_and_ranges_agree_with_scipy() {
    for row in rows(include_str!("../reference/robust.csv")) {
        let figures: Vec<f64> = row[0].split(' ').map(number).collect();
        let theirs: Vec<f64> = row[1..].iter().map(|cell| number(cell)).collect();
        assert!((median(&figures) - theirs[0]).abs() < 1e-6);
        assert!((median_absolute_deviation(&figures) - theirs[1]).abs() < 1e-6);
        assert!((hodges_lehmann(&figures) - theirs[2]).abs() < 1e-6);
        let (low, high) = bootstrap_median_range(&figures, 90.0, 40_000, 9);
        // The median of a resample takes few values, so the two must fall on the same ones or a close neighbour.
        let step = 0.02 * median(&figures);
        assert!((low - theirs[3]).abs() < step && (high - theirs[4]).abs() < step, "{row:?}: {low} {high}");
        let range = median_range(&figures, 90.0).expect("figures");
        assert_eq!((range.low, range.high), (theirs[5], theirs[6]), "{row:?}");
        assert!((range.coverage_percent - theirs[7]).abs() < 1e-6, "{range:?}");
    }
}

#[test]
fn of_three_figures_any_ninety_percent_interval_is_the_whole_range() {
    // Worked by hand: chances of 7/27, 13/27, 7/27.
    let chances = bootstrap_median_chances(&[30.0, 10.0, 20.0]).expect("odd");
    for ((figure, chance), (x, p)) in chances.iter().zip([(10.0, 7.0), (20.0, 13.0), (30.0, 7.0)]) {
        assert!(*figure == x && (chance - p / 27.0).abs() < 1e-12);
    }
    assert_eq!(bootstrap_median_range(&[10.0, 20.0, 30.0], 90.0, 2000, 1), (10.0, 30.0));
    let range = median_range(&[10.0, 20.0, 30.0], 90.0).expect("figures");
    assert!(range.is_whole_range && (range.coverage_percent - 75.0).abs() < 1e-12);
    assert_eq!(bootstrap_median_chances(&[1.0, 2.0]), None);
}

proptest! {
    #[test]
    fn location_moves_and_scales_with_the_figures(figures in prop::collection::vec(1.0f64..1e5, 1..15), k in 0.1f64..9.0) {
        let scaled: Vec<f64> = figures.iter().map(|x| k * x + 7.0).collect();
        for location in [median, hodges_lehmann] {
            prop_assert!((location(&scaled) - (k * location(&figures) + 7.0)).abs() < 1e-6);
        }
        let range = median_range(&figures, 90.0).expect("figures");
        prop_assert!(range.low <= median(&figures) && median(&figures) <= range.high);
        if figures.len() % 2 == 1 {
            let chances = bootstrap_median_chances(&figures).expect("odd");
            prop_assert!((chances.iter().map(|(_, p)| p).sum::<f64>() - 1.0).abs() < 1e-9);
        }
    }
}
