//! Movement, ring angle and the checks of a boxed heart.

use proptest::prelude::*;
use timber::movement::{
    by_coefficient, coefficient_from_total, of_width, share_by_totals, shrinkage_from_green_percent,
};
use timber::species::{find, table};
use timber::{heart, ring::Rings};

/// Wood Handbook ch. 13, worked example of the coefficient equation: a white fir board 232 mm wide going from 8 to
/// 11 %, coefficient 0.00245, gains 1.705 mm. From memory.
#[test]
fn the_handbooks_worked_example() {
    assert!((by_coefficient(232.0, 0.00245, 8.0, 11.0) - 1.705).abs() < 0.0005);
}

/// Wood Handbook FPL-GTR-190 (2010): coefficients of Table 13-5 follow from the totals of Table 4-3 for the woods
/// that both tables print singly; commercial oaks are a group and are left out.
#[test]
fn printed_totals_give_back_the_printed_coefficients() {
    let mut cells = 0;
    for s in table() {
        let Some(c) = s.coefficients.filter(|c| c.source.contains("13-5") && !c.source.contains("group")) else {
            continue;
        };
        let Some(set) = s.shrinkage.first().filter(|set| set.source.contains("Table 4-3")) else { continue };
        let f = set.fibre_saturation_percent;
        for (total, printed) in
            [(set.radial_percent, c.radial_per_percent), (set.tangential_percent, c.tangential_per_percent)]
        {
            let ours = coefficient_from_total(total, f);
            assert!((ours - printed).abs() <= 0.000011, "{}: {ours:.5} against {printed}", s.id);
            cells += 1;
        }
    }
    assert!(cells >= 20, "only {cells} cells");
}

/// Rotation of a small strain, white oak 5.6/10.5 %: a closed form, worked by hand.
#[test]
fn ring_angle_turns_radial_into_tangential() {
    let hand = [(0.0, 10.50), (15.0, 10.17), (30.0, 9.28), (45.0, 8.05), (60.0, 6.83), (90.0, 5.60)];
    for (degrees, width) in hand {
        let ours = Rings::at_degrees(degrees).unwrap().across_width(5.6, 10.5);
        assert!((ours - width).abs() < 0.006, "{degrees}: {ours}");
    }
    // At 45° and 15 % moisture the corner moves 1.40°, half of the total shrinkage having happened.
    let corner = Rings::RIFT.corner_degrees(5.6 / 2.0, 10.5 / 2.0);
    assert!((corner - 1.40).abs() < 0.01, "{corner}");
    assert!(Rings::at_degrees(120.0).unwrap_err().to_string().contains("0 (flat-sawn) to 90"));
    assert!(Rings::at_degrees(f64::NAN).is_err());
}

#[test]
fn curved_rings_lie_between_flat_and_quarter() {
    let far = Rings::about_heart(150.0, 5000.0).unwrap();
    let near = Rings::about_heart(150.0, 60.0).unwrap();
    assert!(far.across_width(5.0, 10.0) > 9.99);
    // By numbers: the mean of cos²(atan(x/h)) over the width.
    let mean: f64 = (0..10_000)
        .map(|i| {
            let x = -75.0 + 150.0 * (f64::from(i) + 0.5) / 10_000.0;
            (x / 60.0f64).atan().cos().powi(2)
        })
        .sum::<f64>()
        / 10_000.0;
    assert!((near.across_width(0.0, 1.0) - mean).abs() < 1e-6);
    assert!(Rings::about_heart(0.0, 10.0).is_err());
}

