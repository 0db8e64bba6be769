//! The middle of a few figures, and an honest range about it.

use crate::Seeded;
use crate::total::quantile;

/// Returns the median; not a number when there is none.
pub fn median(figures: &[f64]) -> f64 {
    quantile(&sorted(figures), 0.5)
}

/// Returns the median of the distances from the median, unscaled.
pub fn median_absolute_deviation(figures: &[f64]) -> f64 {
    let middle = median(figures);
    median(&figures.iter().map(|x| (x - middle).abs()).collect::<Vec<_>>())
}

/// Returns the median of the means of all pairs, each figure also with itself (J. L. Hodges and E. L. Lehmann, 1963).
pub fn hodges_lehmann(figures: &[f64]) -> f64 {
    let mut means = Vec::new();
    for (i, a) in figures.iter().enumerate() {
        means.extend(figures[i..].iter().map(|b| 0.5 * (a + b)));
    }
    median(&means)
}

/// A range for the median.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MedianRange {
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
    /// Chance, in percent, that such a range holds the median of what the figures were drawn from, if they were drawn at
    /// random; comparables never quite are.
    pub coverage_percent: f64,
    /// Whether it is simply from the lowest to the highest.
    pub is_whole_range: bool,
}

/// Returns the narrowest range from one figure to another, equally far in from both ends, that holds the median with a
/// chance of at least `wanted_percent`; the whole range when none does.
///
/// The chance is exact and needs no shape of distribution: the `k`-th from each end leaves out `2 P(B < k)` with `B` binomial
/// of `n` and a half (H. A. David and H. N. Nagaraja, Order Statistics, 3rd edition, section 7.1; from memory).
pub fn median_range(figures: &[f64], wanted_percent: f64) -> Option<MedianRange> {
    let sorted = sorted(figures);
    let n = sorted.len();
    let (first, last) = (*sorted.first()?, *sorted.last()?);
    // Terms of the binomial, from the outside in.
    let mut term = libm::pow(0.5, n as f64);
    let mut outside = term;
    let whole = MedianRange {
        low: first,
        high: last,
        coverage_percent: 100.0 * (1.0 - 2.0 * outside).max(0.0),
        is_whole_range: true,
    };
    let mut best = whole;
    for k in 1..n / 2 {
        term *= (n - k + 1) as f64 / k as f64;
        outside += term;
        let coverage_percent = 100.0 * (1.0 - 2.0 * outside);
        if coverage_percent < wanted_percent {
            break;
        }
        best = MedianRange { low: sorted[k], high: sorted[n - 1 - k], coverage_percent, is_whole_range: false };
    }
    Some(best)
}

/// Returns, for an odd count of figures, each in order with the exact chance that it is the median of a bootstrap sample;
/// `None` for an even count or none.
///
/// Of three figures the chances are 7/27, 13/27 and 7/27, so that any 90 % interval is the whole range.
pub fn bootstrap_median_chances(figures: &[f64]) -> Option<Vec<(f64, f64)>> {
    let sorted = sorted(figures);
    let n = sorted.len();
    if n.is_multiple_of(2) {
        return None;
    }
    // The median is at most the k-th when more than half of the n draws are among the first k.
    let at_most = |k: usize| {
        let p = k as f64 / n as f64;
        (n / 2 + 1..=n).map(|hits| binomial(n, hits, p)).sum::<f64>()
    };
    Some(sorted.iter().enumerate().map(|(i, x)| (*x, at_most(i + 1) - at_most(i))).collect())
}

/// Returns the percentile bootstrap interval of the median (B. Efron, 1979), from seeded resamples.
pub fn bootstrap_median_range(figures: &[f64], confidence_percent: f64, resamples: u32, seed: u64) -> (f64, f64) {
    let mut seeded = Seeded::new(seed);
    let draw =
        |seeded: &mut Seeded| -> Vec<f64> { figures.iter().map(|_| figures[seeded.below(figures.len())]).collect() };
    let medians: Vec<f64> = (0..resamples).map(|_| median(&draw(&mut seeded))).collect();
    let medians = sorted(&medians);
    let tail = (1.0 - confidence_percent / 100.0) / 2.0;
    (quantile(&medians, tail), quantile(&medians, 1.0 - tail))
}

fn sorted(figures: &[f64]) -> Vec<f64> {
    let mut sorted = figures.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted
}

fn binomial(n: usize, k: usize, p: f64) -> f64 {
    let ways: f64 = (0..k).map(|i| (n - i) as f64 / (k - i) as f64).product();
    ways * libm::pow(p, k as f64) * libm::pow(1.0 - p, (n - k) as f64)
}
