//! What a draw says, in figures and in the one sentence that the report may print.

use super::interval::{Shares, all_checked, clopper_pearson, counts, upper_bound, upper_count};
use super::posterior::{BetaBinomial, Prior};
use super::sample::confidence_checked;
use super::zone::Zone;
use crate::Fault;

/// How those drawn were chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// At random from the whole population; bounds may be given.
    Random,
    /// Where it looked worst, or was easiest: no bounds, only what was found.
    Judgement,
}

/// A draw from one population.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draw {
    /// Fastenings in all.
    pub population: u64,
    /// Drawn.
    pub drawn: u64,
    /// Bad among those drawn.
    pub bad: u64,
    /// How they were chosen.
    pub choice: Choice,
}

/// What a draw says.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// Share of those drawn that was bad.
    pub estimate: f64,
    /// Exact two-sided interval (Clopper–Pearson) for the share; `None` for a draw by judgement.
    pub shares: Option<Shares>,
    /// Exact one-sided upper end for the share in a population without end.
    pub upper_share: Option<f64>,
    /// Exact two-sided interval for the number of bad in this population.
    pub counts: Option<(u64, u64)>,
    /// Exact one-sided upper end for the number of bad in this population.
    pub upper_count: Option<u64>,
    /// Expected number of bad in all, by the posterior.
    pub posterior_mean: Option<f64>,
    /// The number of bad in all not exceeded with the confidence asked for, by the posterior.
    pub posterior_upper: Option<u64>,
    /// The sentence for the report: just what the draw supports.
    pub statement: String,
    /// What drawing more would add.
    pub more: Vec<More>,
}

/// What so many more would add.
#[derive(Clone, Debug, PartialEq)]
pub struct More {
    /// How many more.
    pub more: u64,
    /// Chance that all of them are good, by the posterior.
    pub chance_all_good: f64,
    /// If all are good: the most of the population that may be bad, one-sided.
    pub bad_at_most_if_all_good: u64,
    /// In a sentence.
    pub sentence: String,
}

/// Says what a draw says.
///
/// # Errors
/// When more was drawn than there is, or more bad than drawn.
pub fn result(draw: &Draw, confidence: f64, prior: Prior) -> Result<Said, Fault> {
    all_checked(draw.population, draw.drawn, draw.bad)?;
    confidence_checked(confidence)?;
    let estimate = draw.bad as f64 / draw.drawn as f64;
    if draw.choice == Choice::Judgement {
        return Ok(Said {
            estimate,
            shares: None,
            upper_share: None,
            counts: None,
            upper_count: None,
            posterior_mean: None,
            posterior_upper: None,
            statement: by_judgement(draw),
            more: Vec::new(),
        });
    }
    let upper = upper_count(draw.population, draw.drawn, draw.bad, confidence)?;
    let between = counts(draw.population, draw.drawn, draw.bad, confidence)?;
    let posterior = BetaBinomial::after(prior, draw.population, draw.drawn, draw.bad)?;
    Ok(Said {
        estimate,
        shares: Some(clopper_pearson(draw.drawn, draw.bad, confidence)?),
        upper_share: Some(upper_bound(draw.drawn, draw.bad, confidence)?),
        counts: Some(between),
        upper_count: Some(upper),
        posterior_mean: Some(draw.bad as f64 + posterior.mean()),
        posterior_upper: Some(draw.bad + posterior.quantile(confidence)),
        statement: at_random(draw, confidence, between, upper),
        more: more(draw, confidence, posterior)?,
    })
}

/// Zones put together.
#[derive(Clone, Debug, PartialEq)]
pub struct Together {
    /// Estimate of bad in all, each zone weighted by its size; `None` when a zone had none drawn.
    pub estimate: Option<f64>,
    /// The most that may be bad in all, one-sided, holding at the confidence asked for whatever the zones are:
    /// the sum of zone bounds, each at 1 − α/H (Bonferroni).
    pub upper: u64,
    /// Expected bad in all by the posterior, zones independent.
    pub posterior_mean: f64,
    /// Number of bad in all not exceeded with the confidence, by the posterior.
    pub posterior_upper: u64,
    /// The worst zone: that with the largest share of bad among those drawn, or none drawn.
    pub worst: Zone,
    /// Sentences: each zone's, then the whole's.
    pub statements: Vec<String>,
}

