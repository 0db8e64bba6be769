//! Spectra, features and filters against numpy, scipy and librosa (`tests/reference/features.py`).

use sounding::{
    RATE_HZ,
    describe::{Cepstrum, Colour, LEAD, TAIL, crest_and_kurtosis, power_of_frame, time_centroid_ms},
    filter::Butterworth,
};
use std::f64::consts::TAU;

fn case(k: u64) -> Vec<f64> {
    let mut x = vec![0.0; LEAD + TAIL];
    for i in 0..3 {
        let (k, i) = (k as f64, f64::from(i));
        let (f, alpha, a) = (300.0 + 410.0 * k + 977.0 * i, 60.0 + 35.0 * k + 90.0 * i, 0.5 / (1.0 + i));
        for (n, y) in x[LEAD..].iter_mut().enumerate() {
            let t = n as f64 / f64::from(RATE_HZ);
            *y += a * (-alpha * t).exp() * (TAU * f * t).sin();
        }
    }
    let mut state = 12345 + k;
    for y in &mut x {
        state = (1_103_515_245 * state + 12345) % 2_147_483_648;
        *y += 0.002 * (state as f64 / 2_147_483_648.0 - 0.5);
    }
    x
}

#[test]
fn features_agree_to_a_millionth() {
    let mut checked = 0;
    for line in include_str!("../reference/features.csv").lines().filter(|l| l.starts_with(char::is_numeric)) {
        let cells: Vec<&str> = line.split(',').collect();
        let x = case(cells[0].parse().expect("a case"));
        let expected: f64 = cells[2].parse().expect("a value");
        let (power, bin_hz) = power_of_frame(&x);
        let colour = Colour::of(&power, bin_hz);
        let number = |prefix: &str| cells[1].strip_prefix(prefix).map(|n| n.parse::<usize>().expect("a number"));
        let banded = || {
            let (mut high, mut low) = (Butterworth::high_pass(350.0), Butterworth::low_pass(9000.0));
            x.iter().map(|v| low.pass(high.pass(*v))).collect::<Vec<f64>>()
        };
        let found = match cells[1] {
            "centroid_hz" => colour.centroid_hz,
            "bandwidth_hz" => colour.bandwidth_hz,
            "rolloff_hz" => colour.rolloff_hz,
            "flatness" => colour.flatness,
            "kurtosis" => crest_and_kurtosis(&x[LEAD..LEAD + 2400]).1,
            "crest_db" => crest_and_kurtosis(&x[LEAD..LEAD + 2400]).0,
            "time_centroid_ms" => time_centroid_ms(&x[LEAD..LEAD + 3840]),
            "band_energy" => banded().iter().map(|v| v * v).sum(),
            "band_sample" => banded()[LEAD + 100],
            name if name.starts_with("power_") => power[number("power_").expect("a bin")],
            _ => Cepstrum::new(bin_hz, power.len()).of(&power)[number("mfcc_").expect("a coefficient") - 1],
        };
        assert!((found - expected).abs() <= 1e-6 * expected.abs().max(1e-9), "{line}: found {found}");
        checked += 1;
    }
    assert_eq!(checked, 4 * 24);
}
