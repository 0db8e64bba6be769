//! The smoothing spline: as fair as the points' own uncertainty allows.

use super::solve;

/// Returns fair values at x near y: the natural cubic spline that minimises the integral of the squared second
/// derivative while the weighted sum of squared moves equals the number of points. `sd` is the standard deviation
/// of each y. Points that a straight line meets within that are put on the line. Fewer than four points, or sd of
/// zero, come back as they are.
///
/// Source: C. H. Reinsch, Smoothing by Spline Functions, Numerische Mathematik 10 (1967).
pub fn smooth(x: &[f64], y: &[f64], sd: &[f64]) -> Vec<f64> {
    let n = x.len();
    let usable = n >= 4 && y.len() == n && sd.len() == n && sd.iter().all(|s| *s > 0.0 && s.is_finite());
    if !usable || x.windows(2).any(|p| p[1] <= p[0]) {
        return y.to_vec();
    }
    let size = x[n - 1] - x[0];
    let moved = |f: &[f64]| -> f64 { f.iter().zip(y).zip(sd).map(|((f, y), s)| ((f - y) / s).powi(2)).sum() };
    // λ in units of the cube of the length, searched by halving its logarithm.
    let (mut low, mut high) = (-16.0, 6.0);
    let at = |exponent: f64| penalised(x, y, sd, libm::pow(10.0, exponent) * size * size * size);
    let Some(stiff) = at(high) else { return y.to_vec() };
    if moved(&stiff) <= n as f64 {
        return stiff;
    }
    let mut best = y.to_vec();
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        let Some(f) = at(middle) else { return best };
        if moved(&f) > n as f64 {
            high = middle;
        } else {
            low = middle;
            best = f;
        }
    }
    best
}

/// The spline of one λ: (R + λ Qᵀ Σ² Q) γ = Qᵀ y, f = y - λ Σ² Q γ.
#[expect(clippy::needless_range_loop, reason = "bands of a matrix are written by index")]
fn penalised(x: &[f64], y: &[f64], sd: &[f64], lambda: f64) -> Option<Vec<f64>> {
    let n = x.len();
    let h: Vec<f64> = x.windows(2).map(|p| p[1] - p[0]).collect();
    let q = |i: usize| [(i, 1.0 / h[i]), (i + 1, -1.0 / h[i] - 1.0 / h[i + 1]), (i + 2, 1.0 / h[i + 1])];
    // λ is scaled by the mean variance so that its search range does not depend on the unit.
    let scale = lambda / (sd.iter().map(|s| s * s).sum::<f64>() / n as f64);
    let m = n - 2;
    let mut a = vec![vec![0.0; m]; m];
    let mut right = vec![0.0; m];
    for i in 0..m {
        a[i][i] = (h[i] + h[i + 1]) / 3.0;
        if i + 1 < m {
            a[i][i + 1] = h[i + 1] / 6.0;
            a[i + 1][i] = h[i + 1] / 6.0;
        }
        right[i] = q(i).into_iter().map(|(k, c)| c * y[k]).sum();
    }
    for i in 0..m {
        for j in i.saturating_sub(2)..(i + 3).min(m) {
            for (k, c) in q(i) {
                for (l, d) in q(j) {
                    if k == l {
                        a[i][j] += scale * sd[k] * sd[k] * c * d;
                    }
                }
            }
        }
    }
    let gamma = solve(a, right)?;
    let mut f = y.to_vec();
    for (i, g) in gamma.iter().enumerate() {
        for (k, c) in q(i) {
            f[k] -= scale * sd[k] * sd[k] * c * g;
        }
    }
    Some(f)
}
