//! Mel-frequency cepstral coefficients.

use std::f64::consts::PI;

/// Mel bands between 150 and 8000 Hz.
const BANDS: usize = 26;
/// Coefficients kept: the first to the twelfth. The zeroth, the level, is dropped.
pub const KEPT: usize = 12;

fn mel(hz: f64) -> f64 {
    2595.0 * libm::log10(1.0 + hz / 700.0)
}

fn hz(mel: f64) -> f64 {
    700.0 * (libm::pow(10.0, mel / 2595.0) - 1.0)
}

/// Triangular bands over the bins of one spectrum length, and the cosine transform.
#[derive(Clone, Debug)]
pub struct Cepstrum {
    bands: Vec<(usize, Vec<f64>)>,
}

impl Cepstrum {
    /// Prepares 26 triangles of unit height, evenly spaced in mel (2595 log₁₀(1 + f/700)), over bins `bin_hz` apart.
    pub fn new(bin_hz: f64, bins: usize) -> Cepstrum {
        let (low, high) = (mel(150.0), mel(8000.0));
        let edge = |i: usize| hz(low + (high - low) * i as f64 / (BANDS + 1) as f64);
        let band = |b: usize| {
            let (left, middle, right) = (edge(b), edge(b + 1), edge(b + 2));
            let first = libm::ceil(left / bin_hz) as usize;
            let last = (libm::floor(right / bin_hz) as usize).min(bins.saturating_sub(1));
            let weight = |i: usize| {
                let f = i as f64 * bin_hz;
                ((f - left) / (middle - left)).min((right - f) / (right - middle)).max(0.0)
            };
            (first, (first..=last).map(weight).collect())
        };
        Cepstrum { bands: (0..BANDS).map(band).collect() }
    }

    /// Returns coefficients 1 to 12 of the orthonormal cosine transform (type II) of the logarithm of the bands' power.
    pub fn of(&self, power: &[f64]) -> [f64; KEPT] {
        let sums: Vec<f64> = self
            .bands
            .iter()
            .map(|(first, weights)| weights.iter().zip(&power[(*first).min(power.len())..]).map(|(w, p)| w * p).sum())
            .collect();
        let least = 1e-8 * sums.iter().fold(1e-280_f64, |m, s| m.max(*s));
        let logs: Vec<f64> = sums.iter().map(|s| libm::log(s.max(least))).collect();
        let n = BANDS as f64;
        std::array::from_fn(|k| {
            let turn = |i: usize| libm::cos(PI * (k + 1) as f64 * (2.0 * i as f64 + 1.0) / (2.0 * n));
            libm::sqrt(2.0 / n) * logs.iter().enumerate().map(|(i, l)| l * turn(i)).sum::<f64>()
        })
    }
}
