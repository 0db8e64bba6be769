//! How long the larger reckonings of this room take. Run: `cargo bench -p fastening --profile dev`.

use fastening::draw::posterior::Prior;
use fastening::draw::result::{Choice, Draw, result};
use fastening::draw::sample::size;
use fastening::plank::beam::{constant_curve, forced};
use std::hint::black_box;
use std::time::Instant;

fn main() {
    time("exact sample size, population 20,000, none bad", 200, || size(black_box(20_000), 0.95, 0.05, 0).is_ok());
    time("exact sample size, population 20,000, 50 bad allowed", 200, || {
        size(black_box(20_000), 0.95, 0.05, 50).is_ok()
    });
    let draw = Draw { population: 20_000, drawn: 200, bad: 9, choice: Choice::Random };
    time("draw result, population 20,000", 50, || result(black_box(&draw), 0.95, Prior::UNIFORM).is_ok());
    let positions: Vec<f64> = (0..200).map(|i| f64::from(i) * 200.0).collect();
    let offsets = constant_curve(&positions, 1.0 / 3000.0);
    time("sprung plank, 200 frames", 1000, || forced(black_box(1e9), &positions, &offsets).is_ok());
}

fn time(what: &str, times: u32, mut work: impl FnMut() -> bool) {
    let start = Instant::now();
    for _ in 0..times {
        assert!(work(), "{what}");
    }
    println!("{what}: {:.3} ms", start.elapsed().as_secs_f64() * 1000.0 / f64::from(times));
}
