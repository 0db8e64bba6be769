//! Power spectra of one length, planned once.

#[cfg(any(target_arch = "wasm32", test))]
mod by_fours;
#[cfg(not(target_arch = "wasm32"))]
mod by_processor;

#[cfg(target_arch = "wasm32")]
use by_fours::Plan;
#[cfg(not(target_arch = "wasm32"))]
use by_processor::Plan;

/// A planned transform of one length with its buffers.
#[derive(Clone)]
pub struct Transform {
    plan: Plan,
    input: Vec<f64>,
}

impl std::fmt::Debug for Transform {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Transform({})", self.input.len())
    }
}

impl Transform {
    /// Plans a transform of `length` samples, a power of two from 4.
    pub fn new(length: usize) -> Transform {
        let length = length.max(4).next_power_of_two();
        Transform { plan: Plan::new(length), input: vec![0.0; length] }
    }

    /// Returns the power |X_k|² of samples times a window, padded with zeros to the length; samples beyond it are left out.
    pub fn power(&mut self, samples: &[f64], window: &[f64]) -> Vec<f64> {
        self.input.fill(0.0);
        for (slot, (x, w)) in self.input.iter_mut().zip(samples.iter().zip(window)) {
            *slot = x * w;
        }
        self.plan.power(&mut self.input)
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Two writings of one transform, as the phone and the desk use them.
    #[test]
    fn both_ways_of_transforming_give_one_spectrum() {
        for length in [4, 8, 1024, 4096] {
            let x: Vec<f64> = (0..length)
                .map(|i| libm::sin(0.37 * f64::from(i)) + 0.2 * libm::cos(1.9 * f64::from(i * i % 97)))
                .collect();
            let fours = by_fours::Plan::new(x.len()).power(&mut x.clone());
            let processor = Plan::new(x.len()).power(&mut x.clone());
            assert_eq!(fours.len(), x.len() / 2 + 1);
            let most = processor.iter().copied().fold(0.0, f64::max);
            for (a, b) in fours.iter().zip(&processor) {
                assert!((a - b).abs() < 1e-12 * most, "{length}: {a} and {b}");
            }
        }
    }
}
