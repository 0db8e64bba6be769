//! Equilibrium moisture against the handbook's table, and its inverse.

use crate::{number, rows};
use proptest::prelude::*;
use timber::moisture::{equilibrium_percent, humidity_at_plank, humidity_for};

/// Wood Handbook FPL-GTR-190 (2010) Table 4-2; printed to 0.1, so 0.1 is the closest that can be asked.
#[test]
fn agrees_with_the_handbooks_table() {
    let mut read = 0;
    let mut all = 0;
    for row in rows(include_str!("../data/emc-table-4-2.csv")) {
        let (t, rh, printed) = (number(row[0]), number(row[1]), number(row[2]));
        let ours = equilibrium_percent(t, rh).unwrap();
        assert!((ours - printed).abs() < 0.1, "{t} °C, {rh} %: {ours:.3} against {printed}");
        all += 1;
        read += usize::from(row[3] == "read");
    }
    assert!(read >= 39 && all >= 70, "{read} read, {all} in all");
}

#[test]
fn refuses_what_cannot_be_meant_in_one_sentence() {
    for (t, rh, word) in [
        (20.0, 101.0, "100"),
        (20.0, -1.0, "0"),
        (20.0, 0.65, "fraction"),
        (400.0, 50.0, "range"),
        (20.0, f64::NAN, "number"),
    ] {
        let message = equilibrium_percent(t, rh).unwrap_err().to_string();
        assert!(message.contains(word) && message.contains("accepted is") && message.ends_with('.'), "{message}");
    }
    assert!(humidity_for(20.0, 0.12).unwrap_err().to_string().contains("write 12"));
    assert!(humidity_for(20.0, 1800.0).is_err());
}

#[test]
fn wood_wetter_than_saturated_air_makes_it_has_no_humidity() {
    assert_eq!(humidity_for(20.0, 35.0).unwrap(), None);
    assert!(humidity_for(20.0, 27.0).unwrap().is_some());
}

/// Magnus formula: saturated air at 20 °C holds 2.33 kPa, at 40 °C 7.38 kPa.
#[test]
fn a_plank_warmed_by_the_sun_feels_drier_air() {
    let felt = humidity_at_plank(20.0, 70.0, 40.0);
    assert!((felt - 70.0 * 2.333 / 7.375).abs() < 0.15, "{felt}");
}

proptest! {
    #[test]
    fn the_inverse_gives_back_the_humidity(t in -5.0..50.0f64, rh in 1.0..99.0f64) {
        let emc = equilibrium_percent(t, rh).unwrap();
        prop_assume!(emc >= 1.0);
        let back = humidity_for(t, emc).unwrap().unwrap();
        prop_assert!((back - rh).abs() < 1e-6, "{} {}", back, rh);
    }

    #[test]
    fn damper_air_means_wetter_wood(t in -20.0..60.0f64, rh in 1.0..98.0f64) {
        prop_assert!(equilibrium_percent(t, rh + 1.0).unwrap() > equilibrium_percent(t, rh).unwrap());
    }
}