/// White oak 30 to 28 … the worked case of a 125 mm plank drying 28 to 18.59 %: 4.15 mm flat, 2.20 mm quarter-sawn
/// (by hand from totals 5.6/10.5 and 30 %).
#[test]
fn a_wet_plank_takes_the_totals() {
    let oak = find("white oak").unwrap();
    let flat = of_width(oak, Rings::FLAT, 125.0, 28.0, 18.59).unwrap();
    let quarter = of_width(oak, Rings::QUARTER, 125.0, 28.0, 18.59).unwrap();
    assert!((flat.change_mm + 4.15).abs() < 0.01 && (quarter.change_mm + 2.20).abs() < 0.01);
    assert!(flat.low_mm < flat.change_mm && flat.change_mm < flat.high_mm && flat.high_mm < 0.0);
    assert!((shrinkage_from_green_percent(10.5, 30.0, 15.0) - 5.25).abs() < 1e-12);
}

/// 2π r (S_T − S_R)/100 (F − M)/F by hand at r = 75 mm and 15 %: white oak 11.5, western larch 10.8, iroko 3.1,
/// greenheart 1.9 mm.
#[test]
fn a_boxed_heart_must_check() {
    for (name, sum) in [("white oak", 11.5), ("western larch", 10.8), ("iroko", 3.1), ("greenheart", 1.9)] {
        let checks = heart::checks(find(name).unwrap(), 75.0, 15.0, None).unwrap();
        assert!((checks.sum_mm - sum).abs() < 0.06, "{name}: {}", checks.sum_mm);
        assert!(checks.low_mm <= checks.sum_mm && checks.sum_mm <= checks.high_mm);
    }
    let wide = heart::checks(find("white oak").unwrap(), 75.0, 15.0, Some(20.0)).unwrap();
    assert!(wide.reading.iter().any(|s| s.contains("another cause (load")));
}

#[test]
fn refuses_what_cannot_be_meant() {
    let oak = find("white oak").unwrap();
    assert!(of_width(oak, Rings::FLAT, 100.0, 0.12, 8.0).unwrap_err().to_string().contains("fraction"));
    assert!(of_width(oak, Rings::FLAT, 100.0, 12.0, 1800.0).unwrap_err().to_string().contains("so much water"));
    assert!(of_width(oak, Rings::FLAT, -5.0, 12.0, 8.0).is_err());
}

#[test]
fn sources_in_conflict_are_shown() {
    let teak = of_width(find("teak").unwrap(), Rings::FLAT, 100.0, 25.0, 12.0).unwrap();
    assert!(
        teak.cautions.iter().any(|c| c.contains("disagree")) && teak.cautions.iter().any(|c| c.contains("from memory"))
    );
}

proptest! {
    #[test]
    fn movement_is_odd_in_the_change(wood in 0..32usize, deg in 0.0..90.0f64, a in 6.0..14.0f64, b in 6.0..14.0f64) {
        let rings = Rings::at_degrees(deg).unwrap();
        prop_assert!((by_coefficient(100.0, 0.003, a, b) + by_coefficient(100.0, 0.003, b, a)).abs() < 1e-12);
        let (there, back) = (of_width(&table()[wood], rings, 100.0, a, b).unwrap(), of_width(&table()[wood], rings, 100.0, b, a).unwrap());
        prop_assert!(there.change_mm * back.change_mm <= 0.0);
        if there.method == timber::movement::Method::Coefficient {
            prop_assert!((there.change_mm + back.change_mm).abs() < 1e-9);
        }
    }

    #[test]
    fn there_and_back_gives_nothing(wood in 0..32usize, deg in 0.0..90.0f64, a in 0.0..40.0f64, b in 0.0..40.0f64) {
        let rings = Rings::at_degrees(deg).unwrap();
        for set in &table()[wood].shrinkage {
            let there = 1.0 + share_by_totals(set, rings, a, b);
            let back = 1.0 + share_by_totals(set, rings, b, a);
            prop_assert!((there * back - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn nothing_moves_above_fibre_saturation(wood in 0..32usize, a in 30.0..120.0f64, b in 30.0..120.0f64) {
        let moved = of_width(&table()[wood], Rings::FLAT, 150.0, a, b).unwrap();
        prop_assert_eq!(moved.change_mm, 0.0);
        prop_assert_eq!(moved.coefficient_per_percent, 0.0);
    }
}
