//! Exact intervals for the share that is bad.

use super::hypergeometric::Hypergeometric;
use super::sample::{confidence_checked, counted, population_checked};
use crate::Fault;
use crate::special::beta_quantile;

/// Lower and upper end of a share, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    /// Lower end.
    pub lower: f64,
    /// Upper end.
    pub upper: f64,
}

/// Returns the exact (Clopper–Pearson) two-sided interval for the share of bad in a population without end.
///
/// NIST/SEMATECH e-Handbook 7.2.4.2: lower Beta⁻¹(α/2; x, n − x + 1), upper Beta⁻¹(1 − α/2; x + 1, n − x). For a
/// draw without putting back it is wider than need be; [`counts`] is exact there.
///
/// # Errors
/// When none was drawn or more bad than drawn.
pub fn clopper_pearson(drawn: u64, bad: u64, confidence: f64) -> Result<Shares, Fault> {
    drawn_checked(drawn, bad)?;
    let alpha = 1.0 - confidence_checked(confidence)?;
    Ok(Shares { lower: lower_share(drawn, bad, alpha / 2.0), upper: upper_share(drawn, bad, alpha / 2.0) })
}

/// Returns the exact one-sided upper end for the share of bad in a population without end.
///
/// # Errors
/// As [`clopper_pearson`].
pub fn upper_bound(drawn: u64, bad: u64, confidence: f64) -> Result<f64, Fault> {
    drawn_checked(drawn, bad)?;
    Ok(upper_share(drawn, bad, 1.0 - confidence_checked(confidence)?))
}

/// Returns the exact two-sided interval for the number of bad in a population from which some were drawn
/// without putting back: all D for which neither tail of the hypergeometric is α/2 or less.
///
/// # Errors
/// When more was drawn than there is, or more bad than drawn.
pub fn counts(population: u64, drawn: u64, bad: u64, confidence: f64) -> Result<(u64, u64), Fault> {
    let alpha = 1.0 - confidence_checked(confidence)?;
    Ok((count_from(population, drawn, bad, alpha / 2.0)?, count_to(population, drawn, bad, alpha / 2.0)?))
}

/// Returns the exact one-sided upper end for the number of bad in the population.
///
/// # Errors
/// As [`counts`].
pub fn upper_count(population: u64, drawn: u64, bad: u64, confidence: f64) -> Result<u64, Fault> {
    count_to(population, drawn, bad, 1.0 - confidence_checked(confidence)?)
}

fn lower_share(drawn: u64, bad: u64, alpha: f64) -> f64 {
    if bad == 0 { 0.0 } else { beta_quantile(bad as f64, (drawn - bad) as f64 + 1.0, alpha) }
}

fn upper_share(drawn: u64, bad: u64, alpha: f64) -> f64 {
    if bad == drawn { 1.0 } else { beta_quantile(bad as f64 + 1.0, (drawn - bad) as f64, 1.0 - alpha) }
}

/// The greatest D for which drawing `bad` or fewer is likelier than α.
fn count_to(population: u64, drawn: u64, bad: u64, alpha: f64) -> Result<u64, Fault> {
    all_checked(population, drawn, bad)?;
    let likely = |d: u64| Hypergeometric { population, bad: d, drawn }.cdf(bad) > alpha;
    let (mut low, mut high) = (bad, population - (drawn - bad) + 1);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if likely(middle) { low = middle } else { high = middle }
    }
    Ok(low)
}

/// The least D for which drawing `bad` or more is likelier than α.
fn count_from(population: u64, drawn: u64, bad: u64, alpha: f64) -> Result<u64, Fault> {
    all_checked(population, drawn, bad)?;
    if bad == 0 {
        return Ok(0);
    }
    let likely = |d: u64| Hypergeometric { population, bad: d, drawn }.at_least(bad) > alpha;
    let (mut low, mut high) = (bad - 1, population - (drawn - bad));
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if likely(middle) { high = middle } else { low = middle }
    }
    Ok(high)
}

fn drawn_checked(drawn: u64, bad: u64) -> Result<(), Fault> {
    if drawn == 0 {
        return Err(Fault::value("drawn", 0.0, "none was drawn, which says nothing", "a whole number from 1"));
    }
    if bad > drawn {
        let why = format!("this is more than the {drawn} drawn");
        return Err(Fault::value("bad", bad as f64, why, format!("a whole number from 0 to {drawn}")));
    }
    Ok(())
}

pub(super) fn all_checked(population: u64, drawn: u64, bad: u64) -> Result<(), Fault> {
    population_checked(population)?;
    counted("drawn", drawn, population)?;
    drawn_checked(drawn, bad)
}
