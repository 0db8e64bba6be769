//! Sums by Gauss and Legendre.

/// Integrates over one interval with four points; exact for polynomials to the seventh degree.
pub(crate) fn gauss4(from: f64, to: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    points4(from, to).into_iter().map(|(t, w)| w * f(t)).sum()
}

/// Points and weights of the four-point rule over an interval.
pub(crate) fn points4(from: f64, to: f64) -> [(f64, f64); 4] {
    const AT: [f64; 2] = [0.339_981_043_584_856_3, 0.861_136_311_594_052_6];
    const WEIGHT: [f64; 2] = [0.652_145_154_862_546_1, 0.347_854_845_137_453_85];
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    [
        (middle - half * AT[1], half * WEIGHT[1]),
        (middle - half * AT[0], half * WEIGHT[0]),
        (middle + half * AT[0], half * WEIGHT[0]),
        (middle + half * AT[1], half * WEIGHT[1]),
    ]
}
