//! One transform for lengths that are powers of two: what a phone carries.

use rustfft::algorithm::Radix4;
use rustfft::num_complex::Complex;
use rustfft::{Fft, FftDirection};
use std::sync::Arc;

/// A planned transform.
#[derive(Clone)]
pub(super) struct Plan {
    half: Arc<Radix4<f64>>,
    turns: Vec<Complex<f64>>,
    buffer: Vec<Complex<f64>>,
    scratch: Vec<Complex<f64>>,
}

impl Plan {
    /// Plans for an even length whose half is a power of two.
    pub(super) fn new(length: usize) -> Plan {
        let m = length / 2;
        let half = Radix4::new(m, FftDirection::Forward);
        let turn = |k: usize| {
            let angle = -std::f64::consts::TAU * k as f64 / length as f64;
            Complex::new(libm::cos(angle), libm::sin(angle))
        };
        Plan {
            scratch: vec![Complex::default(); half.get_inplace_scratch_len()],
            turns: (0..=m).map(turn).collect(),
            buffer: vec![Complex::default(); m],
            half: Arc::new(half),
        }
    }

    /// Returns |X_k|² for k = 0 … n/2: even and odd samples go through one complex transform of half the length, z, and
    /// X_k = (Z_k + Z*_{m−k})/2 − i e^{−2πik/n} (Z_k − Z*_{m−k})/2.
    pub(super) fn power(&mut self, input: &mut [f64]) -> Vec<f64> {
        for (slot, pair) in self.buffer.iter_mut().zip(input.chunks_exact(2)) {
            *slot = Complex::new(pair[0], pair[1]);
        }
        self.half.process_with_scratch(&mut self.buffer, &mut self.scratch);
        let m = self.buffer.len();
        let at = |k: usize| {
            let (here, there) = (self.buffer[k % m], self.buffer[(m - k) % m].conj());
            let odd = self.turns[k] * (here - there) * Complex::new(0.0, -0.5);
            ((here + there) * 0.5 + odd).norm_sqr()
        };
        (0..=m).map(at).collect()
    }
}
