//! Cubic B-splines: by interpolation and by least squares.

use super::solve;
use crate::HullError;

/// A cubic B-spline: knots (four-fold at the ends) and coefficients.
///
/// Source: C. de Boor, A Practical Guide to Splines (1978), chapters IX, X and XIV.
#[derive(Clone, Debug, PartialEq)]
pub struct BSpline {
    knots: Vec<f64>,
    coefficients: Vec<f64>,
}

impl BSpline {
    /// Returns the spline nearest to points by weighted least squares, on the given knots.
    ///
    /// # Errors
    /// Refuses knots that do not suit the points (Schoenberg and Whitney: each coefficient needs a point of its
    /// own within its reach).
    pub fn nearest(knots: &[f64], x: &[f64], y: &[f64], weights: &[f64]) -> Result<BSpline, HullError> {
        let n = knots.len().saturating_sub(4);
        if n < 4 || x.len() != y.len() || x.len() != weights.len() || x.len() < n {
            let what = "The number of points for a least-squares curve";
            return Err(HullError::value(what, x.len(), format!("at least {n}, with a weight each")));
        }
        if knots.windows(2).any(|p| p[1] < p[0]) {
            return Err(HullError::value("The knots of a curve", "not in order", "knots that do not fall"));
        }
        let mut points: Vec<f64> = x.to_vec();
        points.sort_by(f64::total_cmp);
        let mut next = 0;
        for i in 0..n {
            let (low, high) = (knots[i], knots[i + 4]);
            while next < points.len() && points[next] < low {
                next += 1;
            }
            let ends_meet = i == 0 || i + 1 == n;
            let inside = points.get(next).is_some_and(|p| *p < high || (ends_meet && *p <= high));
            if !inside {
                let what = "The points for a least-squares curve";
                return Err(HullError::value(
                    what,
                    format!("none between {low} and {high}"),
                    "a point within each reach",
                ));
            }
            next += 1;
        }
        let mut normal = vec![vec![0.0; n]; n];
        let mut right = vec![0.0; n];
        for ((x, y), w) in x.iter().zip(y).zip(weights) {
            let s = span(knots, *x);
            let (b, _) = basis(knots, s, *x);
            for i in 0..4 {
                right[s - 3 + i] += w * b[i] * y;
                for j in 0..4 {
                    normal[s - 3 + i][s - 3 + j] += w * b[i] * b[j];
                }
            }
        }
        let coefficients = solve(normal, right)
            .ok_or_else(|| HullError::value("The knots of a curve", "too many", "fewer knots than the points bear"))?;
        Ok(BSpline { knots: knots.to_vec(), coefficients })
    }

    /// Returns the value; beyond the ends the end polynomial is continued.
    pub fn at(&self, x: f64) -> f64 {
        let s = span(&self.knots, x);
        let (b, _) = basis(&self.knots, s, x);
        (0..4).map(|i| b[i] * self.coefficients[s - 3 + i]).sum()
    }

    /// Returns the coefficients.
    pub fn coefficients(&self) -> &[f64] {
        &self.coefficients
    }
}

/// Returns the knots that make interpolation at the sites not-a-knot: the second and the last but one are left out.
/// Takes at least four sites, growing.
pub(crate) fn interpolation_knots(sites: &[f64]) -> Vec<f64> {
    let n = sites.len();
    let mut knots = vec![sites[0]; 4];
    knots.extend_from_slice(&sites[2..n - 2]);
    knots.extend([sites[n - 1]; 4]);
    knots
}

/// Returns the index s with knots[s] ≤ t < knots[s + 1], kept within the spline's own spans.
pub(crate) fn span(knots: &[f64], t: f64) -> usize {
    let last = knots.len() - 5;
    (knots.partition_point(|k| *k <= t)).clamp(4, last + 1) - 1
}

/// Returns the four cubic basis functions that are not zero in a span, and their first derivatives.
pub(crate) fn basis(knots: &[f64], s: usize, t: f64) -> ([f64; 4], [f64; 4]) {
    let mut b = [1.0, 0.0, 0.0, 0.0];
    let mut lower = [0.0; 3];
    for degree in 1..4 {
        if degree == 3 {
            lower.copy_from_slice(&b[..3]);
        }
        let mut saved = 0.0;
        for r in 0..degree {
            let (right, left) = (knots[s + r + 1], knots[s + 1 + r - degree]);
            let share = b[r] / (right - left);
            b[r] = saved + (right - t) * share;
            saved = (t - left) * share;
        }
        b[degree] = saved;
    }
    let mut d = [0.0; 4];
    for r in 0..3 {
        let width = knots[s + r + 1] - knots[s + r - 2];
        let part = 3.0 * lower[r] / width;
        d[r] -= part;
        d[r + 1] += part;
    }
    (b, d)
}
