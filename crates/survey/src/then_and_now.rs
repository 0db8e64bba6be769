//! Two surveys of one boat side by side: each member then and now, and what was measured twice, with its uncertainty.

use crate::payload::Condition;
use crate::{Cover, MemberCover, Place, Reading, State, coverage};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// A member in two surveys.
#[derive(Clone, Debug, PartialEq)]
pub struct MemberThenNow {
    /// Its name in the record.
    pub member: String,
    /// What it is called.
    pub name: String,
    /// How far it was covered, then and now; `None` where the boat was not said to have it.
    pub cover: (Option<Cover>, Option<Cover>),
    /// The worst condition found, then and now.
    pub condition: (Option<Condition>, Option<Condition>),
    /// Headings of its findings, then and now.
    pub findings: (Vec<String>, Vec<String>),
}

/// Readings of one kind on one member in one survey.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// How many.
    pub count: usize,
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation; `None` for a single one.
    pub sd: Option<f64>,
}

/// What was measured in both surveys.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// The member's name in the record.
    pub member: String,
    /// What it is called.
    pub name: String,
    /// What was measured: `moisture reading`, `fastening, share of its diameter left`, or the quantity as entered.
    pub quantity: String,
    /// Its unit.
    pub unit: String,
    /// Then.
    pub then: Sample,
    /// Now.
    pub now: Sample,
    /// Pairs of readings at the same place, where there are any; the change is then reckoned place by place.
    pub pairs: usize,
    /// Change, now less then.
    pub change: f64,
    /// Half the width of the interval that holds the change with 95 % confidence; `None` where a single reading leaves it
    /// unknown.
    pub within: Option<f64>,
    /// Change in a year, and half its interval, where both days are known and lie apart.
    pub per_year: Option<(f64, Option<f64>)>,
}

impl Trend {
    /// Tells whether the change stands out of its own scatter: zero lies outside the interval.
    pub fn stands_out(&self) -> Option<bool> {
        self.within.map(|within| self.change.abs() > within)
    }
}

/// Returns each member of which either survey says something, in the order of the later one.
pub fn members_then_and_now(then: &State, now: &State) -> Vec<MemberThenNow> {
    let (before, after) = (coverage(then), coverage(now));
    let said = |c: &MemberCover| c.cover != Cover::Owed || !c.findings.is_empty();
    let titles = |state: &State, cover: Option<&MemberCover>| -> Vec<String> {
        let ids = cover.map(|c| c.findings.as_slice()).unwrap_or_default();
        ids.iter()
            .filter_map(|id| state.find::<crate::payload::Finding>(*id))
            .map(|f| f.payload.title.clone())
            .collect()
    };
    let mut order: Vec<(&str, &str)> = after.iter().map(|c| (c.member.id.as_str(), c.member.name.as_str())).collect();
    for c in &before {
        if !order.iter().any(|(id, _)| *id == c.member.id) {
            order.push((&c.member.id, &c.member.name));
        }
    }
    let of = |covers: &'_ [MemberCover], id: &str| covers.iter().position(|c| c.member.id == id);
    let mut out = Vec::new();
    for (id, name) in order {
        let b = of(&before, id).map(|i| &before[i]);
        let a = of(&after, id).map(|i| &after[i]);
        if !b.is_some_and(said) && !a.is_some_and(said) {
            continue;
        }
        out.push(MemberThenNow {
            member: id.to_owned(),
            name: name.to_owned(),
            cover: (b.map(|c| c.cover), a.map(|c| c.cover)),
            condition: (b.and_then(|c| c.condition), a.and_then(|c| c.condition)),
            findings: (titles(then, b), titles(now, a)),
        });
    }
    out
}

/// One measured value with its place.
struct Measured {
    place: Place,
    value: f64,
}

/// Key of what was measured: member, quantity, unit.
type Kind = (String, String, String);

fn measured(state: &State) -> BTreeMap<Kind, Vec<Measured>> {
    let mut out: BTreeMap<Kind, Vec<Measured>> = BTreeMap::new();
    for o in state.observations() {
        let (quantity, unit, value) = match &o.payload.reading {
            Reading::Moisture { reading_percent, .. } => {
                ("moisture reading".to_owned(), "%".to_owned(), *reading_percent)
            }
            Reading::Draw { original_mm: Some(original), measured_mm: Some(measured), .. } if *original > 0.0 => {
                ("fastening, share of its diameter left".to_owned(), "%".to_owned(), 100.0 * measured / original)
            }
            Reading::Measure { quantity, value, unit, .. } => (quantity.trim().to_lowercase(), unit.clone(), *value),
            _ => continue,
        };
        let key = (o.payload.member.clone(), quantity, unit);
        out.entry(key).or_default().push(Measured { place: o.payload.place.clone(), value });
    }
    out
}

