//! Seams opening ashore.

use proptest::prelude::*;
use timber::drying::{Coating, Exposure, Faces, Plank, Surroundings};
use timber::ring::Rings;
use timber::seam::{Reading, forecast};

fn plank() -> Plank {
    Plank {
        species: "white oak",
        thickness_mm: 30.0,
        mc_start_percent: 28.0,
        faces: Faces::Both,
        coating: Coating::Bare,
        exposure: Exposure::Breeze,
    }
}

/// By hand from the drying of a 30 mm white oak plank, 125 mm wide, 30 days at 15 °C and 65 %: 4.15 mm flat-sawn,
/// 2.20 mm quarter-sawn.
#[test]
fn thirty_days_ashore() {
    let air = Surroundings::constant(15.0, 65.0).unwrap();
    for (rings, gap) in [(Rings::FLAT, 4.15), (Rings::QUARTER, 2.20)] {
        let f = forecast(&plank(), 125.0, rings, &air, 30.0).unwrap();
        let end = f.end().unwrap();
        assert!((end.gap_mm - gap).abs() < 0.03, "{}", end.gap_mm);
        // ±40 % is the least that the band may carry.
        assert!(end.low_mm <= 0.6 * end.gap_mm + 1e-9 && end.high_mm >= 1.4 * end.gap_mm - 1e-9, "{end:?}");
        assert!(f.openings[0].gap_mm.abs() < 1e-12);
    }
}

#[test]
fn a_measured_gap_is_read_against_the_band() {
    let f = forecast(&plank(), 125.0, Rings::FLAT, &Surroundings::constant(15.0, 65.0).unwrap(), 30.0).unwrap();
    let end = f.end().unwrap();
    assert_eq!(end.compare(end.gap_mm).1, Reading::AsExpected);
    assert_eq!(end.compare(20.0).1, Reading::Wider);
    assert_eq!(end.compare(0.2).1, Reading::Tighter);
    assert!((end.compare(20.0).0 - (20.0 - end.gap_mm)).abs() < 1e-12);
}

#[test]
fn a_plank_thicker_than_wide_is_refused() {
    let air = Surroundings::constant(15.0, 65.0).unwrap();
    let message =
        forecast(&Plank { thickness_mm: 130.0, ..plank() }, 30.0, Rings::FLAT, &air, 30.0).unwrap_err().to_string();
    assert!(message.contains("changed places"), "{message}");
}

#[test]
fn water_above_fibre_saturation_opens_nothing() {
    let f = forecast(
        &Plank { mc_start_percent: 80.0, ..plank() },
        125.0,
        Rings::FLAT,
        &Surroundings::constant(15.0, 65.0).unwrap(),
        2.0,
    )
    .unwrap();
    // The mean has fallen far more than the part of it that moves the wood.
    let end = f.end().unwrap();
    assert!(80.0 - end.mean_mc_percent > 3.0 && end.gap_mm < 1.5, "{end:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn the_band_holds_the_line(wood in 0..32usize, m0 in 6.0..40.0f64, rh in 30.0..90.0f64, days in 1.0..120.0f64) {
        let p = Plank { species: timber::species::table()[wood].id, mc_start_percent: m0, ..plank() };
        let f = forecast(&p, 125.0, Rings::RIFT, &Surroundings::constant(15.0, rh).unwrap(), days).unwrap();
        for o in &f.openings {
            prop_assert!(o.low_mm <= o.gap_mm && o.gap_mm <= o.high_mm && o.gap_mm.is_finite());
        }
    }
}
