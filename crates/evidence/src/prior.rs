//! What was to be expected of a place before anything was seen.

use crate::{Fault, PLANK_STATES, PlankState, table};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What is known of the boat and place. Everything may be left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Context {
    /// Age of the member in years.
    pub age_years: Option<f64>,
    /// `durable`, `moderately_durable` or `not_durable` heartwood.
    pub timber: Option<String>,
    /// `salt`, `brackish` or `fresh`.
    pub water: Option<String>,
    /// `good`, `fair` or `poor`.
    pub ventilation: Option<String>,
    /// `none`, `some` or `many`.
    pub deck_leaks_above: Option<String>,
    /// `good`, `fair` or `poor`.
    pub upkeep: Option<String>,
    /// `none_known`, `elsewhere`, `near_here` or `here`.
    pub known_repairs: Option<String>,
    /// `iron`, `galvanised_iron`, `bronze`, `copper` or `wood`.
    pub fastening_metal: Option<String>,
}

/// One step from the start to the prior, as shown to a reader.
#[derive(Clone, Debug, PartialEq)]
pub struct PriorFactor {
    /// What it is, e.g. `ventilation`.
    pub factor: String,
    /// Its level, e.g. `poor`.
    pub level: String,
    /// What each state was multiplied by, in the order of [`PLANK_STATES`]; shares for the start.
    pub multipliers: [f64; 7],
    /// What kind of figure it is.
    pub status: String,
    /// Source of the direction, or `common practice`.
    pub source: String,
}

#[derive(Clone, Debug, Deserialize)]
pub(crate) struct PriorRow {
    factor: String,
    level: String,
    sound: f64,
    surface_checks: f64,
    loose: f64,
    decayed: f64,
    iron_sick: f64,
    borer: f64,
    repaired: f64,
    status: String,
    direction_source: String,
}

/// Reads the steps there are.
pub(crate) fn read() -> Result<Vec<PriorRow>, Fault> {
    table::rows("prior.csv", include_str!("../data/prior.csv"))
}

/// Returns the prior of the plank's states and the steps that led to it.
pub(crate) fn prior(
    rows: &[PriorRow],
    given: Option<&BTreeMap<String, f64>>,
    context: Option<&Context>,
) -> Result<([f64; 7], Vec<PriorFactor>), Fault> {
    let start = match given {
        Some(given) => PriorFactor {
            factor: "start".to_owned(),
            level: "given".to_owned(),
            multipliers: checked(given)?,
            status: "given by the caller".to_owned(),
            source: "the caller".to_owned(),
        },
        None => taken(rows, "start", "any")?,
    };
    let mut steps = vec![start];
    for (factor, level) in context.map(levels).transpose()?.unwrap_or_default() {
        steps.push(taken(rows, factor, &level)?);
    }
    let mut prior = [1.0; 7];
    for step in &steps {
        for (share, multiplier) in prior.iter_mut().zip(step.multipliers) {
            *share *= multiplier;
        }
    }
    let total: f64 = prior.iter().sum();
    Ok((prior.map(|share| share / total), steps))
}

fn checked(given: &BTreeMap<String, f64>) -> Result<[f64; 7], Fault> {
    let mut prior = [0.0; 7];
    for (name, share) in given {
        let state = PlankState::named(name).ok_or_else(|| Fault::State {
            given: name.clone(),
            place: "the prior".to_owned(),
            accepted: PLANK_STATES.map(PlankState::name).join(", "),
        })?;
        if !(0.0..=1.0).contains(share) {
            return Err(Fault::Prior { why: format!("gives {name} a share of {share}") });
        }
        prior[state.index()] = *share;
    }
    let total: f64 = prior.iter().sum();
    // Shares written to two decimals may miss one by a little; percentages or forgotten states miss it by much.
    if (total - 1.0).abs() > 0.02 {
        return Err(Fault::Prior { why: format!("adds up to {total}") });
    }
    Ok(prior.map(|share| share / total))
}

fn levels(context: &Context) -> Result<Vec<(&'static str, String)>, Fault> {
    let mut levels = Vec::new();
    if let Some(years) = context.age_years {
        if !(0.0..=1000.0).contains(&years) {
            return Err(Fault::Context {
                factor: "age_years".to_owned(),
                given: years.to_string(),
                accepted: "a number from 0 to 1000".to_owned(),
            });
        }
        let level = match years {
            y if y < 10.0 => "under_10",
            y if y < 30.0 => "10_to_29",
            y if y < 60.0 => "30_to_59",
            _ => "60_or_more",
        };
        levels.push(("age_years", level.to_owned()));
    }
    let words = [
        ("timber", &context.timber),
        ("water", &context.water),
        ("ventilation", &context.ventilation),
        ("deck_leaks_above", &context.deck_leaks_above),
        ("upkeep", &context.upkeep),
        ("known_repairs", &context.known_repairs),
        ("fastening_metal", &context.fastening_metal),
    ];
    levels.extend(words.into_iter().filter_map(|(factor, level)| Some((factor, level.clone()?))));
    Ok(levels)
}

fn taken(rows: &[PriorRow], factor: &str, level: &str) -> Result<PriorFactor, Fault> {
    let of_factor: Vec<_> = rows.iter().filter(|row| row.factor == factor).collect();
    let row = of_factor.iter().find(|row| row.level == level).ok_or_else(|| {
        let accepted: Vec<_> = of_factor.iter().map(|row| row.level.as_str()).collect();
        Fault::Context { factor: factor.to_owned(), given: level.to_owned(), accepted: accepted.join(", ") }
    })?;
    Ok(PriorFactor {
        factor: row.factor.clone(),
        level: row.level.clone(),
        multipliers: [row.sound, row.surface_checks, row.loose, row.decayed, row.iron_sick, row.borer, row.repaired],
        status: row.status.clone(),
        source: row.direction_source.clone(),
    })
}
