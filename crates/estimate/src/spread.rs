//! A figure given as low, likely and high.

use crate::Fault;

/// How low, likely and high are made into a distribution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Shape {
    /// Straight sides from low to likely and from likely to high.
    #[default]
    Triangular,
    /// PERT: the beta distribution with its mode at likely and weight four; thinner tails.
    Pert,
}

impl Shape {
    /// Returns the shape of that name.
    pub fn named(name: &str) -> Option<Shape> {
        match name {
            "triangular" => Some(Shape::Triangular),
            "pert" => Some(Shape::Pert),
            _ => None,
        }
    }
}

/// A figure spread between low and high about likely.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    low: f64,
    likely: f64,
    high: f64,
    shape: Shape,
    /// Distribution function at even steps from low to high, for PERT.
    steps: Vec<f64>,
}

/// Even steps at which the PERT distribution is tabled: its quantiles are then good to a thousandth of a step in the body.
const STEPS: usize = 2048;

impl Spread {
    /// Returns the spread.
    ///
    /// # Errors
    /// The three are not finite, negative or out of order; `name` says whose they are.
    pub fn new(name: &str, low: f64, likely: f64, high: f64, shape: Shape) -> Result<Self, Fault> {
        let ordered = 0.0 <= low && low <= likely && likely <= high && high.is_finite();
        if !ordered {
            return Err(Fault::Order { name: name.to_owned(), low, likely, high });
        }
        let mut spread = Self { low, likely, high, shape, steps: Vec::new() };
        if shape == Shape::Pert && high > low {
            let (a, b) = spread.beta();
            spread.steps = (0..=STEPS).map(|i| incomplete_beta(a, b, i as f64 / STEPS as f64)).collect();
        }
        Ok(spread)
    }

    /// Returns the mean: (a + b + c)/3 for the triangular, (a + 4m + b)/6 for PERT.
    pub fn mean(&self) -> f64 {
        match self.shape {
            Shape::Triangular => (self.low + self.likely + self.high) / 3.0,
            Shape::Pert => (self.low + 4.0 * self.likely + self.high) / 6.0,
        }
    }

    /// Returns the variance: (a² + b² + c² - ab - ac - bc)/18 for the triangular, exactly (μ - a)(b - μ)/7 for PERT.
    ///
    /// The old short form ((b - a)/6)² for PERT is not exact, not even for a symmetric one.
    pub fn variance(&self) -> f64 {
        let (a, c, b) = (self.low, self.likely, self.high);
        match self.shape {
            Shape::Triangular => (a * a + b * b + c * c - a * b - a * c - b * c).max(0.0) / 18.0,
            Shape::Pert => (self.mean() - a) * (b - self.mean()) / 7.0,
        }
    }

    /// Returns the value below which a share `p` of the distribution lies.
    pub fn quantile(&self, p: f64) -> f64 {
        let (a, c, b) = (self.low, self.likely, self.high);
        let width = b - a;
        if width <= 0.0 {
            return a;
        }
        let p = p.clamp(0.0, 1.0);
        match self.shape {
            Shape::Triangular if p * width < c - a => a + libm::sqrt(p * width * (c - a)),
            Shape::Triangular => b - libm::sqrt((1.0 - p) * width * (b - c)),
            Shape::Pert => {
                let above = self.steps.partition_point(|f| *f < p).clamp(1, STEPS);
                let (under, over) = (self.steps[above - 1], self.steps[above]);
                let part = if over > under { (p - under) / (over - under) } else { 0.0 };
                a + width * ((above - 1) as f64 + part.clamp(0.0, 1.0)) / STEPS as f64
            }
        }
    }

    fn beta(&self) -> (f64, f64) {
        let width = self.high - self.low;
        (1.0 + 4.0 * (self.likely - self.low) / width, 1.0 + 4.0 * (self.high - self.likely) / width)
    }
}

/// Regularised incomplete beta function by its continued fraction (NIST Digital Library of Mathematical Functions
/// 8.17.22), evaluated by Lentz's method.
fn incomplete_beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - incomplete_beta(b, a, 1.0 - x);
    }
    let gammas = libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b);
    let front = libm::exp(gammas + a * libm::log(x) + b * libm::log1p(-x)) / a;
    let tiny = 1e-300;
    let (mut c, mut d, mut fraction) = (1.0, 0.0, 1.0);
    for i in 0..300u32 {
        let m = f64::from(i / 2);
        let term = match i {
            0 => 1.0,
            _ if i % 2 == 0 => m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m)),
            _ => -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0)),
        };
        d = 1.0 + term * d;
        d = 1.0 / if f64::abs(d) < tiny { tiny } else { d };
        c = 1.0 + term / c;
        c = if f64::abs(c) < tiny { tiny } else { c };
        fraction *= c * d;
        if i > 0 && f64::abs(1.0 - c * d) < 1e-15 {
            break;
        }
    }
    front * (fraction - 1.0)
}
