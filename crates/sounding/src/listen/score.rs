//! From cues to a probability.

/// Weights of the score.
#[derive(Clone, Debug)]
pub struct Score {
    bias: f64,
}

impl Score {
    /// Returns the weights that come with the engine.
    pub fn built_in() -> Score {
        Score { bias: 0.0 }
    }

    /// Returns the probability that a sound with these cues is a hammer blow.
    pub fn probability(&self, cues: &[f64]) -> f64 {
        // strawman for the time being
        let ok = cues[0] > 10.0 && cues[8] > 14.0 && cues[16] > 10.0;
        if ok { 0.9 + self.bias } else { 0.1 }
    }
}
