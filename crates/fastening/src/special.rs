//! The few special functions that the statistics rest on.

/// Returns ln Γ(x) for x > 0.
pub fn ln_gamma(x: f64) -> f64 {
    libm::lgamma(x)
}

/// Returns ln B(a, b).
pub fn ln_beta(a: f64, b: f64) -> f64 {
    ln_gamma(a) + ln_gamma(b) - ln_gamma(a + b)
}

/// Returns the logarithm of the number of ways to choose k of n.
pub fn ln_choose(n: u64, k: u64) -> f64 {
    let (n, k) = (n as f64, k as f64);
    ln_gamma(n + 1.0) - ln_gamma(k + 1.0) - ln_gamma(n - k + 1.0)
}

/// Returns the regularised incomplete beta function I_x(a, b), by its continued fraction (DLMF 8.17.22) with the
/// modified Lentz method.
pub fn beta_cdf(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    // The fraction converges fast below the mean; above it the complement is taken.
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - beta_cdf(b, a, 1.0 - x);
    }
    let front = (a * x.ln() + b * (-x).ln_1p() - ln_beta(a, b)).exp() / a;
    front * continued_fraction(a, b, x)
}

fn continued_fraction(a: f64, b: f64, x: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let floor = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / floor(1.0 - (a + b) * x / (a + 1.0));
    let mut h = d;
    for i in 1..20_000 {
        let m = f64::from(i);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / floor(1.0 + even * d);
        c = floor(1.0 + even / c);
        h *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / floor(1.0 + odd * d);
        c = floor(1.0 + odd / c);
        let step = d * c;
        h *= step;
        if (step - 1.0).abs() < 1e-16 {
            break;
        }
    }
    h
}

/// Returns the quantile of the beta distribution: the x with I_x(a, b) = p. By bisection until two neighbouring
/// numbers are reached, so that nothing can go astray.
pub fn beta_quantile(a: f64, b: f64, p: f64) -> f64 {
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return 1.0;
    }
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if beta_cdf(a, b, middle) < p { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// Returns the quantile of Student's t on `degrees` degrees of freedom.
pub fn t_quantile(degrees: f64, p: f64) -> f64 {
    if (p - 0.5).abs() < 1e-15 {
        return 0.0;
    }
    let tail = p.min(1.0 - p);
    let x = beta_quantile(degrees / 2.0, 0.5, 2.0 * tail);
    let t = (degrees * (1.0 - x) / x).sqrt();
    if p < 0.5 { -t } else { t }
}

/// Returns the quantile of the normal distribution, by bisection on the error function.
pub fn normal_quantile(p: f64) -> f64 {
    let (mut low, mut high) = (-40.0_f64, 40.0_f64);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if 0.5 * libm::erfc(-middle / core::f64::consts::SQRT_2) < p { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}
