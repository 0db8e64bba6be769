//! Writes the features of every blow found in invented walks, with the truth, for choosing the weights of the judgement.
//!
//! Run: `cargo run -p sounding --profile dev --example descriptions -- SEED_FROM SEED_TO SECONDS > blows.csv`

use rehearsal::{Noise, Setting, Walk};
use sounding::{Listener, judge};

fn main() {
    let words: Vec<u64> = std::env::args().skip(1).filter_map(|w| w.parse().ok()).collect();
    let [from, to, seconds] = words[..] else { panic!("SEED_FROM SEED_TO SECONDS") };
    let names: Vec<&str> = judge::NAMES.iter().map(|n| n.0).collect();
    println!("seed,noise,place,member,backbone,mechanism,reference,clean,probability,snr_db,{}", names.join(","));
    for seed in from..to {
        let noise = Noise::ALL[seed as usize % 3];
        let setting = Setting { seed, seconds: seconds as f64, rate_hz: 48_000.0, noise, ..Default::default() };
        let walk = Walk::new(&setting);
        let mut listener = Listener::new();
        let mut found = listener.push(&walk.samples);
        found.extend(listener.finish());
        for truth in &walk.blows {
            let Some(blow) = found.iter().find(|b| (b.time_s - truth.time_s).abs() < 0.03) else { continue };
            let values: Vec<String> = judge::features(&blow.description)
                .iter()
                .map(|v| v.map_or(String::new(), |v| format!("{v:.5}")))
                .collect();
            println!(
                "{seed},{},{},{},{},{:?},{},{},{:.3},{:.2},{}",
                noise.word(),
                truth.place,
                truth.member,
                u8::from(truth.backbone),
                truth.mechanism,
                u8::from(truth.reference),
                u8::from(blow.is_clean()),
                blow.probability,
                blow.description.snr_db,
                values.join(",")
            );
        }
    }
}
