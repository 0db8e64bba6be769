//! Why: the strongest differences from the references, in words.

use super::features::{COUNT, Features, NAMES};
use serde::{Deserialize, Serialize};

/// One difference.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reason {
    /// Feature.
    pub feature: String,
    /// Difference, in deviations over all blows; positive is more.
    pub deviations: f64,
    /// What it means: `lower note`, `shorter ring`.
    pub words: String,
}

/// Returns the three strongest differences.
pub(super) fn strongest(differences: &Features) -> Vec<Reason> {
    let mut order: Vec<(usize, f64)> =
        (0..COUNT).filter(|i| !NAMES[*i].0.starts_with("mfcc")).filter_map(|i| Some((i, differences[i]?))).collect();
    order.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    order
        .into_iter()
        .take(3)
        .filter(|(_, d)| d.abs() >= 0.5)
        .map(|(i, d)| Reason {
            feature: NAMES[i].0.to_owned(),
            deviations: d,
            words: if d > 0.0 { NAMES[i].1 } else { NAMES[i].2 }.to_owned(),
        })
        .collect()
}
