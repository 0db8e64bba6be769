//! Hog and sag by weighted least squares, the way she stands taken out, the shape told by comparing fits.

use crate::{
    HullError,
    spline::{invert, solve},
};

/// One measured point of the keel line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeelPoint {
    /// Distance along, in metres, in either direction.
    pub x_m: f64,
    /// Height, in millimetres, upwards.
    pub z_mm: f64,
    /// Standard deviation of the height, in millimetres, when known.
    pub sd_mm: Option<f64>,
}

/// The shape of the keel line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// No bend beyond what the measuring itself leaves open.
    Straight,
    /// Even curvature: a parabola.
    Parabola,
    /// The curve of a beam evenly loaded and held at its ends, straighter towards the ends than a parabola.
    Beam,
    /// Two straight lengths that meet in an angle: a local failure, not hog.
    Break {
        /// Where the angle most likely lies, in metres.
        x_m: f64,
        /// It may lie from here (95 %) …
        from_m: f64,
        /// … to here.
        to_m: f64,
    },
}

impl Shape {
    /// Returns the shape's word.
    pub const fn word(&self) -> &'static str {
        match self {
            Shape::Straight => "straight",
            Shape::Parabola => "parabola",
            Shape::Beam => "beam",
            Shape::Break { .. } => "break",
        }
    }
}

/// One fit of a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The shape.
    pub shape: Shape,
    /// Height at the first point, slope over the whole length and rise of the shape, in millimetres; for a break the
    /// rise is that of the angle above the chord between the ends.
    pub terms_mm: Vec<f64>,
    /// Their covariance, in square millimetres.
    pub covariance_mm2: Vec<Vec<f64>>,
    /// Sum of squared residuals, each over its own standard deviation.
    pub chi_squared: f64,
    /// Akaike's criterion corrected for few points; the lower the better.
    pub aicc: f64,
}

impl Fit {
    /// Returns the rise of the shape at its middle, or at the break, in millimetres; above the chord is positive.
    pub fn rise_mm(&self) -> f64 {
        self.terms_mm.get(2).copied().unwrap_or(0.0)
    }

    /// Returns the standard deviation of the rise, in millimetres.
    pub fn rise_sd_mm(&self) -> f64 {
        self.covariance_mm2.get(2).and_then(|r| r.get(2)).map_or(0.0, |v| v.max(0.0).sqrt())
    }
}

/// What the points say of the keel line.
#[derive(Clone, Debug, PartialEq)]
pub struct KeelLine {
    /// Rise of the fair curve above its chord at mid-length, in millimetres: positive is hogged, negative sagged.
    pub hog_mm: f64,
    /// Its standard deviation.
    pub sd_mm: f64,
    /// The shape that the points bear out best; a richer shape is only taken when it is clearly better.
    pub shape: Shape,
    /// Whether parabola and beam can be told apart with these points.
    pub curve_told: bool,
    /// Root mean square of what the shape leaves, in millimetres.
    pub residual_mm: f64,
    /// What the shape leaves at each point, in the points' order.
    pub residuals_mm: Vec<f64>,
    /// Degrees of freedom left by the parabola; with 0 there is no check of anything.
    pub freedom: usize,
    /// Whether the standard deviations were given; otherwise they come from the scatter about the best shape.
    pub sd_given: bool,
    /// Whether the scatter is more than the standard deviations given can explain (χ² beyond its 97.5 % point).
    pub scatter_too_large: bool,
    /// Length between the outermost points, in metres.
    pub length_m: f64,
    /// Every fit made.
    pub fits: Vec<Fit>,
}

/// Returns the sag of a measuring string at mid-span, in millimetres: w S² / (8 H), parabola of a light cable.
pub fn string_sag_mm(grams_per_m: f64, span_m: f64, tension_n: f64) -> f64 {
    grams_per_m / 1000.0 * 9.80665 * span_m * span_m / (8.0 * tension_n) * 1000.0
}

