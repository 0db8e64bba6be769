//! From cues to a probability: a small network whose weights were chosen on invented walks (`examples/fit_blow.py`).

use crate::table;

/// Weights of the score.
#[derive(Clone, Debug, Default)]
pub struct Score {
    mean: Vec<f64>,
    scale: Vec<f64>,
    hidden: Vec<Vec<f64>>,
    out: Vec<f64>,
}

impl Score {
    /// Returns the weights that come with the engine.
    pub fn built_in() -> Score {
        let mut score = Score::default();
        for (word, numbers) in table::rows(include_str!("../../data/blow_weights.csv")) {
            match word {
                "mean" => score.mean = numbers,
                "scale" => score.scale = numbers,
                "hidden" => score.hidden.push(numbers),
                "out" => score.out = numbers,
                _ => {}
            }
        }
        score
    }

    /// Returns the probability that a sound with these cues is a hammer blow.
    pub fn probability(&self, cues: &[f64]) -> f64 {
        let standard: Vec<f64> = cues
            .iter()
            .zip(self.mean.iter().zip(&self.scale))
            .map(|(c, (mean, scale))| ((c - mean) / scale).clamp(-4.0, 4.0))
            .collect();
        let weighed = |weights: &[f64]| -> f64 {
            weights[0] + weights[1..].iter().zip(&standard).map(|(w, z)| w * z).sum::<f64>()
        };
        let hidden = self.hidden.iter().map(|w| weighed(w).max(0.0));
        let sum = self.out[0] + self.out[1..].iter().zip(hidden).map(|(w, h)| w * h).sum::<f64>();
        1.0 / (1.0 + libm::exp(-sum))
    }
}
