//! Sharing a draw out over zones, by size, risk, and what it was agreed may be opened.

use super::interval::upper_count;
use super::zone::Zone;
use crate::Fault;

/// One zone to draw from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stratum {
    /// The zone.
    pub zone: Zone,
    /// Fastenings in it.
    pub population: u64,
    /// How many it was agreed may be drawn there; no more than the population.
    pub may_be_drawn: u64,
    /// Share thought bad beforehand, 0 to 1: the surveyor's guess.
    pub expected_bad: f64,
    /// Weight of a failure there; [`Zone::consequence`] unless the surveyor says otherwise.
    pub consequence: f64,
}

/// A zone with its share of the draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allotted {
    /// The zone.
    pub stratum: Stratum,
    /// How many to draw.
    pub draw: u64,
    /// If none of those is bad: the most of the zone that may be bad, at the confidence asked for.
    pub bad_at_most_if_none: u64,
}

/// Shares `total` out over zones in proportion to N √(p(1 − p)) times the consequence (Neyman's allocation,
/// weighted), at least `least_each` in each zone and never more than was agreed; what one zone cannot take goes to
/// the others. Weight and floor are conventions of this workbench.
///
/// # Errors
/// When a zone's figures are out of range, the floors ask for more than the total, or less than the total may be
/// drawn at all.
pub fn allocate(strata: &[Stratum], total: u64, least_each: u64, confidence: f64) -> Result<Vec<Allotted>, Fault> {
    if strata.is_empty() {
        return Err(Fault::Meaningless("No zone was given to draw from.".to_owned()));
    }
    for stratum in strata {
        super::sample::population_checked(stratum.population)?;
        super::sample::counted("may_be_drawn", stratum.may_be_drawn, stratum.population)?;
        Fault::between("expected_bad", stratum.expected_bad, 0.0, 1.0)?;
        Fault::between("consequence", stratum.consequence, 0.01, 100.0)?;
    }
    let open: u64 = strata.iter().map(|s| s.may_be_drawn).sum();
    if total > open {
        let why = format!("only {open} in all were agreed to be drawn");
        return Err(Fault::value(
            "sample_size",
            total as f64,
            why,
            format!("up to {open}, or ask for more to be opened"),
        ));
    }
    let mut draws: Vec<u64> = strata.iter().map(|s| least_each.min(s.may_be_drawn)).collect();
    let floor: u64 = draws.iter().sum();
    if floor > total {
        let why = format!("{least_each} in each zone that may be opened already makes {floor}");
        return Err(Fault::value("sample_size", total as f64, why, format!("{floor} or more, or a lower floor")));
    }
    let weights: Vec<f64> = strata.iter().map(weight).collect();
    fill(&mut draws, &weights, strata, total);
    let mut allotted = Vec::with_capacity(strata.len());
    for (stratum, draw) in strata.iter().zip(draws) {
        let bad_at_most_if_none =
            if draw == 0 { stratum.population } else { upper_count(stratum.population, draw, 0, confidence)? };
        allotted.push(Allotted { stratum: *stratum, draw, bad_at_most_if_none });
    }
    Ok(allotted)
}

/// N √(p(1 − p)) w. A share thought nothing or everything still counts as one in fifty, for it is only thought.
fn weight(stratum: &Stratum) -> f64 {
    let p = stratum.expected_bad.clamp(0.02, 0.98);
    stratum.population as f64 * (p * (1.0 - p)).sqrt() * stratum.consequence
}

/// Gives one at a time to the zone that is furthest behind its share and may still take one.
fn fill(draws: &mut [u64], weights: &[f64], strata: &[Stratum], total: u64) {
    let mut left = total - draws.iter().sum::<u64>();
    while left > 0 {
        let behind = |i: &usize| weights[*i] / (draws[*i] as f64 + 0.5);
        let next = (0..draws.len())
            .filter(|i| draws[*i] < strata[*i].may_be_drawn)
            .max_by(|a, b| behind(a).total_cmp(&behind(b)).then(b.cmp(a)));
        match next {
            Some(i) => draws[i] += 1,
            None => return,
        }
        left -= 1;
    }
}

/// Returns how many independent draws a draw in groups is worth: n/(1 + (m − 1) ρ), m drawn in each plank or
/// frame, ρ how alike they are (0 not at all, 1 wholly). Two drawn side by side are nearly one.
///
/// # Errors
/// When a figure is out of range.
pub fn effective_size(drawn: u64, in_each_group: f64, likeness: f64) -> Result<f64, Fault> {
    let m = Fault::between("in_each_group", in_each_group, 1.0, 1e6)?;
    let rho = Fault::between("likeness", likeness, 0.0, 1.0)?;
    Ok(drawn as f64 / (1.0 + (m - 1.0) * rho))
}