/// Fits the keel line: z = a + b ξ + δ φ(ξ), ξ from 0 to 1 over the length, weights 1/sd², covariance (JᵀWJ)⁻¹.
///
/// φ is 4ξ(1-ξ) for even curvature and (16/5)(ξ - 2ξ³ + ξ⁴) for the evenly loaded beam; both are 1 at mid-length and
/// 0 at the ends. a and b are how she stands, not her shape. A break at an unknown place is fitted beside them when
/// there are six points or more.
///
/// # Errors
/// Refuses fewer than three different places, figures that are not finite and standard deviations not above 0.
pub fn keel_line(points: &[KeelPoint]) -> Result<KeelLine, HullError> {
    let mut xs: Vec<f64> = points.iter().map(|p| p.x_m).collect();
    xs.sort_by(f64::total_cmp);
    xs.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    if points.iter().any(|p| !p.x_m.is_finite() || !p.z_mm.is_finite()) {
        return Err(HullError::value(
            "A point of the keel line",
            "not a number",
            "x in metres and height in millimetres",
        ));
    }
    if let Some(bad) = points.iter().find(|p| p.sd_mm.is_some_and(|s| !(s > 0.0 && s.is_finite()))) {
        let what = format!("The standard deviation at x = {} m", bad.x_m);
        return Err(HullError::value(what, bad.sd_mm.unwrap_or_default(), "more than 0 mm"));
    }
    if xs.len() < 3 {
        return Err(HullError::value(
            "The number of places on the keel line",
            xs.len(),
            "3 at least, 7 or more to tell a shape",
        ));
    }
    let sd_given = points.iter().all(|p| p.sd_mm.is_some());
    let (first, last) = (xs[0], xs[xs.len() - 1]);
    let length = last - first;
    let data = Data {
        xi: points.iter().map(|p| (p.x_m - first) / length).collect(),
        z: points.iter().map(|p| p.z_mm).collect(),
        w: points.iter().map(|p| if sd_given { p.sd_mm.map_or(1.0, |s| 1.0 / (s * s)) } else { 1.0 }).collect(),
        sd_given,
    };
    let none = || HullError::value("The points of the keel line", "too alike", "at least three different places");
    let straight = data.fit(Shape::Straight, |xi| vec![1.0, xi], 2).ok_or_else(none)?;
    let parabola = data.fit(Shape::Parabola, |xi| vec![1.0, xi, 4.0 * xi * (1.0 - xi)], 3).ok_or_else(none)?;
    let beam = |xi: f64| vec![1.0, xi, 3.2 * (xi - 2.0 * xi.powi(3) + xi.powi(4))];
    let beam = data.fit(Shape::Beam, beam, 3).ok_or_else(none)?;
    let broken = if xs.len() >= 6 { data.broken(&xs, first, length) } else { None };

    let n = points.len();
    let freedom = n.saturating_sub(3);
    // The simpler shape stays unless the richer one is better by 2, which is where it begins to be worth naming.
    let curve_told = (parabola.aicc - beam.aicc).abs() >= 2.0;
    let curve = if parabola.aicc - beam.aicc >= 2.0 { &beam } else { &parabola };
    let mut best = curve;
    if let Some(broken) = &broken
        && curve.aicc - broken.aicc >= 2.0
    {
        best = broken;
    }
    let scale = |fit: &Fit, terms: usize| {
        if sd_given { 1.0 } else { (fit.chi_squared / (n.saturating_sub(terms)).max(1) as f64).sqrt() }
    };
    let sd_mm = curve.rise_sd_mm() * scale(best, if best == curve { 3 } else { 4 });
    let bent = if sd_given || freedom > 0 { curve.rise_mm().abs() > 2.0 * sd_mm } else { true };
    if best == curve && !bent {
        best = &straight;
    }
    let residuals = data.residuals(best, first, length);
    let residual_mm = (residuals.iter().map(|r| r * r).sum::<f64>() / n as f64).sqrt();
    let shape = best.shape;
    let left = n.saturating_sub(if matches!(shape, Shape::Break { .. }) { 4 } else { 3 });
    let scatter_too_large = sd_given && left > 0 && best.chi_squared > chi_squared_975(left);
    let (hog_mm, curve_told) = (curve.rise_mm(), curve_told && matches!(shape, Shape::Parabola | Shape::Beam));
    let fits = [Some(straight.clone()), Some(parabola.clone()), Some(beam.clone()), broken.clone()];
    Ok(KeelLine {
        hog_mm,
        sd_mm,
        shape,
        curve_told,
        residual_mm,
        residuals_mm: residuals,
        freedom,
        sd_given,
        scatter_too_large,
        length_m: length,
        fits: fits.into_iter().flatten().collect(),
    })
}

struct Data {
    xi: Vec<f64>,
    z: Vec<f64>,
    w: Vec<f64>,
    sd_given: bool,
}

