//! Writes every sudden sound of invented walks with its cues and the truth, for choosing the weights of the score.
//!
//! Run: `cargo run -p sounding --profile dev --example candidates -- SEED_FROM SEED_TO SECONDS [FOLDER_OF_VOICES] > cues.csv`
//! The folder holds one folder of 48 kHz WAV phrases for each voice (`crates/rehearsal/voices/make.py`). Without it the walks
//! are spoken in speech-like noise.

use rehearsal::{Noise, Setting, Voice, Walk};
use sounding::{Listener, listen::CUE_NAMES};
use std::path::Path;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |i: usize| words.get(i).and_then(|w| w.parse::<u64>().ok()).expect("SEED_FROM SEED_TO SECONDS");
    let (from, to, seconds) = (number(0), number(1), number(2));
    let voices =
        words.get(3).map_or_else(|| vec![("speech-like".to_owned(), Voice::SpeechLike)], |f| voices(Path::new(f)));
    println!("seed,noise,voice,walk_blows,time_s,truth,nearest_s,kind,{}", CUE_NAMES.join(","));
    for seed in from..to {
        for noise in Noise::ALL {
            let (name, voice) = &voices[(seed as usize + 3 * noise as usize) % voices.len()];
            // Some walks are talk and yard only.
            let blows = seed % 4 != 3;
            let setting = Setting {
                seed,
                seconds: seconds as f64,
                rate_hz: 48_000.0,
                noise,
                voice: voice.clone(),
                blows,
                level_control: seed % 10 == 5,
            };
            let walk = Walk::new(&setting);
            let mut listener = Listener::new();
            let mut all = listener.push_for_candidates(&walk.samples);
            all.extend(listener.push_for_candidates(&vec![0.0; 9600]));
            for c in all {
                let time = c.onset as f64 / 48_000.0;
                let nearest =
                    walk.blows.iter().min_by(|a, b| (a.time_s - time).abs().total_cmp(&(b.time_s - time).abs()));
                let gap = nearest.map_or(99.0, |b| time - b.time_s);
                let kind = nearest.map_or("none".to_owned(), |b| format!("{:?}", b.mechanism));
                let cues: Vec<String> = c.cues.iter().map(|v| format!("{v:.5}")).collect();
                println!(
                    "{seed},{},{name},{},{time:.5},{},{gap:.5},{kind},{}",
                    noise.word(),
                    walk.blows.len(),
                    u8::from(gap.abs() < 0.03),
                    cues.join(",")
                );
            }
        }
    }
}

fn voices(folder: &Path) -> Vec<(String, Voice)> {
    let mut all = Vec::new();
    for voice in std::fs::read_dir(folder).expect("a folder of voices") {
        let voice = voice.expect("a folder").path();
        let mut files: Vec<_> =
            std::fs::read_dir(&voice).expect("a folder").map(|f| f.expect("a file").path()).collect();
        files.sort();
        let read = |path: &std::path::PathBuf| {
            let mut wav = hound::WavReader::open(path).expect("a WAV file");
            wav.samples::<i16>().map(|s| f32::from(s.expect("a sample")) / 32768.0).collect::<Vec<f32>>()
        };
        let name = voice.file_name().expect("a name").to_string_lossy().into_owned();
        all.push((name, Voice::Utterances(files.iter().map(read).collect())));
    }
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}
