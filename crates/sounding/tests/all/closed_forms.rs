//! Features of sounds whose features are known in closed form.

use sounding::{
    RATE_HZ,
    describe::{Colour, LEAD, TAIL, decay_ms, quality, time_centroid_ms},
};
use std::f64::consts::{PI, TAU};

fn damped(hz: f64, alpha: f64, count: usize) -> Vec<f64> {
    let t = |i: usize| i as f64 / f64::from(RATE_HZ);
    (0..count).map(|i| (-alpha * t(i)).exp() * (TAU * hz * t(i)).sin()).collect()
}

#[test]
fn two_tones_have_the_centre_of_their_power() {
    // Amplitude 1 at 2 kHz and 0.5 at 4 kHz: power 1 and 0.25, centre (2000 + 1000)/1.25 = 2400 Hz, spread 800 Hz.
    let mut power = vec![0.0; 6000];
    (power[1000], power[2000]) = (1.0, 0.25);
    let colour = Colour::of(&power, 2.0);
    assert!((colour.centroid_hz - 2400.0).abs() < 1e-9);
    assert!((colour.bandwidth_hz - 800.0).abs() < 1e-9);
    assert!((colour.rolloff_hz - 4000.0).abs() < 1e-9);
}

#[test]
fn even_power_is_flat() {
    let colour = Colour::of(&vec![3.0; 6000], 2.0);
    assert!((colour.flatness - 1.0).abs() < 1e-9);
}

#[test]
fn the_time_centre_of_a_decay_is_half_its_time_constant() {
    // Σ t e^(-2αt)/Σ e^(-2αt) = 1/(2α) in the limit of fine sampling; less half a sample.
    let alpha: f64 = 157.08;
    let x: Vec<f64> = (0..48_000).map(|i| (-alpha * f64::from(i) / 48_000.0).exp()).collect();
    assert!((time_centroid_ms(&x) - 1000.0 / (2.0 * alpha)).abs() < 0.02);
}

#[test]
fn a_decay_falls_by_60_db_in_ln_1000_over_alpha() {
    for alpha in [40.0, 80.0, 157.08, 300.0] {
        let power: Vec<f64> = (0..12_000).map(|i| (-2.0 * alpha * f64::from(i) / 48_000.0).exp()).collect();
        let t60 = decay_ms(&power, 0.0).expect("a decay");
        let exact = 1000.0 * 1000_f64.ln() / alpha;
        // The end of the 250 ms cuts the backward integral of the longest a little.
        assert!((t60 / exact - 1.0).abs() < 0.01, "{alpha}: {t60} against {exact}");
    }
}

#[test]
fn a_note_has_the_quality_it_was_made_with() {
    for (hz, q) in [(800.0, 15.0), (1000.0, 20.0), (1500.0, 30.0)] {
        let x = damped(hz, PI * hz / q, TAIL);
        let found = quality(&vec![0.0; LEAD], &x, hz).expect("a quality");
        assert!((found / q - 1.0).abs() < 0.03, "{hz} Hz Q {q}: found {found}");
    }
}

#[test]
fn a_heavily_damped_note_is_told_from_a_ringing_one() {
    let found = |q: f64| quality(&vec![0.0; LEAD], &damped(700.0, PI * 700.0 / q, TAIL), 700.0);
    let (dead, ringing) = (found(4.0).expect("a quality"), found(25.0).expect("a quality"));
    // The band of ±15 % rings itself, with a quality near 9: a lower one reads as about that.
    assert!(dead < 10.0 && ringing > 22.0, "{dead} {ringing}");
}
