//! How fast the engine listens, and how much memory it takes over two hours.
//! Run: `cargo bench -p sounding --profile dev`. With a path (`-- FILE.wav`) the walk is also written there, for
//! `benches/librosa_side.py` to listen to the same sound.

use rehearsal::{Noise, Setting, Walk};
use sounding::Listener;
use std::time::Instant;

fn main() {
    let seconds = 180.0;
    let walk = Walk::new(&Setting { seed: 7, seconds, rate_hz: 48_000.0, noise: Noise::Yard, ..Default::default() });
    if let Some(path) = std::env::args().skip(1).find(|a| a.ends_with(".wav")) {
        write(&path, &walk.samples);
    }
    let mut times = Vec::new();
    let mut found = 0;
    for _ in 0..7 {
        let start = Instant::now();
        let mut listener = Listener::new();
        found = walk.samples.chunks(4096).map(|block| listener.push(block).len()).sum();
        times.push(start.elapsed().as_secs_f64());
    }
    times.sort_by(f64::total_cmp);
    println!(
        "listening, 48 kHz, one core: median {:.0} x real time, best {:.0} x ({found} blows in {seconds:.0} s)",
        seconds / times[3],
        seconds / times[0]
    );
    let mut listener = Listener::new();
    for block in walk.samples.chunks(128) {
        listener.push(block);
    }
    let before = resident_kb();
    for _ in 0..40 {
        for block in walk.samples.chunks(128) {
            listener.push(block);
        }
    }
    println!(
        "memory: {} kB more after 2 hours in blocks of 128 than after 3 minutes",
        resident_kb().saturating_sub(before)
    );
}

/// Memory of this process, in kilobytes; 0 where the system does not tell.
fn resident_kb() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|l| l.starts_with("VmRSS"));
    line.and_then(|l| l.split_whitespace().nth(1)).and_then(|n| n.parse().ok()).unwrap_or(0)
}

fn write(path: &str, samples: &[f32]) {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: 48_000,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut writer = hound::WavWriter::create(path, spec).expect("a file to write");
    for s in samples {
        writer.write_sample((s * 32767.0) as i16).expect("a sample");
    }
    writer.finalize().expect("an end");
}
