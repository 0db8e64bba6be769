//! Strength against the handbook's printed example and hand figures; sound.

use proptest::prelude::*;
use timber::species::{find, table};
use timber::{Known, Mark, sound, strength};

fn known(value: f64) -> Known {
    Known { value, low: value, high: value, mark: Mark::Read, source: "test" }
}

/// Wood Handbook (2021) ch. 5, printed example: white ash, bending strength 103 000 and 66 000 kPa, M_p 24, at 8 %
/// 119 500 kPa.
#[test]
fn the_handbooks_worked_example() {
    let at_8 = strength::at_moisture(known(103_000.0), known(66_000.0), 24.0, 8.0);
    assert!((at_8.value - 119_500.0).abs() < 100.0, "{}", at_8.value);
}

/// By hand: white oak bending strength 15 200 and 8 300 psi at 18 %: 11 497 psi; western larch stiffness 1.87 and
/// 1.46 Mpsi at 15 %: 1.785 (M_p 25 and 28).
#[test]
fn hand_figures() {
    assert!((strength::at_moisture(known(15_200.0), known(8_300.0), 25.0, 18.0).value - 11_497.0).abs() < 1.0);
    assert!((strength::at_moisture(known(1.87), known(1.46), 28.0, 15.0).value - 1.785).abs() < 0.001);
}

#[test]
fn at_12_and_green_the_printed_figures_come_back() {
    let oak = find("white oak").unwrap();
    let dry = strength::at(oak, 12.0, 20.0).unwrap();
    assert_eq!(dry.strength.mor_mpa, oak.dry.mor_mpa);
    assert_eq!(dry.specific_gravity.unwrap().value, 0.68);
    let wet = strength::at(oak, 60.0, 20.0).unwrap();
    assert_eq!(wet.strength.shear_mpa, oak.green.shear_mpa);
    assert_eq!(wet.specific_gravity.unwrap().value, 0.60);
}

/// Wood Handbook Table 5-15: at 12 % and +50 °C stiffness −7 %, bending −20 %, crushing −25 %, across the grain −35 %;
/// at −50 °C stiffness +17 %; above fibre saturation at −50 °C bending +110 %.
#[test]
fn temperature_ends_are_the_printed_ones() {
    let fir = find("Douglas fir").unwrap();
    let ratio = |mc: f64, t: f64, pick: fn(&strength::Adjusted) -> f64| {
        pick(&strength::at(fir, mc, t).unwrap()) / pick(&strength::at(fir, mc, 20.0).unwrap())
    };
    let moe = |a: &strength::Adjusted| a.strength.moe_mpa.unwrap().value;
    let mor = |a: &strength::Adjusted| a.strength.mor_mpa.unwrap().value;
    assert!((ratio(12.0, 50.0, moe) - 0.93).abs() < 1e-9);
    assert!((ratio(13.0, 50.0, mor) - 0.80).abs() < 1e-9);
    assert!((ratio(12.0, 50.0, |a| a.strength.compression_parallel_mpa.unwrap().value) - 0.75).abs() < 1e-9);
    assert!((ratio(12.0, 50.0, |a| a.strength.compression_perp_mpa.unwrap().value) - 0.65).abs() < 1e-9);
    assert!((ratio(12.0, -50.0, moe) - 1.17).abs() < 1e-9);
    assert!((ratio(40.0, -50.0, mor) - 2.10).abs() < 1e-9);
}

/// The Madison curve (Wood 1951): 5 min 101.5 (held at 100 here), 1 h 92.4, 1 day 82.3, 1 year 66.9, 50 years 58.9 %.
#[test]
fn lasting_load() {
    let year = 365.25 * 86_400.0;
    for (t, percent) in [(300.0, 100.0), (3600.0, 92.4), (86_400.0, 82.3), (year, 66.9), (50.0 * year, 58.9)] {
        assert!((100.0 * strength::share_under_lasting_load(t) - percent).abs() < 0.06, "{t}");
    }
}

#[test]
fn what_is_not_known_stays_unknown_and_what_is_doubtful_says_so() {
    let larch = strength::at(find("European larch").unwrap(), 18.0, 20.0).unwrap();
    assert!(larch.strength.shear_mpa.is_none() && larch.strength.compression_perp_mpa.is_none());
    assert!((larch.strength.mor_mpa.unwrap().value - 99.0 * (1.0 - 0.24)).abs() < 1e-9);
    assert!(larch.cautions.iter().any(|c| c.contains("quick rule")));
    let iroko = strength::at(find("iroko").unwrap(), 12.0, 20.0).unwrap();
    assert!(iroko.cautions.iter().any(|c| c.contains("from memory") && c.contains("bending strength")));
}

/// Published baselines: Douglas-fir about 200 µs/m along the grain in bridges (an FHWA note).
#[test]
fn speed_of_sound_in_sound_wood() {
    let fir = sound::baseline(find("Douglas fir").unwrap(), 12.0).unwrap();
    assert!((fir.along_us_per_m - 191.0).abs() < 1.5, "{}", fir.along_us_per_m);
    assert!((fir.along_us_per_m / 200.0 - 1.0).abs() < 0.06);
    // A wet plank at 80 % reads 15 % slower than at 30 % with no decay (constant stiffness, growing mass).
    let wet = sound::baseline(find("Douglas fir").unwrap(), 80.0).unwrap();
    let saturated = sound::baseline(find("Douglas fir").unwrap(), 30.0).unwrap();
    assert!((wet.along_m_s / saturated.along_m_s - 0.85).abs() < 0.005);
}

proptest! {
    #[test]
    fn wetter_and_hotter_is_never_stronger(wood in 0..32usize, mc in 5.0..40.0f64, t in 20.0..49.0f64) {
        let at = |mc: f64, t: f64| strength::at(&table()[wood], mc, t).unwrap().strength.mor_mpa;
        if let (Some(a), Some(wetter), Some(hotter)) = (at(mc, t), at(mc + 1.0, t), at(mc, t + 1.0)) {
            prop_assert!(wetter.value <= a.value + 1e-9 && hotter.value <= a.value + 1e-9);
            prop_assert!(a.low <= a.value + 1e-9 && a.value <= a.high + 1e-9);
        }
    }
}