/// Returns what was measured in both surveys, by member and quantity.
pub fn trends(then: &State, now: &State) -> Vec<Trend> {
    let (before, after) = (measured(then), measured(now));
    let names: BTreeMap<String, String> = coverage(now).into_iter().map(|c| (c.member.id, c.member.name)).collect();
    let years = years_between(last_day(then), last_day(now));
    let mut out = Vec::new();
    for (key, early) in &before {
        let Some(late) = after.get(key) else { continue };
        let pairs: Vec<f64> = early
            .iter()
            .filter(|e| !e.place.is_empty())
            .filter_map(|e| late.iter().find(|l| l.place == e.place).map(|l| l.value - e.value))
            .collect();
        let (then, now) = (sample(early.iter().map(|m| m.value)), sample(late.iter().map(|m| m.value)));
        let (change, within) =
            if pairs.is_empty() { (now.mean - then.mean, unpaired(&then, &now)) } else { paired(&pairs) };
        let (member, quantity, unit) = key.clone();
        out.push(Trend {
            name: names.get(&member).cloned().unwrap_or_else(|| member.replace('-', " ")),
            member,
            quantity,
            unit,
            then,
            now,
            pairs: pairs.len(),
            change,
            within,
            per_year: years.map(|years| (change / years, within.map(|within| within / years))),
        });
    }
    out
}

/// Returns the last day of a survey.
fn last_day(state: &State) -> Option<Date> {
    state.conditions().filter_map(|c| c.payload.date).max()
}

/// Returns the years between two days, when they lie at least a month apart.
fn years_between(then: Option<Date>, now: Option<Date>) -> Option<f64> {
    let days = then?.until((jiff::Unit::Day, now?)).ok()?.get_days();
    (days >= 28).then(|| f64::from(days) / 365.25)
}

fn sample(values: impl Iterator<Item = f64>) -> Sample {
    let values: Vec<f64> = values.collect();
    let mean = mean(&values);
    Sample { count: values.len(), mean, sd: variance(&values, mean).map(f64::sqrt) }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Returns the variance with the divisor n − 1; `None` for a single value.
fn variance(values: &[f64], mean: f64) -> Option<f64> {
    (values.len() > 1).then(|| values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (values.len() - 1) as f64)
}

/// Returns the mean of differences at the same places and half its 95 % interval (Student's t, one sample).
fn paired(differences: &[f64]) -> (f64, Option<f64>) {
    let change = mean(differences);
    let n = differences.len();
    let within = variance(differences, change).map(|v| t_975(n - 1) * (v / n as f64).sqrt());
    (change, within)
}

/// Returns half the 95 % interval of the difference of two means: Welch's t, with the degrees of freedom of Welch and
/// Satterthwaite rounded down.
fn unpaired(then: &Sample, now: &Sample) -> Option<f64> {
    let part = |s: &Sample| s.sd.map(|sd| sd * sd / s.count as f64);
    let (a, b) = (part(then)?, part(now)?);
    let squares = a * a / (then.count - 1) as f64 + b * b / (now.count - 1) as f64;
    if squares <= 0.0 {
        return Some(0.0);
    }
    let freedom = ((a + b) * (a + b) / squares).floor().max(1.0);
    Some(t_975(freedom as usize) * (a + b).sqrt())
}

/// The 97.5 % point of Student's t by degrees of freedom from 1 to 30, then for 40, 60 and 120: NIST/SEMATECH e-Handbook of
/// Statistical Methods, 1.3.6.7.2. Between rows the one of fewer degrees is taken, which widens the interval.
const T_975: [f64; 30] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131, 2.120,
    2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042,
];

fn t_975(freedom: usize) -> f64 {
    match freedom {
        0 => f64::INFINITY,
        1..=30 => T_975[freedom - 1],
        31..=39 => 2.042,
        40..=59 => 2.021,
        60..=119 => 2.000,
        _ => 1.980,
    }
}
