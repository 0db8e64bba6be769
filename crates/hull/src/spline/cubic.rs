//! The interpolating cubic spline: a batten through points.

use crate::HullError;

/// What a spline does at its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ends {
    /// No curvature at the ends: a batten let run free.
    Natural,
    /// A known slope at each end.
    Clamped(f64, f64),
    /// The first two spans are one cubic, and the last two: nothing is assumed of the ends.
    NotAKnot,
}

/// A cubic spline through points, twice continuously differentiable.
///
/// Source: any numerical text, e.g. de Boor, A Practical Guide to Splines (1978), chapter IV.
#[derive(Clone, Debug, PartialEq)]
pub struct Cubic {
    x: Vec<f64>,
    y: Vec<f64>,
    /// Second derivatives at the points.
    m: Vec<f64>,
}

impl Cubic {
    /// Returns the spline through points (x, y), x growing.
    ///
    /// # Errors
    /// Refuses fewer than two points, figures that are not finite, and x that does not grow.
    pub fn through(x: &[f64], y: &[f64], ends: Ends) -> Result<Cubic, HullError> {
        let n = x.len();
        if n < 2 || y.len() != n {
            return Err(HullError::value("The number of points of a curve", n, "at least 2, as many x as y"));
        }
        if !x.iter().chain(y).all(|v| v.is_finite()) {
            return Err(HullError::value("A point of a curve", "not a number", "finite figures"));
        }
        if let Some(pair) = x.windows(2).find(|p| p[1] <= p[0]) {
            return Err(HullError::value(
                "The x of a curve's points",
                format!("{} then {}", pair[0], pair[1]),
                "x that grows",
            ));
        }
        let m = curvatures(x, y, ends);
        Ok(Cubic { x: x.to_vec(), y: y.to_vec(), m })
    }

    /// Returns the value; beyond the ends the end span is continued.
    pub fn at(&self, x: f64) -> f64 {
        let (i, h, a, b) = self.locate(x);
        let (ya, yb, ma, mb) = (self.y[i], self.y[i + 1], self.m[i], self.m[i + 1]);
        a * ya + b * yb + ((a * a * a - a) * ma + (b * b * b - b) * mb) * h * h / 6.0
    }

    /// Returns the slope.
    pub fn slope(&self, x: f64) -> f64 {
        let (i, h, a, b) = self.locate(x);
        (self.y[i + 1] - self.y[i]) / h
            + ((3.0 * b * b - 1.0) * self.m[i + 1] - (3.0 * a * a - 1.0) * self.m[i]) * h / 6.0
    }

    /// Returns the second derivative.
    pub fn second(&self, x: f64) -> f64 {
        let (i, _, a, b) = self.locate(x);
        a * self.m[i] + b * self.m[i + 1]
    }

    /// Returns the integral over all the points.
    pub fn integral(&self) -> f64 {
        (0..self.x.len() - 1)
            .map(|i| {
                let h = self.x[i + 1] - self.x[i];
                h * (self.y[i] + self.y[i + 1]) / 2.0 - h * h * h * (self.m[i] + self.m[i + 1]) / 24.0
            })
            .sum()
    }

    fn locate(&self, x: f64) -> (usize, f64, f64, f64) {
        let i = self.x.partition_point(|k| *k <= x).clamp(1, self.x.len() - 1) - 1;
        let h = self.x[i + 1] - self.x[i];
        let b = (x - self.x[i]) / h;
        (i, h, 1.0 - b, b)
    }
}

/// Second derivatives at the points, by the three-diagonal system with the end conditions worked in.
fn curvatures(x: &[f64], y: &[f64], ends: Ends) -> Vec<f64> {
    let n = x.len();
    let h: Vec<f64> = x.windows(2).map(|p| p[1] - p[0]).collect();
    let d: Vec<f64> = (0..n - 1).map(|i| (y[i + 1] - y[i]) / h[i]).collect();
    let ends = match ends {
        Ends::NotAKnot if n == 2 => Ends::Natural,
        Ends::NotAKnot if n == 3 => {
            // Three points and nothing known of the ends: the parabola.
            return vec![2.0 * (d[1] - d[0]) / (h[0] + h[1]); 3];
        }
        other => other,
    };
    let (mut low, mut on, mut up, mut right) = (vec![0.0; n], vec![1.0; n], vec![0.0; n], vec![0.0; n]);
    for i in 1..n - 1 {
        low[i] = h[i - 1];
        on[i] = 2.0 * (h[i - 1] + h[i]);
        up[i] = h[i];
        right[i] = 6.0 * (d[i] - d[i - 1]);
    }
    match ends {
        Ends::Natural => {}
        Ends::Clamped(first, last) => {
            (on[0], up[0], right[0]) = (2.0 * h[0], h[0], 6.0 * (d[0] - first));
            (low[n - 1], on[n - 1], right[n - 1]) = (h[n - 2], 2.0 * h[n - 2], 6.0 * (last - d[n - 2]));
        }
        Ends::NotAKnot => {
            // M0 = (1 + r) M1 - r M2 with r = h0/h1, put into row 1; the same at the other end.
            let r = h[0] / h[1];
            on[1] += h[0] * (1.0 + r);
            up[1] -= h[0] * r;
            low[1] = 0.0;
            let s = h[n - 2] / h[n - 3];
            on[n - 2] += h[n - 2] * (1.0 + s);
            low[n - 2] -= h[n - 2] * s;
            up[n - 2] = 0.0;
        }
    }
    for i in 1..n {
        let factor = low[i] / on[i - 1];
        on[i] -= factor * up[i - 1];
        right[i] -= factor * right[i - 1];
    }
    let mut m = vec![0.0; n];
    m[n - 1] = right[n - 1] / on[n - 1];
    for i in (0..n - 1).rev() {
        m[i] = (right[i] - up[i] * m[i + 1]) / on[i];
    }
    if ends == Ends::NotAKnot {
        let r = h[0] / h[1];
        m[0] = (1.0 + r) * m[1] - r * m[2];
        let s = h[n - 2] / h[n - 3];
        m[n - 1] = (1.0 + s) * m[n - 2] - s * m[n - 3];
    }
    m
}
