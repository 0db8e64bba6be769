//! How fast a fastening has wasted, and how long until a limit that the surveyor sets.
//!
//! No published limit of wastage was found for fastenings or keel bolts, so none is assumed: without a limit only
//! the rate is answered. The rate is taken as constant over the years; steel is quicker at first, copper alloys
//! slow down, stray current knows no rate at all.

use crate::Fault;
use crate::special::{normal_quantile, t_quantile};

/// One diameter, when new and now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Diameter when new, mm.
    pub original_mm: f64,
    /// Standard deviation of that: makers' tolerance or a guess from a sheltered place, mm.
    pub original_sd_mm: f64,
    /// Least diameter measured, mm.
    pub measured_mm: f64,
    /// Standard deviation of a calliper reading, mm.
    pub measured_sd_mm: f64,
    /// Years in place.
    pub years: f64,
}

/// A figure with the interval that holds it at the confidence asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Best estimate.
    pub estimate: f64,
    /// Lower end.
    pub lower: f64,
    /// Upper end; infinite when the measurements cannot bound it.
    pub upper: f64,
}

/// What the wastage says.
#[derive(Clone, Debug, PartialEq)]
pub struct Wastage {
    /// Loss of diameter, mm a year. The lower end may be below zero: the loss is then within the error of
    /// measuring.
    pub rate_mm_per_year: Interval,
    /// Years from now until the limit at that rate; `None` without a limit.
    pub years_to_limit: Option<Interval>,
    /// What to be careful of, in sentences.
    pub cautions: Vec<String>,
}

/// Returns the rate and the years to a limiting diameter, with two-sided intervals at `confidence` (0.95).
///
/// The rate's interval is normal. The years are a ratio, (measured − limit)/(original − measured) times the
/// years in place, whose interval is Fieller's; when the loss itself is not clear of the error of measuring it
/// has no upper end.
///
/// # Errors
/// When the diameter has grown by more than the error of measuring, or the limit is not below the original.
pub fn wastage(measured: &Measured, limit_mm: Option<f64>, confidence: f64) -> Result<Wastage, Fault> {
    let original = Fault::between("original_mm", measured.original_mm, 0.5, 200.0)?;
    let now = Fault::between("measured_mm", measured.measured_mm, 0.0, 400.0)?;
    let years = Fault::between("years", measured.years, 0.01, 300.0)?;
    let sd_original = Fault::between("original_sd_mm", measured.original_sd_mm, 0.0, 10.0)?;
    let sd_now = Fault::between("measured_sd_mm", measured.measured_sd_mm, 0.0, 10.0)?;
    let z = normal_quantile(0.5 + confidence_checked(confidence)? / 2.0);
    let sd_loss = sd_original.hypot(sd_now);
    let loss = original - now;
    if loss < -3.0 * sd_loss {
        let why = format!("this is larger than the original {original} mm by more than the error of measuring");
        return Err(Fault::value("measured_mm", now, why, format!("a diameter up to {original} mm")));
    }
    let mut cautions = Vec::new();
    if loss < 0.0 {
        cautions.push(
            "The diameter measures larger than new, within the error of measuring: no loss is shown. Look for scale \
             under the calliper."
                .to_owned(),
        );
    } else if loss < z * sd_loss {
        cautions.push("The loss is within the error of measuring: the rate may be nothing at all.".to_owned());
    }
    let rate =
        Interval { estimate: loss / years, lower: (loss - z * sd_loss) / years, upper: (loss + z * sd_loss) / years };
    let years_to_limit = match limit_mm {
        None => None,
        Some(limit) => {
            let limit = Fault::between("limit_mm", limit, 0.0, 400.0)?;
            if limit >= original {
                let accepted = format!("a diameter below {original} mm");
                return Err(Fault::value("limit_mm", limit, "the limit is not below the original diameter", accepted));
            }
            if now <= limit {
                cautions.push(format!("The limit of {limit} mm has been reached or passed."));
            }
            Some(ratio(now - limit, loss, (sd_now, sd_loss, -sd_now * sd_now), z, years))
        }
    };
    cautions.push(
        "A constant rate is assumed, and the place measured is assumed the worst: one good fastening says little about \
         the next."
            .to_owned(),
    );
    Ok(Wastage { rate_mm_per_year: rate, years_to_limit, cautions })
}

/// Returns the mean rate from several fastenings of one metal, age and place, with Student's interval for the
/// mean, and the interval that would hold the next one drawn.
///
/// # Errors
/// With fewer than two losses.
pub fn rate_of_several(losses_mm: &[f64], years: f64, confidence: f64) -> Result<(Interval, Interval), Fault> {
    let years = Fault::between("years", years, 0.01, 300.0)?;
    let confidence = confidence_checked(confidence)?;
    let n = losses_mm.len() as f64;
    if losses_mm.len() < 2 || losses_mm.iter().any(|l| !l.is_finite()) {
        return Err(Fault::Meaningless("At least two measured fastenings are needed for a spread.".to_owned()));
    }
    let mean = losses_mm.iter().sum::<f64>() / n;
    let sd = (losses_mm.iter().map(|l| (l - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
    let t = t_quantile(n - 1.0, 0.5 + confidence / 2.0);
    let around =
        |half: f64| Interval { estimate: mean / years, lower: (mean - half) / years, upper: (mean + half) / years };
    Ok((around(t * sd / n.sqrt()), around(t * sd * (1.0 + 1.0 / n).sqrt())))
}

/// Fieller's interval for years × a/b, floored at zero.
fn ratio(a: f64, b: f64, (sd_a, sd_b, cov): (f64, f64, f64), z: f64, years: f64) -> Interval {
    let (va, vb) = (sd_a * sd_a, sd_b * sd_b);
    let estimate = if b > 0.0 { (a / b).max(0.0) * years } else { f64::INFINITY };
    let (p, q, r) = (b * b - z * z * vb, a * b - z * z * cov, a * a - z * z * va);
    // (b² − z² s_b²) ρ² − 2 (ab − z² c) ρ + (a² − z² s_a²) ≤ 0
    let root = (q * q - p * r).max(0.0).sqrt();
    if p > 0.0 {
        let (lower, upper) = ((q - root) / p, (q + root) / p);
        return Interval { estimate, lower: lower.max(0.0) * years, upper: upper.max(0.0) * years };
    }
    // The denominator is not clear of nothing: the set has no upper end. Its lower end is the root between.
    let lower = if p.abs() < 1e-300 { r / (2.0 * q) } else { ((q - root) / p).max((q + root) / p) };
    let lower = if lower.is_finite() && r > 0.0 { lower.max(0.0) * years } else { 0.0 };
    Interval { estimate, lower, upper: f64::INFINITY }
}

fn confidence_checked(confidence: f64) -> Result<f64, Fault> {
    Fault::between("confidence", confidence, 0.5, 0.9999)
}
