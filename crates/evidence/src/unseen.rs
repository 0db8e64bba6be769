//! The prior of members that were not seen, from like members that were.

/// Shares of trouble to be expected among members not seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unseen {
    /// Mean share.
    pub mean: f64,
    /// Share that is exceeded with a chance of 95 %.
    pub low: f64,
    /// Share that is exceeded with a chance of 5 %.
    pub high: f64,
}

/// Returns the share of trouble among members not seen, of the same kind, age, wetness and ventilation as `found` bad and
/// `clear` good ones that were seen: Beta(0.5 + found, 0.5 + clear), Jeffreys' prior.
///
/// Our own convention. It is wider than what was seen, and never the seen result copied over: with nothing seen it says
/// next to nothing (mean a half, from 0.006 to 0.994).
pub fn unseen(found: u32, clear: u32) -> Unseen {
    let (a, b) = (0.5 + f64::from(found), 0.5 + f64::from(clear));
    Unseen { mean: a / (a + b), low: quantile(a, b, 0.05), high: quantile(a, b, 0.95) }
}

/// Quantile of the beta distribution by bisection.
fn quantile(a: f64, b: f64, p: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if distribution(a, b, middle) < p {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Regularised incomplete beta function by its continued fraction (NIST Digital Library of Mathematical Functions
/// 8.17.22), evaluated by Lentz's method.
fn distribution(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - distribution(b, a, 1.0 - x);
    }
    let front =
        libm::exp(libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log1p(-x)) / a;
    let tiny = 1e-300;
    let (mut c, mut d) = (1.0, 0.0);
    let mut fraction = 1.0;
    for i in 0..300u32 {
        let m = f64::from(i / 2);
        let term = match i {
            0 => 1.0,
            _ if i % 2 == 0 => m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m)),
            _ => -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0)),
        };
        d = 1.0 + term * d;
        d = 1.0 / if d.abs() < tiny { tiny } else { d };
        c = 1.0 + term / c;
        c = if c.abs() < tiny { tiny } else { c };
        fraction *= c * d;
        if i > 0 && (1.0 - c * d).abs() < 1e-15 {
            break;
        }
    }
    front * (fraction - 1.0)
}
