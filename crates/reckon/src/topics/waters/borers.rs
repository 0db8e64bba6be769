//! `borers`: which borers are at work in which months, and what protection leaves of it.

use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::months;
use serde_json::{Map, Value, json};
use waters::Fault;
use waters::areas::{self, find};
use waters::borers::{Activity, SOURCES, activity, cautions};
use waters::fresh_water::{hauled_out, treatment};
use waters::protection::{Protection, of_wood, read};
use waters::year::Year;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "borers",
    title: "Borers by month",
    question: "When do the borers of these waters get at the wood, and what does her protection leave of it?",
    version: 1,
    flags: &[
        Flag::optional("area", "sea area, by name", FlagKind::Words),
        Flag::optional("monthly", "a series of your own: CSV with month, temp_c, salinity_psu", FlagKind::TextFile),
        Flag::optional(
            "salinity-psu",
            "salinity measured at the mooring; goes before the area's",
            FlagKind::Number { unit: "psu", least: 0.0, greatest: 70.0 },
        ),
        Flag::or("protection", "what stands between water and wood", FlagKind::Choice(&Protection::WORDS), "none"),
        Flag::optional(
            "broken-chance-percent",
            "chance that the barrier is broken somewhere, as you judge it",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 100.0 },
        ),
        Flag::optional("species", "wood below the water", FlagKind::Words),
        Flag::optional(
            "fresh-days",
            "days of a stay in fresher water",
            FlagKind::Number { unit: "days", least: 0.0, greatest: 3660.0 },
        ),
        Flag::or(
            "fresh-psu",
            "salinity of that water",
            FlagKind::Number { unit: "psu", least: 0.0, greatest: 70.0 },
            "0",
        ),
    ],
    figures: &[
        Figure { key: "active_months", label: "months active (1 January)", unit: "", decimals: 0 },
        Figure { key: "months_least", label: "fewest months by the strictest limits", unit: "", decimals: 0 },
        Figure { key: "months_most", label: "most months by the widest limits", unit: "", decimals: 0 },
        Figure { key: "index", label: "months of full activity", unit: "", decimals: 1 },
        Figure { key: "exposure", label: "exposure of the waters", unit: "", decimals: 0 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
        Figure { key: "share_low", label: "share of it that reaches the wood, from", unit: "", decimals: 2 },
        Figure { key: "share_high", label: "to", unit: "", decimals: 2 },
        Figure { key: "reasons", label: "reasons", unit: "", decimals: 0 },
        Figure { key: "recorded", label: "recorded there", unit: "", decimals: 0 },
        Figure { key: "fresh_water", label: "the stay in fresher water", unit: "", decimals: 0 },
    ],
    equation: "monthly scores: shipworm ramp(S, 8, 9) · ramp(T, 11, 15); gribble ramp(S, S₀(T), 35) · warmth; a screening of our own \
               on published limits",
    sources: &SOURCES,
    not_covered: &[
        "Attack that is already in her; it goes on and hides.",
        "Pholads, Sphaeroma, cold-water shipworms, warm outfalls.",
    ],
    example: &[("area", "Kattegat"), ("protection", "copper-intact"), ("species", "white oak"), ("fresh-days", "10")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let area = inputs.words("area").filter(|name| !name.trim().is_empty());
    let area = area.map(find).transpose().map_err(refusal)?;
    let mut year = match (inputs.words("monthly"), area) {
        (Some(text), _) => Year::from_csv(text).map_err(refusal)?,
        (None, Some(area)) => area.year(),
        (None, None) => {
            let accepted = "the name of a built-in sea area, or --monthly with a series of your own";
            return Err(Refusal::Missing { flag: "area".to_owned(), accepted: accepted.to_owned() });
        }
    };
    if let Some(salinity) = inputs.number("salinity-psu") {
        year = year.with_salinity(salinity).map_err(refusal)?;
    }
    let kinds = activity(&year);
    let worst = if kinds[1].index() > kinds[0].index() { &kinds[1] } else { &kinds[0] };
    let word = inputs.need_words("protection")?;
    let protection = Protection::from_word(word).unwrap_or(Protection::None);
    let left = read(worst, protection, inputs.number("broken-chance-percent")).map_err(refusal)?;
    let by = |f: &dyn Fn(&Activity) -> Value| -> Map<String, Value> {
        kinds.iter().map(|kind| (kind.name.to_owned(), f(kind))).collect()
    };
    let mut reasons: Vec<String> = kinds.iter().take(2).map(|kind| kind.reason.to_owned()).collect();
    reasons.extend(left.reasons);
    let mut answer = Answer::new()
        .with("active_months", by(&|kind| json!(kind.months())))
        .with("months_least", by(&|kind| json!(kind.months_least())))
        .with("months_most", by(&|kind| json!(kind.months_most())))
        .with("index", by(&|kind| json!(kind.index())))
        .with("exposure", left.exposure)
        .with("share_low", left.share_low)
        .with("share_high", left.share_high);
    let mut reading = left.reading;
    if let Some(name) = inputs.words("species").filter(|name| !name.trim().is_empty()) {
        let wood = timber::species::find(name).map_err(|unknown| {
            let accepted = format!("a wood of the table, the nearest being {}", unknown.nearest.join(", "));
            Refusal::value("species", unknown.name, "this is not a wood in the table", accepted)
        })?;
        match of_wood(wood.id) {
            Some(fact) => reasons.push(fact.to_owned()),
            None => reasons.push(format!("Nothing published was found here on {} and borers.", wood.common)),
        }
    }
    if let Some(area) = area.filter(|_| inputs.words("monthly").is_none()) {
        if !area.published_borers.0.is_empty() {
            answer = answer.with("recorded", format!("{} ({})", area.published_borers.0, area.published_borers.1));
        }
        if let Some(animal) = area.cold_water_shipworm() {
            reading.push_str(&format!(" A cold-water shipworm ({animal}) may be at work besides."));
        }
        for caution in area.cautions() {
            answer = answer.caution(caution);
        }
        answer.sources = SOURCES.iter().chain(&areas::SOURCES).map(|s| (*s).to_owned()).collect();
    }
    answer = answer.with("reading", reading).with("reasons", reasons);
    if let Some(days) = inputs.number("fresh-days") {
        let stay = treatment(inputs.need_number("fresh-psu")?, days).map_err(refusal)?;
        answer = answer.with("fresh_water", format!("{} {} {}", stay.gribble, stay.shipworm, hauled_out()));
    }
    for caution in cautions() {
        answer = answer.caution(caution);
    }
    let rows: Vec<(String, [f64; 12])> =
        kinds.iter().map(|kind| (short_name(kind.name).to_owned(), kind.score)).collect();
    let place = area.map_or("the waters given", |area| area.name);
    Ok(answer.sheet(months(
        "Borers by month",
        &format!(
            "How active borers are in each month in {place}: an empty cell none, a full one as active as they get."
        ),
        &rows,
    )))
}

fn short_name(name: &str) -> &'static str {
    match name {
        "shipworm" => "shipworm settles",
        "gribble" => "gribble bores",
        "gribble_warm_breeding" => "warm gribble breeds",
        _ => "cold gribble breeds",
    }
}

fn refusal(fault: Fault) -> Refusal {
    match fault {
        Fault::Value { field, value, accepted } => {
            Refusal::value(&field.replace('_', "-"), value, "this is out of range", accepted)
        }
        Fault::Table { line, why, accepted } => {
            Refusal::value("monthly", format!("line {line}"), why, format!("a CSV file {accepted}"))
        }
        Fault::UnknownArea { name, nearest } => Refusal::value(
            "area",
            name,
            "this is not one of the built-in sea areas, or it is several",
            format!("one of them, the nearest being {}, or --monthly with a series of your own", nearest.join("; ")),
        ),
        other => Refusal::Meaningless(other.to_string()),
    }
}