/// Puts zones together without letting good ones dilute a bad one: each is said first.
///
/// # Errors
/// When no zone is given, a draw is by judgement, or a zone's figures are out of range.
pub fn together(zones: &[(Zone, Draw)], confidence: f64, prior: Prior) -> Result<Together, Fault> {
    confidence_checked(confidence)?;
    let drawn: Vec<_> = zones.iter().filter(|(_, d)| d.drawn > 0).collect();
    let (Some(first), false) = (zones.first(), drawn.is_empty()) else {
        return Err(Fault::Meaningless("No zone with any fastening drawn was given.".to_owned()));
    };
    let all: u64 = zones.iter().map(|(_, d)| d.population).sum();
    super::sample::population_checked(all)?;
    let each = 1.0 - (1.0 - confidence) / drawn.len() as f64;
    let (mut upper, mut posterior_mean, mut weighted) = (0, 0.0, 0.0);
    let mut chances = vec![1.0];
    let mut statements = Vec::new();
    for (zone, draw) in zones {
        if draw.choice == Choice::Judgement {
            let name = zone.in_words();
            return Err(Fault::Meaningless(format!(
                "The draw at the {name} was by judgement: it cannot be put together with random ones."
            )));
        }
        let left = if draw.drawn == 0 {
            super::sample::population_checked(draw.population)?;
            statements.push(format!("{}: none drawn; nothing is known of its {}.", title(*zone), draw.population));
            upper += draw.population;
            BetaBinomial { left: draw.population, bad: prior.bad, good: prior.good }
        } else {
            let said = result(draw, confidence, prior)?;
            statements.push(format!("{}: {}", title(*zone), said.statement));
            upper += upper_count(draw.population, draw.drawn, draw.bad, each)?;
            weighted += said.estimate * draw.population as f64;
            BetaBinomial::after(prior, draw.population, draw.drawn, draw.bad)?
        };
        posterior_mean += draw.bad as f64 + left.mean();
        chances = convolved(&chances, &left);
    }
    let found: u64 = zones.iter().map(|(_, d)| d.bad).sum();
    let estimate = (drawn.len() == zones.len()).then_some(weighted);
    let posterior_upper = found + quantile(&chances, confidence);
    let share = |d: &Draw| if d.drawn == 0 { 1.5 } else { d.bad as f64 / d.drawn as f64 };
    let worst = zones.iter().max_by(|a, b| share(&a.1).total_cmp(&share(&b.1))).unwrap_or(first).0;
    statements.push(format!(
        "All zones: with {} assurance no more than {upper} of {all} ({}) are bad. The figure for the whole hull does not \
         speak for any one zone; the {} are the worst.",
        percent(confidence),
        percent(upper as f64 / all as f64),
        worst.in_words()
    ));
    Ok(Together { estimate, upper, posterior_mean, posterior_upper, worst, statements })
}

fn title(zone: Zone) -> String {
    let words = zone.in_words();
    words[..1].to_uppercase() + &words[1..]
}

fn convolved(chances: &[f64], left: &BetaBinomial) -> Vec<f64> {
    let more: Vec<f64> = (0..=left.left).map(|k| left.pmf(k)).collect();
    let mut sum = vec![0.0; chances.len() + more.len() - 1];
    for (i, a) in chances.iter().enumerate().filter(|(_, a)| **a > 1e-18) {
        for (j, b) in more.iter().enumerate() {
            sum[i + j] += a * b;
        }
    }
    sum
}

fn quantile(chances: &[f64], p: f64) -> u64 {
    let mut sum = 0.0;
    for (k, chance) in chances.iter().enumerate() {
        sum += chance;
        if sum >= p - 1e-12 {
            return k as u64;
        }
    }
    chances.len() as u64 - 1
}

fn at_random(draw: &Draw, confidence: f64, (least, greatest): (u64, u64), upper: u64) -> String {
    let Draw { population, drawn, bad, .. } = *draw;
    let assurance = percent(confidence);
    let share = |n: u64| percent(n as f64 / population as f64);
    let were = if drawn == 1 { "1 was drawn" } else { &format!("{drawn} were drawn") };
    let head = format!("Of {population} fastenings {were}, picked at random, and {} bad", found(bad));
    if drawn == population {
        return format!("{head}. All were drawn, so that is the whole of them.");
    }
    if bad == 0 {
        return format!(
            "{head}. With {assurance} assurance that supports saying that no more than {upper} of the {population} \
             ({}) are bad; it does not show that none is.",
            share(upper)
        );
    }
    format!(
        "{head} ({}). With {assurance} assurance between {least} and {greatest} of the {population} ({} to {}) are bad.",
        percent(bad as f64 / drawn as f64),
        share(least),
        share(greatest)
    )
}

fn by_judgement(draw: &Draw) -> String {
    let Draw { population, drawn, bad, .. } = *draw;
    format!(
        "Of {population} fastenings {drawn} were drawn where judgement pointed, not at random, and {} bad: worst found. \
         No share of the rest can be reckoned from them.",
        found(bad)
    )
}

fn found(bad: u64) -> String {
    match bad {
        0 => "none was".to_owned(),
        1 => "1 was".to_owned(),
        n => format!("{n} were"),
    }
}

fn more(draw: &Draw, confidence: f64, posterior: BetaBinomial) -> Result<Vec<More>, Fault> {
    let left = draw.population - draw.drawn;
    let mut rows = Vec::new();
    for more in [4, 8, 16, 32].into_iter().filter(|more| *more <= left) {
        let next = BetaBinomial { left: more, ..posterior };
        let chance_all_good = next.pmf(0);
        let bound = upper_count(draw.population, draw.drawn + more, draw.bad, confidence)?;
        let sentence = format!(
            "{more} more, if all are good (chance {}), would bring the most that may be bad to {bound} of {} ({}).",
            percent(chance_all_good),
            draw.population,
            percent(bound as f64 / draw.population as f64)
        );
        rows.push(More { more, chance_all_good, bad_at_most_if_all_good: bound, sentence });
    }
    Ok(rows)
}

/// Writes a share as percent, one decimal unless it is whole.
fn percent(share: f64) -> String {
    let value = share * 100.0;
    if (value - value.round()).abs() < 1e-9 { format!("{value:.0} %") } else { format!("{value:.1} %") }
}
