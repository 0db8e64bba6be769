//! A curve that never turns back between points that do not.

/// A piecewise cubic that is monotone wherever its points are.
///
/// Source: F. N. Fritsch and R. E. Carlson, Monotone Piecewise Cubic Interpolation, SIAM J. Numer. Anal. 17 (1980).
#[derive(Clone, Debug, PartialEq)]
pub struct Monotone {
    x: Vec<f64>,
    y: Vec<f64>,
    slope: Vec<f64>,
}

impl Monotone {
    /// Returns the curve through points, x growing; one point gives a constant. None without points or when x does
    /// not grow.
    pub fn through(x: &[f64], y: &[f64]) -> Option<Monotone> {
        let n = x.len();
        if n == 0 || y.len() != n || x.windows(2).any(|p| p[1] <= p[0]) {
            return None;
        }
        let d: Vec<f64> = (0..n - 1).map(|i| (y[i + 1] - y[i]) / (x[i + 1] - x[i])).collect();
        let mut slope = vec![0.0; n];
        if n > 1 {
            slope[0] = d[0];
            slope[n - 1] = d[n - 2];
            for i in 1..n - 1 {
                slope[i] = if d[i - 1] * d[i] <= 0.0 { 0.0 } else { 0.5 * (d[i - 1] + d[i]) };
            }
            for i in 0..n - 1 {
                if d[i] == 0.0 {
                    (slope[i], slope[i + 1]) = (0.0, 0.0);
                    continue;
                }
                let (a, b) = (slope[i] / d[i], slope[i + 1] / d[i]);
                let size = a * a + b * b;
                if size > 9.0 {
                    let t = 3.0 / size.sqrt();
                    (slope[i], slope[i + 1]) = (t * a * d[i], t * b * d[i]);
                }
            }
        }
        Some(Monotone { x: x.to_vec(), y: y.to_vec(), slope })
    }

    /// Returns the value; beyond the ends the end value.
    pub fn at(&self, x: f64) -> f64 {
        let n = self.x.len();
        if n == 1 || x <= self.x[0] {
            return self.y[0];
        }
        if x >= self.x[n - 1] {
            return self.y[n - 1];
        }
        let i = self.x.partition_point(|k| *k <= x).clamp(1, n - 1) - 1;
        let h = self.x[i + 1] - self.x[i];
        let t = (x - self.x[i]) / h;
        let (t2, t3) = (t * t, t * t * t);
        (2.0 * t3 - 3.0 * t2 + 1.0) * self.y[i]
            + (t3 - 2.0 * t2 + t) * h * self.slope[i]
            + (3.0 * t2 - 2.0 * t3) * self.y[i + 1]
            + (t3 - t2) * h * self.slope[i + 1]
    }
}