impl Data {
    fn fit(&self, shape: Shape, terms: impl Fn(f64) -> Vec<f64>, counted: usize) -> Option<Fit> {
        let rows: Vec<Vec<f64>> = self.xi.iter().map(|xi| terms(*xi)).collect();
        let k = rows.first()?.len();
        let mut normal = vec![vec![0.0; k]; k];
        let mut right = vec![0.0; k];
        for ((row, z), w) in rows.iter().zip(&self.z).zip(&self.w) {
            for i in 0..k {
                right[i] += w * row[i] * z;
                for j in 0..k {
                    normal[i][j] += w * row[i] * row[j];
                }
            }
        }
        let terms_mm = solve(normal.clone(), right)?;
        let covariance_mm2 = invert(normal)?;
        let chi_squared = rows
            .iter()
            .zip(&self.z)
            .zip(&self.w)
            .map(|((row, z), w)| w * (z - row.iter().zip(&terms_mm).map(|(a, b)| a * b).sum::<f64>()).powi(2))
            .sum();
        Some(Fit { shape, terms_mm, covariance_mm2, chi_squared, aicc: self.aicc(chi_squared, counted) })
    }

    /// AICc: with known standard deviations χ² + 2k, otherwise n ln(rss/n) + 2k with one more term for the scatter.
    fn aicc(&self, chi_squared: f64, terms: usize) -> f64 {
        let n = self.z.len() as f64;
        let k = terms as f64 + if self.sd_given { 0.0 } else { 1.0 };
        let extra = if n - k - 1.0 > 0.0 { 2.0 * k * (k + 1.0) / (n - k - 1.0) } else { 1e6 };
        // A tenth of a millimetre is finer than any string: a perfect fit may not win by its rounding.
        let floor = n * 0.01;
        let misfit = if self.sd_given { chi_squared } else { n * libm::log(chi_squared.max(floor) / n) };
        misfit + 2.0 * k + extra
    }

    /// Two straight lengths with the angle at k: terms height at start, slope, and rise of the angle above the chord.
    fn broken(&self, xs: &[f64], first: f64, length: f64) -> Option<Fit> {
        let inner = |x: f64| (x - first) / length;
        // Two points at least on either side, or the angle would be a single bad reading.
        let (low, high) = (inner(xs[1]) + 1e-6, inner(xs[xs.len() - 2]) - 1e-6);
        let at = |k: f64| {
            let hat = move |xi: f64| vec![1.0, xi, if xi < k { xi / k } else { (1.0 - xi) / (1.0 - k) }];
            self.fit(Shape::Straight, hat, 4).map(|fit| (k, fit))
        };
        let tries: Vec<(f64, Fit)> = (0..=400).filter_map(|i| at(low + (high - low) * f64::from(i) / 400.0)).collect();
        let (k, best) = tries.iter().min_by(|a, b| a.1.chi_squared.total_cmp(&b.1.chi_squared))?;
        let scale =
            if self.sd_given { 1.0 } else { (best.chi_squared / (self.z.len() as f64 - 4.0).max(1.0)).max(0.01) };
        let likely: Vec<f64> =
            tries.iter().filter(|t| t.1.chi_squared <= best.chi_squared + 3.84 * scale).map(|t| t.0).collect();
        let m = |k: f64| first + k * length;
        let shape = Shape::Break {
            x_m: m(*k),
            from_m: m(likely.first().copied().unwrap_or(*k)),
            to_m: m(likely.last().copied().unwrap_or(*k)),
        };
        Some(Fit { shape, ..best.clone() })
    }

    fn residuals(&self, fit: &Fit, first: f64, length: f64) -> Vec<f64> {
        let t = &fit.terms_mm;
        let rise = fit.rise_mm();
        self.xi
            .iter()
            .zip(&self.z)
            .map(|(xi, z)| {
                let shape = match fit.shape {
                    Shape::Straight => 0.0,
                    Shape::Parabola => 4.0 * xi * (1.0 - xi),
                    Shape::Beam => 3.2 * (xi - 2.0 * xi.powi(3) + xi.powi(4)),
                    Shape::Break { x_m, .. } => {
                        let k = (x_m - first) / length;
                        if *xi < k { xi / k } else { (1.0 - xi) / (1.0 - k) }
                    }
                };
                z - (t[0] + t[1] * xi + rise * shape)
            })
            .collect()
    }
}

/// The 97.5 % point of χ², by Wilson and Hilferty's cube (1931), good to about a hundredth from 1 degree up.
fn chi_squared_975(freedom: usize) -> f64 {
    let n = freedom as f64;
    let c = 2.0 / (9.0 * n);
    n * (1.0 - c + 1.959_964 * c.sqrt()).powi(3)
}
