//! The decay index of a climate.

use proptest::prelude::*;
use waters::decay_climate::{Water, Weather, Zone, index, monthly_parts, zone};

/// An invented climate, worked by hand: Σ (T − 2)(D − 3) = 739 over the months above 2 °C, index 44.3.
#[test]
fn an_invented_climate_by_hand() {
    let weather = Weather {
        temp_c: [-2.0, -1.0, 3.0, 9.0, 14.0, 19.0, 22.0, 21.0, 17.0, 11.0, 5.0, 0.0],
        rain_days: [12.0, 10.0, 11.0, 11.0, 12.0, 11.0, 10.0, 9.0, 9.0, 10.0, 11.0, 12.0],
    };
    assert!((index(&weather) - 44.3).abs() < 0.05, "{}", index(&weather));
    assert_eq!(monthly_parts(&weather)[0], 0.0);
    assert_eq!(zone(44.3), Zone::Moderate);
}

#[test]
fn zones() {
    assert_eq!([10.0, 35.0, 68.0, 90.0].map(|i| zone(i).words()), ["low", "moderate", "moderate to high", "high"]);
}

#[test]
fn a_bad_table_is_refused() {
    let rows: String = (1..=11).map(|m| format!("{m},10,10\n")).collect();
    let message = Weather::from_csv(&format!("month,temp_c,rain_days\n{rows}")).unwrap_err().to_string();
    assert!(message.contains("11 months, not 12"), "{message}");
    assert!(
        Weather::from_csv(&format!("month,temp_c,rain_days\n{rows}12,10,40\n"))
            .unwrap_err()
            .to_string()
            .contains("rain_days")
    );
    assert!(Weather::from_csv(&format!("month,temp_c,rain_days\n{rows}12,10,9\n")).is_ok());
}

#[test]
fn each_water_has_its_word() {
    for word in Water::WORDS {
        assert!(!Water::from_word(word).unwrap().sentences().is_empty());
    }
}

proptest! {
    #[test]
    fn warmer_and_wetter_is_never_less(t in -20.0..35.0f64, d in 0.0..29.0f64) {
        let at = |t: f64, d: f64| index(&Weather { temp_c: [t; 12], rain_days: [d; 12] });
        prop_assert!(at(t, d) >= 0.0 && at(t + 1.0, d) >= at(t, d) && at(t, d + 1.0) >= at(t, d));
    }
}
