//! Power spectra of one length, planned once.

use realfft::{RealFftPlanner, RealToComplex, num_complex::Complex};
use std::sync::Arc;

/// A planned transform of one length with its buffers.
#[derive(Clone)]
pub struct Transform {
    plan: Arc<dyn RealToComplex<f64>>,
    input: Vec<f64>,
    output: Vec<Complex<f64>>,
    scratch: Vec<Complex<f64>>,
}

impl std::fmt::Debug for Transform {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Transform({})", self.input.len())
    }
}

impl Transform {
    /// Plans a transform of `length` samples.
    pub fn new(length: usize) -> Transform {
        let plan = RealFftPlanner::<f64>::new().plan_fft_forward(length.max(2));
        Transform {
            input: plan.make_input_vec(),
            output: plan.make_output_vec(),
            scratch: plan.make_scratch_vec(),
            plan,
        }
    }

    /// Returns the power |X_k|² of samples times a window, padded with zeros to the length; samples beyond it are left out.
    pub fn power(&mut self, samples: &[f64], window: &[f64]) -> Vec<f64> {
        self.input.fill(0.0);
        for (slot, (x, w)) in self.input.iter_mut().zip(samples.iter().zip(window)) {
            *slot = x * w;
        }
        // The buffers are those the plan made, so the transform cannot refuse them.
        let _ = self.plan.process_with_scratch(&mut self.input, &mut self.output, &mut self.scratch);
        self.output.iter().map(Complex::norm_sqr).collect()
    }
}

/// Returns the part of a Hann window that falls from 1 to 0 over `length` samples.
pub fn fading(length: usize) -> Vec<f64> {
    (0..length).map(|i| 0.5 + 0.5 * libm::cos(std::f64::consts::PI * i as f64 / length as f64)).collect()
}

/// Returns a periodic Hann window.
pub fn hann(length: usize) -> Vec<f64> {
    (0..length).map(|i| 0.5 - 0.5 * libm::cos(std::f64::consts::TAU * i as f64 / length as f64)).collect()
}
