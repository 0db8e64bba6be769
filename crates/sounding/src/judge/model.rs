//! What is known beforehand of how blows on solid, dull and dead places differ: chosen on invented walks
//! (`examples/fit_judgement.py`), so of a model of boats and not of boats.

use super::features::{COUNT, Features};
use crate::{cholesky::Root, table};

/// What may be wrong with a place, as the model tells them apart.
pub(crate) const MECHANISMS: [&str; 5] = ["solid", "loose", "checked", "void", "decay"];

/// Means, covariance and calibration.
#[derive(Clone, Debug)]
pub(crate) struct Model {
    /// Scale of each feature.
    pub scale: Vec<f64>,
    /// Variance of each feature between members of one boat, in scales.
    pub between: Vec<f64>,
    means: Vec<Vec<f64>>,
    covariance: Vec<Vec<f64>>,
    priors: Vec<f64>,
    temper: f64,
    pub(crate) shared: f64,
    /// Blows by which the centre of a kind is drawn towards that of the boat.
    pub shrink: f64,
}

impl Model {
    /// Returns the model that comes with the room.
    pub(crate) fn built_in() -> Model {
        let mut model = Model {
            scale: vec![1.0; COUNT],
            between: vec![0.0; COUNT],
            means: vec![vec![0.0; COUNT]; 5],
            covariance: Vec::new(),
            priors: vec![0.2; 5],
            temper: 1.0,
            shared: 0.5,
            shrink: 3.0,
        };
        for (word, numbers) in table::rows(include_str!("../../data/judgement_weights.csv")) {
            match word {
                "scale" => model.scale = numbers,
                "between" => model.between = numbers,
                "covariance" => model.covariance.push(numbers),
                "priors" => model.priors = numbers,
                "temper" => model.temper = numbers[0],
                "shared" => model.shared = numbers[0],
                "shrink" => model.shrink = numbers[0],
                word => {
                    if let Some(k) = MECHANISMS.iter().position(|m| *m == word) {
                        model.means[k] = numbers;
                    }
                }
            }
        }
        model
    }

    /// Returns the differences of a blow's features from a centre, in scales.
    pub(crate) fn differences(&self, features: &Features, centre: &Features) -> Features {
        std::array::from_fn(|i| Some((features[i]? - centre[i]?) / self.scale[i]))
    }

    /// Returns the logarithm of the likelihood of differences under each mechanism, and the distance from the solid mean in
    /// deviations a feature. Features not measured take no part. `widen` is the share of the variance between members that
    /// the centre leaves open.
    pub(crate) fn likelihoods(&self, differences: &Features, widen: f64) -> ([f64; 5], f64) {
        let known: Vec<usize> = (0..COUNT).filter(|i| differences[*i].is_some()).collect();
        let matrix: Vec<Vec<f64>> = known
            .iter()
            .map(|i| {
                let open = |j: usize| if *i == j { widen * self.between[j] } else { 0.0 };
                known.iter().map(|j| self.covariance[*i][*j] + open(*j)).collect()
            })
            .collect();
        let Some(root) = Root::of(&matrix) else { return ([0.0; 5], 0.0) };
        let mut distance = 0.0;
        let logs = std::array::from_fn(|k| {
            let away: Vec<f64> = known.iter().map(|i| differences[*i].unwrap_or(0.0) - self.means[k][*i]).collect();
            let square: f64 = root.half_solve(&away).iter().map(|v| v * v).sum();
            if k == 0 {
                distance = libm::sqrt(square / known.len().max(1) as f64);
            }
            -0.5 * self.temper * square
        });
        (logs, distance)
    }

    /// Returns the probability of each mechanism from logarithms of likelihood.
    pub(crate) fn posterior(&self, logs: &[f64; 5]) -> [f64; 5] {
        let sums: [f64; 5] = std::array::from_fn(|k| logs[k] + libm::log(self.priors[k]));
        let most = sums.iter().fold(f64::MIN, |m, v| m.max(*v));
        let weights = sums.map(|s| libm::exp(s - most));
        let all: f64 = weights.iter().sum();
        weights.map(|w| w / all)
    }
}
