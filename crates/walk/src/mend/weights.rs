//! The weights of the measures. Made by `cargo run -p walk --example tune_mending` on the tuned half of the trade's words.

use super::MEASURES;

/// Below this confidence nothing is proposed. Chosen on the tuned words.
pub const ACCEPT: f64 = 0.8;

const START: f64 = -3.585;

const WEIGHTS: [f64; MEASURES] = [
    -0.803, -12.632, 1.457, 0.54, 2.686, 0.366, -0.891, -0.886, -0.394, -1.143, -0.947, 2.904, -2.018, 4.02, -5.073,
    2.165, 1.848, -2.075, 3.792, 3.949, -0.772, 1.918, 1.521,
];

/// Returns the probability that a candidate is right, by logistic regression.
pub(super) fn confidence(measures: &[f64; MEASURES]) -> f64 {
    let sum = measures.iter().zip(WEIGHTS).map(|(measure, weight)| measure * weight).sum::<f64>() + START;
    1.0 / (1.0 + (-sum).exp())
}
