//! `draw-plan`: how many fastenings to draw, where, which, and when to stop.

use super::lists::{table, whole};
use super::wood_flags::{refusal, refusal_as};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::draw::allocate::{Allotted, Stratum, allocate};
use fastening::draw::interval::upper_count;
use fastening::draw::patch::{self, Patch, Sides};
use fastening::draw::pick::{near_pairs, pick, places};
use fastening::draw::sample::{chance_of_finding_one, size, size_without_end};
use fastening::draw::sequential::Sequential;
use fastening::draw::zone::{Layout, Place, Zone};
use serde_json::{Value, json};

const COUNT: FlagKind = FlagKind::Count { least: 1, greatest: 1_000_000 };
const PERCENT: FlagKind = FlagKind::Number { unit: "%", least: 0.01, greatest: 99.0 };
const COLUMNS: [&str; 5] = ["zone", "population", "may_be_drawn", "expected_bad_percent", "consequence"];
const PATCH_COLUMNS: [&str; 7] = ["zone", "side", "strake_from", "strake_to", "frame_from", "frame_to", "per_frame"];

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "draw-plan",
    title: "How many fastenings to draw",
    question: "How many fastenings must be drawn, from which zones and which ones, to be so sure of what?",
    version: 2,
    flags: &[
        Flag::optional("population", "fastenings in all", COUNT),
        Flag::optional("strakes", "or by count: strakes in the zone", FlagKind::Count { least: 1, greatest: 60 }),
        Flag::optional("frames", "frames crossed", FlagKind::Count { least: 1, greatest: 500 }),
        Flag::or(
            "per-frame",
            "fastenings in each plank at each frame",
            FlagKind::Count { least: 1, greatest: 12 },
            "2",
        ),
        Flag::or("sides", "sides", FlagKind::Count { least: 1, greatest: 2 }, "2"),
        Flag::required(
            "confidence-percent",
            "assurance wanted",
            FlagKind::Number { unit: "%", least: 50.0, greatest: 99.99 },
        ),
        Flag::required(
            "bad-at-most-percent",
            "share of bad that must not be exceeded",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 99.0 },
        ),
        Flag::or("expected-bad", "bad ones that may be found", FlagKind::Count { least: 0, greatest: 1000 }, "0"),
        Flag::optional("may-be-drawn", "most that it is agreed may be drawn", COUNT),
        Flag::optional(
            "zones",
            "table of zones (CSV: zone, population, may_be_drawn, expected_bad_percent, consequence)",
            FlagKind::TextFile,
        ),
        Flag::optional(
            "patches",
            "where the zones lie, narrow ones first (CSV: zone, side, strake_from, strake_to, frame_from, frame_to, per_frame)",
            FlagKind::TextFile,
        ),
        Flag::or("least-each", "least in each zone", FlagKind::Count { least: 0, greatest: 100 }, "2"),
        Flag::optional(
            "seed",
            "seed of the picks: write it down before you look",
            FlagKind::Count { least: 0, greatest: 4_294_967_295 },
        ),
        Flag::optional("acceptable-percent", "stop early: share of bad that is acceptable", PERCENT),
        Flag::optional("unacceptable-percent", "stop early: share of bad that is not", PERCENT),
        Flag::or(
            "false-alarm-percent",
            "chance of calling acceptable bad",
            FlagKind::Number { unit: "%", least: 0.01, greatest: 50.0 },
            "5",
        ),
        Flag::or(
            "missed-percent",
            "chance of calling unacceptable good",
            FlagKind::Number { unit: "%", least: 0.01, greatest: 50.0 },
            "10",
        ),
    ],
    figures: &[
        Figure { key: "sample_size", label: "to draw", unit: "", decimals: 0 },
        Figure { key: "population", label: "fastenings in all", unit: "", decimals: 0 },
        Figure {
            key: "sample_size_without_end",
            label: "to draw from a population without end",
            unit: "",
            decimals: 0,
        },
        Figure { key: "statement", label: "what that would support", unit: "", decimals: 0 },
        Figure {
            key: "chance_of_finding_one_percent",
            label: "chance of finding one if that share is bad",
            unit: "%",
            decimals: 1,
        },
        Figure { key: "agreed", label: "what was agreed supports", unit: "", decimals: 0 },
        Figure { key: "allocation", label: "by zone", unit: "", decimals: 1 },
        Figure { key: "picks", label: "numbers to draw, in order", unit: "", decimals: 0 },
        Figure { key: "substitutes", label: "numbers to take for those that cannot be drawn", unit: "", decimals: 0 },
        Figure { key: "places", label: "where they are", unit: "", decimals: 0 },
        Figure { key: "substitute_places", label: "where the substitutes are", unit: "", decimals: 0 },
        Figure { key: "accept_at", label: "stop as acceptable: bad found, at number drawn", unit: "", decimals: 0 },
        Figure {
            key: "reject_up_to",
            label: "stop as not acceptable: bad found, up to number drawn",
            unit: "",
            decimals: 0,
        },
        Figure { key: "operating", label: "what the stopping plan does", unit: "", decimals: 3 },
    ],
    equation: "least n with P(X ≤ c | N, ⌊qN⌋ + 1 bad, n drawn) ≤ 1 − C, hypergeometric, exact",
    sources: &[
        "Hypergeometric distribution, exact",
        "Neyman (1934): allocation over strata; weights for consequence are a convention of this workbench",
        "Wald (1947), Sequential Analysis: stopping rule",
        "US Army TB 55-1900-201-45/1, 2-8: draw at random under water, at wind and water, stem and stern",
    ],
    not_covered: &[
        "Likeness of neighbours: fastenings of one plank, frame or batch are worth less than their number.",
        "Mixed metals and ages, which are separate populations. Numbers that an inspector may require: ask the flag state.",
    ],
    example: &[
        ("population", "400"),
        ("confidence-percent", "95"),
        ("bad-at-most-percent", "10"),
        ("seed", "1871"),
        ("acceptable-percent", "5"),
        ("unacceptable-percent", "20"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let layout = layout(inputs)?;
    let shell = inputs.words("patches").map(shell).transpose()?;
    let strata = match (inputs.words("zones"), &shell) {
        (Some(text), shell) => Some(strata(text, shell.as_deref())?),
        (None, Some(shell)) => Some(shell.iter().map(counted).collect()),
        (None, None) => None,
    };
    let population = population(inputs, layout.as_ref(), strata.as_deref())?;
    let confidence = inputs.need_number("confidence-percent")? / 100.0;
    let share = inputs.need_number("bad-at-most-percent")? / 100.0;
    let allowed = inputs.need_count("expected-bad")?;
    let named = |fault| match &fault {
        fastening::Fault::Value { name: "bad_at_most", .. } => refusal_as("bad-at-most-percent")(fault),
        _ => refusal(fault),
    };
    let n = size(population, confidence, share, allowed).map_err(named)?;
    let least_bad = (share * population as f64 + 1e-9).floor() as u64 + 1;
    let chance = chance_of_finding_one(population, least_bad, n).map_err(refusal)?;
    let (sure, most) = (inputs.need_number("confidence-percent")?, inputs.need_number("bad-at-most-percent")?);
    let found = if allowed == 0 { "none is bad".to_owned() } else { format!("no more than {allowed} are bad") };
    let mut answer = Answer::new()
        .with("sample_size", n)
        .with("population", population)
        .with_some("sample_size_without_end", size_without_end(confidence, share.max(1e-6), allowed).ok().filter(|_| share > 0.0))
        .with(
            "statement",
            format!("If {n} of {population} are drawn at random and {found}, that supports with {sure} % assurance that at most {most} % of them are bad."),
        )
        .with("chance_of_finding_one_percent", 100.0 * chance);
    let agreed = inputs.count("may-be-drawn").unwrap_or(n);
    if agreed < n && agreed > 0 {
        let bound = upper_count(population, agreed.min(population), 0, confidence).map_err(refusal)?;
        answer = answer.with(
            "agreed",
            format!(
                "{agreed} drawn and none bad support with {sure} % assurance only that no more than {bound} of {population} ({:.1} %) are bad.",
                100.0 * bound as f64 / population as f64
            ),
        );
    }
    let to_draw = n.min(agreed);
    let allotted = match &strata {
        Some(strata) => Some(allotted(inputs, strata, to_draw, confidence)?),
        None => None,
    };
    if let Some(zones) = &allotted {
        answer = answer.with("allocation", zones.iter().map(zone_row).collect::<Vec<_>>()).caution(
            "The draw is shared out over zones by weight: read each zone by itself. A stopping plan counts it as one plain draw of \
             the whole, which is only near enough.",
        );
    }
    answer = match &allotted {
        Some(zones) => zone_picks(answer, inputs, zones, shell.as_deref().unwrap_or_default())?,
        None => picks(answer, inputs, population, to_draw, layout.as_ref())?,
    };
    answer = stopping(answer, inputs, population, agreed)?;
    Ok(answer.caution(
        "The figures hold for a draw at random. A draw where it looks worst or is easiest supports only `worst found`. Drawing wants the \
         owner's consent in writing, the boat chocked, a replacement at hand.",
    ))
}

fn layout(inputs: &Inputs) -> Result<Option<Layout>, Refusal> {
    let (Some(strakes), Some(frames)) = (inputs.count("strakes"), inputs.count("frames")) else { return Ok(None) };
    let (per_frame, sides) = (inputs.need_count("per-frame")?, inputs.need_count("sides")?);
    Ok(Some(Layout { first_strake: 1, strakes, first_frame: 1, frames, per_frame, sides }))
}

fn population(inputs: &Inputs, layout: Option<&Layout>, strata: Option<&[Stratum]>) -> Result<u64, Refusal> {
    let given = inputs.count("population");
    let counted = match (layout, strata) {
        (_, Some(strata)) => Some(strata.iter().map(|s| s.population).sum()),
        (Some(layout), None) => Some(layout.population().map_err(refusal)?),
        (None, None) => None,
    };
    match (given, counted) {
        (Some(given), Some(counted)) if given != counted => Err(Refusal::value(
            "population",
            given,
            format!("the count comes to {counted}"),
            format!("{counted}, or leave it out"),
        )),
        (Some(n), _) | (None, Some(n)) => Ok(n),
        (None, None) => Err(Refusal::Missing {
            flag: "population".to_owned(),
            accepted: "the number of fastenings, or --strakes with --frames, or --zones".to_owned(),
        }),
    }
}

/// The zones of a shell, each with the places of its fastenings.
type Shell = Vec<(Zone, Vec<Place>)>;

fn shell(text: &str) -> Result<Shell, Refusal> {
    let rows = table("patches", text, &PATCH_COLUMNS)?;
    let patches = rows.iter().map(|row| {
        let count = |i: usize| whole("patches", &row[i], PATCH_COLUMNS[i]);
        Ok(Patch {
            zone: Zone::named(&row[0]).map_err(refusal_as("patches"))?,
            sides: Sides::named(&row[1]).map_err(refusal_as("patches"))?,
            strakes: (count(2)?, count(3)?),
            frames: (count(4)?, count(5)?),
            per_frame: if row[6].is_empty() { 2 } else { count(6)? },
        })
    });
    let patches: Vec<Patch> = patches.collect::<Result<_, Refusal>>()?;
    patch::zones(&patches).map_err(refusal_as("patches"))
}

/// A zone as counted from the shell, all of which may be drawn, one in five thought bad.
fn counted((zone, places): &(Zone, Vec<Place>)) -> Stratum {
    let population = places.len() as u64;
    Stratum { zone: *zone, population, may_be_drawn: population, expected_bad: 0.2, consequence: zone.consequence() }
}

fn strata(text: &str, shell: Option<&[(Zone, Vec<Place>)]>) -> Result<Vec<Stratum>, Refusal> {
    let stated: Vec<Stratum> = table("zones", text, &COLUMNS)?
        .iter()
        .map(|row| {
            let zone = Zone::named(&row[0]).map_err(refusal_as("zones"))?;
            let on_shell = shell.and_then(|s| s.iter().find(|(z, _)| *z == zone)).map(|(_, p)| p.len() as u64);
            let population = match on_shell {
                Some(on_shell) if row[1].is_empty() => on_shell,
                Some(on_shell) => match whole("zones", &row[1], "population")? {
                    given if given == on_shell => given,
                    given => {
                        let why = format!("by its patches the zone {} has {on_shell}", zone.id());
                        return Err(Refusal::value("zones", given, why, format!("{on_shell}, or leave it out")));
                    }
                },
                None => whole("zones", &row[1], "population")?,
            };
            let may_be_drawn = if row[2].is_empty() { population } else { whole("zones", &row[2], "may_be_drawn")? };
            let number = |cell: &str, default: f64| {
                if cell.is_empty() {
                    return Ok(default);
                }
                cell.parse::<f64>().map_err(|_| Refusal::value("zones", cell, "this is not a number", "a number"))
            };
            let expected_bad = number(&row[3], 20.0)? / 100.0;
            Ok(Stratum {
                zone,
                population,
                may_be_drawn,
                expected_bad,
                consequence: number(&row[4], zone.consequence())?,
            })
        })
        .collect::<Result<_, Refusal>>()?;
    // A zone of the shell that nothing is said of is drawn from all the same.
    let silent = shell.unwrap_or_default().iter().filter(|(zone, _)| !stated.iter().any(|s| s.zone == *zone));
    let silent: Vec<Stratum> = silent.map(counted).collect();
    Ok(stated.into_iter().chain(silent).collect())
}

fn allotted(inputs: &Inputs, strata: &[Stratum], to_draw: u64, confidence: f64) -> Result<Vec<Allotted>, Refusal> {
    let open: u64 = strata.iter().map(|s| s.may_be_drawn).sum();
    allocate(strata, to_draw.min(open), inputs.need_count("least-each")?, confidence).map_err(refusal)
}

fn zone_row(zone: &Allotted) -> Value {
    json!({
        "zone": zone.stratum.zone.id(),
        "population": zone.stratum.population,
        "draw": zone.draw,
        "bad_at_most_if_none": zone.bad_at_most_if_none,
        "bad_at_most_if_none_percent": 100.0 * zone.bad_at_most_if_none as f64 / zone.stratum.population as f64,
    })
}

const NO_SEED: &str =
    "No seed was given, so no picks were made: give --seed, written down before the boat is looked at.";
const NEVER_ITS_NEIGHBOUR: &str = "Every fastening has a number whether it is easy to reach or not. One that cannot be drawn is written down \
                                   with its reason and the next substitute taken, never its neighbour.";

/// Picks in each zone, with places when the shell is known.
fn zone_picks(
    answer: Answer,
    inputs: &Inputs,
    zones: &[Allotted],
    shell: &[(Zone, Vec<Place>)],
) -> Result<Answer, Refusal> {
    let Some(seed) = inputs.count("seed") else { return Ok(answer.caution(NO_SEED)) };
    let mut rows = Vec::new();
    for zone in zones {
        // Each zone has its own seed, so that a change in one leaves the picks of the others.
        let own = seed ^ (zone.stratum.zone as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
        let picks = pick(zone.stratum.population, zone.draw, 3, own).map_err(refusal)?;
        let places = shell.iter().find(|(z, _)| *z == zone.stratum.zone).map(|(_, places)| places);
        let located = |numbers: &[u64]| -> Vec<Value> {
            let at = |n: &u64| places?.get(usize::try_from(n.checked_sub(1)?).ok()?).map(place_json);
            numbers.iter().filter_map(at).collect()
        };
        let mut row = json!({"zone": zone.stratum.zone.id(), "draw": picks.draw, "substitutes": picks.substitutes});
        if places.is_some() {
            row["places"] = located(&picks.draw).into();
            row["substitute_places"] = located(&picks.substitutes).into();
        }
        rows.push(row);
    }
    Ok(answer.with("picks", rows).caution(NEVER_ITS_NEIGHBOUR))
}

fn place_json(place: &Place) -> Value {
    let side = if place.port { "port" } else { "starboard" };
    json!({"side": side, "strake": place.strake, "frame": place.frame, "row": place.row})
}

fn picks(
    answer: Answer,
    inputs: &Inputs,
    population: u64,
    to_draw: u64,
    layout: Option<&Layout>,
) -> Result<Answer, Refusal> {
    let Some(seed) = inputs.count("seed") else { return Ok(answer.caution(NO_SEED)) };
    let picks = pick(population, to_draw, 5, seed).map_err(refusal)?;
    let mut answer = answer.with("picks", picks.draw.clone()).with("substitutes", picks.substitutes.clone());
    if let Some(layout) = layout {
        let spare = places(&picks.substitutes, layout).map_err(refusal)?;
        let places = places(&picks.draw, layout).map_err(refusal)?;
        let near = near_pairs(&places);
        answer = answer
            .with("places", places.iter().map(place_json).collect::<Vec<_>>())
            .with("substitute_places", spare.iter().map(place_json).collect::<Vec<_>>());
        if near > 0 {
            answer = answer.caution(format!("{near} pairs of the picks lie in one plank at one frame or the next; they are worth less than their number."));
        }
    }
    Ok(answer.caution(NEVER_ITS_NEIGHBOUR))
}

fn stopping(answer: Answer, inputs: &Inputs, population: u64, agreed: u64) -> Result<Answer, Refusal> {
    let (Some(acceptable), Some(unacceptable)) =
        (inputs.number("acceptable-percent"), inputs.number("unacceptable-percent"))
    else {
        return Ok(answer);
    };
    let share = |flag: &str| inputs.need_number(flag).map(|n| n / 100.0);
    let cap = agreed.min(population);
    let plan = Sequential::new(
        acceptable / 100.0,
        unacceptable / 100.0,
        share("false-alarm-percent")?,
        share("missed-percent")?,
        cap,
    );
    let plan = plan.map_err(refusal_as("unacceptable-percent"))?;
    let rows = |pairs: Vec<(u64, u64)>| {
        pairs.into_iter().map(|(bad, drawn)| json!({"bad": bad, "drawn": drawn})).collect::<Vec<_>>()
    };
    let mut operating = Vec::new();
    for percent in [acceptable, unacceptable] {
        let bad = (percent / 100.0 * population as f64).round() as u64;
        let ends = plan.operating(population, bad).map_err(refusal)?;
        operating.push(json!({
            "if_bad_percent": percent, "acceptable": ends.acceptable, "unacceptable": ends.unacceptable,
            "undecided": ends.undecided, "mean_drawn": ends.mean_drawn,
        }));
    }
    Ok(answer
        .with("accept_at", rows(plan.accept_at()))
        .with("reject_up_to", rows(plan.reject_up_to()))
        .with("operating", operating)
        .caution(format!(
            "The stopping plan is cut off at {cap}: reached without an end it is undecided, and the interval is reported. After an early \
             stop the intervals of a fixed draw are only approximate."
        )))
}
