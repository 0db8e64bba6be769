//! How many to draw for a stated assurance, exactly.

use super::hypergeometric::Hypergeometric;
use crate::Fault;

/// Greatest population reckoned with.
pub const GREATEST_POPULATION: u64 = 1_000_000;

/// Returns the smallest draw n from `population` such that, if no more than `bad_allowed` bad ones are found, it
/// can be said with assurance `confidence` that at most the share `bad_at_most` of all is bad.
///
/// Exact: with D = ⌊q N⌋ + 1, the smallest n whose chance of showing no more than the allowed bad ones when D are
/// bad is at most 1 − C (hypergeometric).
///
/// # Errors
/// When a figure is out of range, or when so many bad are allowed that even drawing all would not tell.
pub fn size(population: u64, confidence: f64, bad_at_most: f64, bad_allowed: u64) -> Result<u64, Fault> {
    population_checked(population)?;
    let confidence = confidence_checked(confidence)?;
    let least_bad = least_bad(population, bad_at_most)?;
    if bad_allowed >= least_bad {
        let accepted = format!("a whole number below {least_bad}");
        let why = format!(
            "with so many bad found, more than the share asked about is already bad: {least_bad} of {population} are"
        );
        return Err(Fault::value("expected_bad", bad_allowed as f64, why, accepted));
    }
    let shows =
        |drawn: u64| Hypergeometric { population, bad: least_bad, drawn }.cdf(bad_allowed) <= 1.0 - confidence + 1e-12;
    let (mut low, mut high) = (bad_allowed, population);
    // Drawing all finds every bad one, so the upper end always tells; the chance falls with every one drawn.
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if shows(middle) { high = middle } else { low = middle }
    }
    Ok(high)
}

/// Returns the draw from a population without end: the smallest n with chance of at most `bad_allowed` bad, when
/// the share `bad` is bad, at most 1 − C (binomial). For none bad it is ln(1 − C)/ln(1 − p), rounded up.
///
/// # Errors
/// When a figure is out of range.
pub fn size_without_end(confidence: f64, bad: f64, bad_allowed: u64) -> Result<u64, Fault> {
    let confidence = confidence_checked(confidence)?;
    let p = Fault::between("bad_at_most", bad, 1e-6, 0.999)?;
    // P(X ≤ c) = I_{1−p}(n − c, c + 1)
    let shows = |n: u64| {
        n > bad_allowed
            && crate::special::beta_cdf((n - bad_allowed) as f64, bad_allowed as f64 + 1.0, 1.0 - p)
                <= 1.0 - confidence + 1e-12
    };
    let mut high = bad_allowed + 1;
    while !shows(high) {
        high = high.saturating_mul(2);
        if high > 1 << 40 {
            return Err(Fault::Meaningless("No draw of a practicable size would tell that.".to_owned()));
        }
    }
    let mut low = bad_allowed;
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if shows(middle) { high = middle } else { low = middle }
    }
    Ok(high)
}

/// Returns the chance that a draw finds at least one bad when `bad` of the population are.
///
/// # Errors
/// When more is drawn or bad than there is.
pub fn chance_of_finding_one(population: u64, bad: u64, drawn: u64) -> Result<f64, Fault> {
    population_checked(population)?;
    counted("drawn", drawn, population)?;
    counted("bad", bad, population)?;
    Ok(Hypergeometric { population, bad, drawn }.at_least(1))
}

/// Returns how many bad there would be at least if more than the share `bad_at_most` were: ⌊q N⌋ + 1.
fn least_bad(population: u64, bad_at_most: f64) -> Result<u64, Fault> {
    let q = Fault::between("bad_at_most", bad_at_most, 0.0, 0.999_999)?;
    let least = (q * population as f64 + 1e-9).floor() as u64 + 1;
    if least > population {
        let why = "no number of bad ones among so few could exceed this share";
        return Err(Fault::value("bad_at_most", bad_at_most, why, "a smaller share, or a larger population"));
    }
    Ok(least)
}

pub(super) fn population_checked(population: u64) -> Result<(), Fault> {
    if population == 0 || population > GREATEST_POPULATION {
        let accepted = format!("a whole number from 1 to {GREATEST_POPULATION}");
        return Err(Fault::value("population", population as f64, "this is no population", accepted));
    }
    Ok(())
}

pub(super) fn confidence_checked(confidence: f64) -> Result<f64, Fault> {
    Fault::between("confidence", confidence, 0.5, 0.999_999)
}

pub(super) fn counted(name: &'static str, count: u64, population: u64) -> Result<(), Fault> {
    if count > population {
        let why = format!("this is more than the population of {population}");
        return Err(Fault::value(name, count as f64, why, format!("a whole number from 0 to {population}")));
    }
    Ok(())
}
