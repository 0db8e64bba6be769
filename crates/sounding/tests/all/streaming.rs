//! The same blows however the samples are cut; bad sound says so and never panics.

use proptest::prelude::*;
use rehearsal::{Noise, Setting, Voice, Walk};
use sounding::{Blow, Listener, session};
use std::sync::LazyLock;

static WALK: LazyLock<Walk> = LazyLock::new(|| {
    Walk::new(&Setting { seed: 42, seconds: 26.0, rate_hz: 48_000.0, noise: Noise::Yard, ..Default::default() })
});

fn whole(samples: &[f32]) -> Vec<Blow> {
    let mut listener = Listener::new();
    let mut blows = listener.push(samples);
    blows.extend(listener.finish());
    blows
}

fn cautions(samples: &[f32]) -> String {
    let mut listener = Listener::new();
    let mut blows = listener.push(samples);
    blows.extend(listener.finish());
    session::cautions(&listener.heard(), &blows).join(" ")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn blocks_of_any_size_give_the_same_blows(sizes in prop::collection::vec(1_usize..5000, 1..20)) {
        let mut listener = Listener::new();
        let (mut at, mut blows) = (0, Vec::new());
        for size in sizes.iter().cycle() {
            if at >= WALK.samples.len() {
                break;
            }
            let end = (at + size).min(WALK.samples.len());
            blows.extend(listener.push(&WALK.samples[at..end]));
            at = end;
        }
        blows.extend(listener.finish());
        prop_assert!(blows.len() > 2);
        prop_assert_eq!(blows, whole(&WALK.samples));
    }

    #[test]
    fn no_samples_make_it_panic(blocks in prop::collection::vec(prop::collection::vec(any::<f32>(), 0..3000), 0..12)) {
        let mut listener = Listener::new();
        for block in &blocks {
            for blow in listener.push(block) {
                prop_assert!(blow.time_s >= 0.0 && blow.probability.is_finite());
            }
        }
        let blows = listener.finish();
        let _ = session::cautions(&listener.heard(), &blows);
    }
}

#[test]
fn a_blow_is_known_150_ms_after_it_fell() {
    let mut listener = Listener::new();
    let mut taken = 0_usize;
    let mut slowest = 0.0_f64;
    for block in WALK.samples.chunks(128) {
        taken += block.len();
        for blow in listener.push(block) {
            slowest = slowest.max(taken as f64 / 48_000.0 - blow.time_s);
        }
    }
    assert!(slowest > 0.0 && slowest <= 0.150, "{slowest}");
}

#[test]
fn silence_is_called_silence() {
    assert!(whole(&[0.0; 480_000]).is_empty());
    assert!(cautions(&[0.0; 480_000]).contains("silent"));
}

#[test]
fn a_song_has_no_blows() {
    // Four notes with harmonics and vibrato, rising and falling softly: our own invention.
    let notes = [220.0, 277.2, 329.6, 440.0];
    let song: Vec<f32> = (0..48_000 * 16)
        .map(|i| {
            let t = f64::from(i) / 48_000.0;
            let (note, inside) = (notes[(t * 2.0) as usize % 4], (t * 2.0).fract());
            let swell = (std::f64::consts::PI * inside).sin();
            let phase = std::f64::consts::TAU * note * t + 0.8 * (35.0 * t).sin();
            (0.2 * swell * (1..8).map(|k| (f64::from(k) * phase).sin() / f64::from(k)).sum::<f64>()) as f32
        })
        .collect();
    let blows = whole(&song);
    assert!(blows.is_empty(), "{} blows", blows.len());
    assert!(cautions(&song).contains("No hammer blow"));
}

#[test]
fn three_seconds_are_few() {
    assert!(cautions(&WALK.samples[..144_000]).contains("3.0 s long"));
}

#[test]
fn clipped_sound_is_told() {
    let loud: Vec<f32> = WALK.samples.iter().map(|x| (x * 6.0).clamp(-1.0, 1.0)).collect();
    assert!(cautions(&loud).contains("limit"));
}

#[test]
fn samples_that_are_no_numbers_are_told_and_do_no_harm() {
    let mut broken = WALK.samples.clone();
    broken[1000] = f32::NAN;
    broken[1001] = f32::INFINITY;
    assert!(cautions(&broken).contains("2 samples were not numbers"));
    assert_eq!(whole(&broken).len(), whole(&WALK.samples).len());
}

#[test]
fn loudness_does_not_move_the_shape() {
    let soft: Vec<f32> = WALK.samples.iter().map(|x| x * 0.1).collect();
    let (a, b) = (whole(&WALK.samples), whole(&soft));
    assert!(a.len() > 2 && a.len() == b.len());
    for (a, b) in a.iter().zip(&b) {
        assert!((a.description.level_db - b.description.level_db - 20.0).abs() < 0.01);
        assert!((a.description.centroid_hz / b.description.centroid_hz - 1.0).abs() < 0.005);
        assert!((a.description.time_centroid_ms / b.description.time_centroid_ms - 1.0).abs() < 0.005);
    }
}

#[test]
fn a_silent_talker_does_not_disturb() {
    let setting = Setting { seed: 5, seconds: 8.0, rate_hz: 48_000.0, voice: Voice::Silent, ..Default::default() };
    let walk = Walk::new(&setting);
    assert!(walk.talk.is_empty() && !whole(&walk.samples).is_empty());
}
