//! Meter corrections.

use proptest::prelude::*;
use timber::decay::{DecayRoom, fullest_percent, room_for_decay, sinks_at_percent};
use timber::meter::{SpeciesTable, at_temperature, correct};
use timber::species::find;

/// The correction of the Pfaff and Garrahan form, worked by hand: reading 15 is 17.7 at 0 °C, 16.4 at 10, 15.3 at 20,
/// 14.2 at 30; reading 20 is 23.3, 21.8, 20.4, 19.0.
#[test]
fn temperature_correction_by_the_form_named() {
    for (reading, at) in [(15.0, [17.7, 16.4, 15.3, 14.2]), (20.0, [23.3, 21.8, 20.4, 19.0])] {
        for (t, printed) in [0.0, 10.0, 20.0, 30.0].into_iter().zip(at) {
            assert!((at_temperature(reading, t) - printed).abs() < 0.06, "{reading} at {t}");
        }
    }
}

/// A maker's printed rule (half a per cent for each 5 °C below 20 °C) is gentler than the form used: both say add
/// when cold and take off when hot.
#[test]
fn the_rule_of_thumb_has_the_same_sign_and_is_gentler() {
    for t in [0.0, 5.0, 10.0, 30.0, 35.0] {
        let rule: f64 = 0.5 * (20.0 - t) / 5.0;
        let ours = at_temperature(15.0, t) - at_temperature(15.0, 20.0);
        assert!(
            ours * rule > 0.0 && ours.abs() <= rule.abs() * 1.3 && ours.abs() >= rule.abs() * 0.9,
            "{t}: {ours} {rule}"
        );
    }
}

#[test]
fn a_wood_without_a_table_is_not_guessed() {
    let teak = correct(24.0, find("teak").unwrap(), 20.0, SpeciesTable::None, false).unwrap();
    assert_eq!(teak.species_correction_percent, None);
    assert!(teak.high_percent - teak.low_percent >= 8.0 - 1e-9);
    assert!(teak.cautions.iter().any(|c| c.contains("24 % as 20 %")));
    let fir = correct(15.0, find("Douglas fir").unwrap(), 10.0, SpeciesTable::None, false).unwrap();
    assert_eq!(fir.species_correction_percent, Some(0.0));
    let own = correct(24.0, find("teak").unwrap(), 22.0, SpeciesTable::Add(-4.0), false).unwrap();
    assert!((own.mc_percent - 20.0).abs() < 0.3);
    let line = correct(20.0, find("oak").unwrap(), 20.0, SpeciesTable::Line { a: 1.1, b: 0.5 }, false).unwrap();
    assert!((line.mc_percent - (at_temperature(20.0, 20.0) - 0.5) / 1.1).abs() < 1e-12);
    assert!(correct(20.0, find("oak").unwrap(), 20.0, SpeciesTable::Line { a: 0.0, b: 0.5 }, false).is_err());
}

#[test]
fn its_limits_are_said() {
    let oak = find("white oak").unwrap();
    let says = |reading, t, salt, word: &str| {
        let found = correct(reading, oak, t, SpeciesTable::None, salt).unwrap();
        assert!(found.cautions.iter().any(|c| c.contains(word)), "{word}: {:?}", found.cautions);
        found
    };
    says(35.0, 20.0, false, "low, middle or high");
    says(5.0, 20.0, false, "means nothing");
    says(15.0, -5.0, false, "Frozen");
    assert_eq!(says(40.0, 15.0, true, "upper bound").low_percent, 0.0);
    assert!(correct(0.18, oak, 20.0, SpeciesTable::None, false).unwrap_err().to_string().contains("fraction"));
    assert!(correct(180.0, oak, 20.0, SpeciesTable::None, false).is_err());
}

/// Wood Handbook (2021) Eqs 4-3 and 4-4 by hand for white oak, 0.60: 102 and 67 %; p. 5-43: below 20 % no decay.
#[test]
fn what_moisture_leaves_room_for() {
    assert!((fullest_percent(0.60) - 101.7).abs() < 0.1 && (sinks_at_percent(0.60) - 66.7).abs() < 0.1);
    assert_eq!(room_for_decay(19.0, None), DecayRoom::None);
    assert_eq!(room_for_decay(24.0, None), DecayRoom::MayGoOn);
    assert_eq!(room_for_decay(40.0, Some(102.0)), DecayRoom::CanStart);
    assert_eq!(room_for_decay(100.0, Some(102.0)), DecayRoom::TooWet);
}

proptest! {
    #[test]
    fn a_higher_reading_is_wetter_and_colder_wood_is_wetter_than_it_reads(r in 7.0..30.0f64, t in 0.0..40.0f64) {
        prop_assert!(at_temperature(r + 1.0, t) > at_temperature(r, t));
        prop_assert!(at_temperature(r, t) > at_temperature(r, t + 1.0));
    }
}
