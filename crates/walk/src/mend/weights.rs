//! The weights of the measures. Made by `cargo run -p walk --example tune_mending` on the tuned half of the trade's words.

use super::MEASURES;

/// Below this confidence nothing is proposed. Chosen on the tuned words.
pub const ACCEPT: f64 = 0.8;

const START: f64 = -3.762;

const WEIGHTS: [f64; MEASURES] = [
    -0.79, -13.212, 1.779, 0.317, 2.288, 0.43, -0.847, -0.867, -0.446, -1.206, -0.945, 2.321, -1.58, 4.413, -5.932,
    3.693, 2.59, -1.885, 3.689, 3.804, -0.612, 2.036, 1.516,
];

/// Returns the probability that a candidate is right, by logistic regression.
pub(super) fn confidence(measures: &[f64; MEASURES]) -> f64 {
    let sum = measures.iter().zip(WEIGHTS).map(|(measure, weight)| measure * weight).sum::<f64>() + START;
    1.0 / (1.0 + (-sum).exp())
}
