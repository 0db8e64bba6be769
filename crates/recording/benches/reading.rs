//! How fast recordings are read and listened to. Run: `cargo bench -p recording --profile dev`.

use recording::{Channel, read_bytes};
use rehearsal::{Noise, Setting, Walk};
use sounding::Listener;
use std::time::Instant;

fn main() {
    let walk =
        Walk::new(&Setting { seed: 7, seconds: 120.0, rate_hz: 44_100.0, noise: Noise::Yard, ..Default::default() });
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: 44_100,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut bytes = std::io::Cursor::new(Vec::new());
    let mut writer = hound::WavWriter::new(&mut bytes, spec).expect("a writer");
    for s in &walk.samples {
        writer.write_sample((s * 32767.0) as i16).expect("a sample");
    }
    writer.finalize().expect("an end");
    let wav = bytes.into_inner();
    report("WAV, 44.1 kHz, read, resampled and listened to", 120.0, 5, &mut || wav.clone());
    let m4a = include_bytes!("../tests/sounds/impacts.m4a");
    report("M4A of 3 s, read, resampled and listened to", 3.0, 41, &mut || m4a.to_vec());
}

fn report(words: &str, seconds: f64, times: usize, bytes: &mut dyn FnMut() -> Vec<u8>) {
    let mut took: Vec<f64> = (0..times)
        .map(|_| {
            let bytes = bytes();
            let start = Instant::now();
            let mut listener = Listener::new();
            let mut found = 0;
            read_bytes(bytes, Channel::Mix, &mut |s| found += listener.push(s).len()).expect("a recording");
            start.elapsed().as_secs_f64()
        })
        .collect();
    took.sort_by(f64::total_cmp);
    println!("{words}: median {:.0} x real time", seconds / took[times / 2]);
}
