//! Blows found in invented walks of speech-like noise: figures of a model, not of boats. Matching within ±50 ms, one to one, as
//! `mir_eval.onset.f_measure` counts. A synthesiser's voice is tested in the room `recording`.

use rehearsal::{Noise, Setting, Walk};
use sounding::Listener;

/// Returns precision, recall and F over walks of seeds never used for choosing weights.
fn score(noise: Noise) -> (f64, f64, f64) {
    let (mut hits, mut found, mut truths) = (0.0, 0.0, 0.0);
    for seed in [951, 952] {
        let walk = Walk::new(&Setting { seed, seconds: 60.0, rate_hz: 48_000.0, noise, ..Default::default() });
        let mut listener = Listener::new();
        let mut blows = listener.push(&walk.samples);
        blows.extend(listener.finish());
        // Blows lie more than 100 ms apart, so nearest is one to one.
        hits += blows.iter().filter(|b| walk.blows.iter().any(|t| (t.time_s - b.time_s).abs() <= 0.05)).count() as f64;
        found += blows.len() as f64;
        truths += walk.blows.len() as f64;
    }
    let (p, r) = (hits / found, hits / truths);
    (p, r, 2.0 * p * r / (p + r))
}

#[test]
fn blows_are_found_among_talk_in_a_quiet_shed() {
    let (p, r, f) = score(Noise::Light);
    assert!(f >= 0.95 && p >= 0.95, "P {p:.3} R {r:.3} F {f:.3}");
}

#[test]
fn blows_are_found_in_a_working_yard() {
    let (p, r, f) = score(Noise::Yard);
    assert!(f >= 0.92 && p >= 0.95, "P {p:.3} R {r:.3} F {f:.3}");
}

#[test]
fn blows_are_found_on_a_hard_day() {
    let (p, r, f) = score(Noise::Hard);
    assert!(f >= 0.80 && p >= 0.90, "P {p:.3} R {r:.3} F {f:.3}");
}
