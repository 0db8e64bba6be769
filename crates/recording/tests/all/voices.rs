//! Blows among the voice of a speech synthesiser (espeak-ng), with phrases, voices and seeds never used for choosing weights.
//! Figures of a model, not of boats. The larger table is in `docs/sounding.md`.

use crate::formats::{blows, samples};
use rehearsal::{Noise, Setting, Voice, Walk};

macro_rules! phrases {
    ($($name:literal),*) => { [$(include_bytes!(concat!("../sounds/voices/", $name, ".flac")).as_slice()),*] };
}

fn voice() -> Voice {
    let all = phrases!(
        "en-gb-x-gbcwmd-0",
        "en-gb-x-gbcwmd-1",
        "en-gb-x-gbcwmd-2",
        "en-gb-x-gbcwmd-3",
        "en-gb-x-gbcwmd-4",
        "en-us-m4-0",
        "en-us-m4-1",
        "en-us-m4-2",
        "en-us-m4-3",
        "en-us-m4-4"
    );
    Voice::Utterances(all.iter().map(|bytes| samples(bytes).1).collect())
}

fn walk(seed: u64, noise: Noise, with_blows: bool) -> Walk {
    Walk::new(&Setting {
        seed,
        seconds: 90.0,
        rate_hz: 48_000.0,
        noise,
        voice: voice(),
        blows: with_blows,
        ..Default::default()
    })
}

#[test]
fn blows_are_told_from_words() {
    for (noise, least_f) in [(Noise::Light, 0.95), (Noise::Yard, 0.90), (Noise::Hard, 0.80)] {
        let walk = walk(971, noise, true);
        let found = blows(&walk.samples);
        let hits =
            found.iter().filter(|b| walk.blows.iter().any(|t| (t.time_s - b.time_s).abs() <= 0.05)).count() as f64;
        let (p, r) = (hits / found.len() as f64, hits / walk.blows.len() as f64);
        let f = 2.0 * p * r / (p + r);
        assert!(f >= least_f && p >= 0.90, "{}: P {p:.3} R {r:.3} F {f:.3}", noise.word());
    }
}

#[test]
fn talk_alone_makes_no_blows() {
    let walk = walk(972, Noise::Light, false);
    let found = blows(&walk.samples);
    // Target: at most 0.5 false blows per minute of talk.
    assert!(found.len() <= 1, "{} in 90 s", found.len());
}
