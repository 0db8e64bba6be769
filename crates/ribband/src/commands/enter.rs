//! `ribband enter`.

use super::{print, print_json};
use crate::arguments::{
    BriefArgs, ConditionsArgs, EnterArgs, EnterWhat, EstimateArgs, FindingArgs, FollowUpArgs, InstrumentArgs,
    MemberArgs, NotSeenArgs, ObservationArgs, RecommendationArgs, VesselArgs,
};
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use serde_json::{Map, Value, json};
use std::io::BufRead as _;
use survey::payload::Payload;
use survey::{Draft, Place, State};

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: EnterArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let survey = desk.choose(chosen)?;
    let planned = match args.what {
        EnterWhat::Lines => return lines(desk, chosen, &author, as_json),
        EnterWhat::Brief(args) => brief(&args)?,
        EnterWhat::Vessel(args) => vessel(&args)?,
        EnterWhat::Observation(args) => observation(&args)?,
        EnterWhat::NotSeen(args) => not_seen(&args)?,
        EnterWhat::Conditions(args) => conditions(&args)?,
        EnterWhat::Instrument(args) => instrument(&args)?,
        EnterWhat::Member(args) => member(&args)?,
        EnterWhat::Finding(args) => finding(&args, &desk.state(survey)?)?,
        EnterWhat::Recommendation(args) => recommendation(&args, &desk.state(survey)?)?,
        EnterWhat::EstimateLine(args) => estimate_line(&args, &desk.state(survey)?)?,
        EnterWhat::FollowUp(args) => follow_up(&args, &desk.state(survey)?)?,
    };
    let caution = planned.payload.caution();
    let entries = desk.write(survey, &author, &[planned])?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        let mut answer = json!({"survey": survey.to_string(), "entries": ids});
        if let Some(caution) = caution {
            answer["cautions"] = json!([caution]);
        }
        return print_json(&answer);
    }
    if let Some(caution) = caution {
        eprintln!("ribband: entered, but look again: {caution}");
    }
    for entry in entries {
        print(&format!("Entered {} {}.", entry.kind().replace('_', " "), entry.id.short()))?;
    }
    Ok(())
}

/// Reads drafts from standard input; all are checked before the first is written.
fn lines(desk: &mut Desk, chosen: Option<&str>, author: &str, as_json: bool) -> Result<(), Fault> {
    let survey = desk.choose(chosen)?;
    let mut planned = Vec::new();
    for (n, line) in std::io::stdin().lock().lines().enumerate() {
        let line = line?;
        if line.trim().is_empty() {
            continue;
        }
        let draft = Draft::read(&line).map_err(|fault| Fault::input(format!("line {}: {fault}", n + 1)))?;
        planned.push(Planned::from(draft));
    }
    let entries = desk.write(survey, author, &planned)?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        return print_json(&json!({"survey": survey.to_string(), "entries": ids}));
    }
    print(&format!("Entered {} entries.", entries.len()))
}

/// Makes a payload of what was typed, by way of the same reader that reads JSON lines, so that both refuse alike.
fn strict(kind: &str, value: Value) -> Result<Planned, Fault> {
    let payload = Payload::read_strict(kind, &without_nothings(value)).map_err(Fault::input)?;
    Ok(Planned { id: None, payload })
}

/// Leaves out what was not typed.
fn without_nothings(value: Value) -> Value {
    match value {
        Value::Object(map) => {
            let kept: Map<String, Value> = map
                .into_iter()
                .map(|(k, v)| (k, without_nothings(v)))
                .filter(|(_, v)| !v.is_null() && *v != json!("") && *v != json!([]) && *v != json!({}))
                .collect();
            Value::Object(kept)
        }
        other => other,
    }
}

fn place(args: &crate::arguments::PlaceArgs) -> Value {
    serde_json::to_value(Place::from(args)).unwrap_or(Value::Null)
}

pub fn brief(args: &BriefArgs) -> Result<Planned, Fault> {
    strict(
        "brief",
        json!({
            "purpose": args.purpose, "client": args.client, "addressees": args.addressee,
            "surveyor": args.surveyor, "qualification": args.qualification, "scope": args.scope,
            "excluded": args.excluded, "access_agreed": args.access_agreed, "opening_agreed": args.opening_agreed,
            "intended_use": args.intended_use, "intended_waters": args.intended_waters,
            "language": args.language,
        }),
    )
}

pub fn vessel(args: &VesselArgs) -> Result<Planned, Fault> {
    let mut counts = Map::new();
    for pair in &args.count {
        let (member, count) = pair
            .split_once('=')
            .and_then(|(member, count)| Some((member.trim(), count.trim().parse::<u32>().ok()?)))
            .ok_or_else(|| {
                Fault::input(format!("--count {pair}: accepted is a member and a number, as in strakes=11"))
            })?;
        counts.insert(member.to_owned(), json!(count));
    }
    strict(
        "vessel",
        json!({
            "name": args.name, "vessel_type": args.vessel_type, "construction": args.construction,
            "built_year": args.built_year, "builder": args.builder, "length_mm": args.length, "beam_mm": args.beam,
            "draft_mm": args.draft, "planking_species": args.planking_species,
            "planking_thickness_mm": args.planking_thickness, "frame_species": args.frame_species,
            "plank_fastening": args.plank_fastening, "keel_bolts": args.keel_bolts, "stern": args.stern,
            "counts": counts,
        }),
    )
}

fn observation(args: &ObservationArgs) -> Result<Planned, Fault> {
    let need = |flag: &str, value: &Option<String>| {
        value.clone().ok_or_else(|| Fault::input(format!("--method {} needs --{flag}", args.method)))
    };
    let need_number = |flag: &str, value: Option<f64>| {
        value.ok_or_else(|| Fault::input(format!("--method {} needs --{flag}", args.method)))
    };
    // What was typed for another method would otherwise be lost without a word.
    let method = args.method.as_str();
    let known = survey::Method::ALL.iter().any(|known| json!(known) == json!(method));
    let stray = args.readings_given().into_iter().find(|(_, methods)| !methods.contains(&method));
    if let Some((flag, methods)) = stray.filter(|_| known) {
        return Err(Fault::input(format!(
            "--{flag} belongs to --method {}, not to --method {}; enter one observation for each method",
            methods.join(" or "),
            method
        )));
    }
    not_ahead("seen-on", args.seen_on)?;
    let mut reading = match args.method.as_str() {
        "sight" => json!({"signs": args.sign}),
        "sound" => json!({"answer": need("answer", &args.answer)?, "blows": args.blows}),
        "probe" => json!({"knife": args.knife, "depth_mm": args.depth, "moves_under_pry": args.moves}),
        "moisture" => json!({"reading_percent": need_number("reading-percent", args.reading_percent)?,
            "depth_mm": args.depth, "temp_c": args.temp_c, "species_setting": args.species_setting}),
        "measure" => {
            let value = need("value", &args.value)?;
            let quantity = need("quantity", &args.quantity)?;
            match (&args.unit, value.trim().replace(',', ".").parse::<f64>()) {
                (Some(unit), Ok(number)) => json!({"quantity": quantity, "value": number, "unit": unit}),
                (Some(_), Err(_)) => {
                    return Err(Fault::input(format!("--value {value}: with --unit, accepted is a number")));
                }
                (None, _) => {
                    let length = measure::Length::read(&value).map_err(|fault| {
                        Fault::input(format!("--value {value}: {fault}; accepted is a length, or a number with --unit"))
                    })?;
                    json!({"quantity": quantity, "value": length.mm(), "unit": "mm", "as_written": value})
                }
            }
        }
        "bore" => json!({"depth_mm": need_number("depth", args.depth)?, "finds": need("finds", &args.finds)?}),
        "draw" => json!({"fastening": need("fastening", &args.fastening)?,
            "condition": need("condition", &args.condition)?, "original_mm": args.original,
            "measured_mm": args.measured}),
        "open_up" => json!({"opened": need("opened", &args.opened)?, "found": need("found", &args.found)?}),
        "stress_wave" => json!({"time_us": need_number("time-us", args.time_us)?,
            "distance_mm": need_number("distance", args.distance)?}),
        "ask" => json!({"who": need("who", &args.who)?, "said": need("said", &args.said)?}),
        _ => json!({}),
    };
    reading["method"] = json!(args.method);
    strict(
        "observation",
        json!({"member": args.member, "place": place(&args.place), "reading": reading, "note": args.note,
            "seen_on": args.seen_on.map(|d| d.to_string())}),
    )
}

/// Refuses a day that has not come yet for what is said to have been done. A day is granted for other time zones.
fn not_ahead(flag: &str, day: Option<jiff::civil::Date>) -> Result<(), Fault> {
    let Some(day) = day else { return Ok(()) };
    let last = crate::time::today().tomorrow().unwrap_or(jiff::civil::Date::MAX);
    if day > last { Err(Fault::input(format!("--{flag} {day}: this day has not come yet"))) } else { Ok(()) }
}

fn not_seen(args: &NotSeenArgs) -> Result<Planned, Fault> {
    strict(
        "not_seen",
        json!({"member": args.member, "place": place(&args.place), "why": args.why, "needs": args.needs}),
    )
}

fn finding(args: &FindingArgs, state: &State) -> Result<Planned, Fault> {
    let mut alternatives = Vec::new();
    for pair in &args.alternative {
        let (what, against) = pair
            .split_once(':')
            .ok_or_else(|| Fault::input(format!("--alternative {pair}: accepted is `what: what speaks against it`")))?;
        alternatives.push(json!({"what": what.trim(), "against": against.trim()}));
    }
    let one_place = place(&args.place);
    let places = if one_place == json!({}) { json!([]) } else { json!([one_place]) };
    strict(
        "finding",
        json!({
            "title": args.title, "member": args.member, "places": places, "condition": args.condition,
            "likely_state": args.likely_state, "text": args.text, "extent": args.extent, "cause": args.cause,
            "alternatives": alternatives, "basis": named(&args.basis, state)?, "sure": args.sure,
            "meaning": args.meaning, "serious": args.serious,
        }),
    )
}

fn recommendation(args: &RecommendationArgs, state: &State) -> Result<Planned, Fault> {
    strict(
        "recommendation",
        json!({
            "title": args.title, "action": args.action, "urgency": args.urgency,
            "findings": named(&args.finding, state)?, "why": args.why, "by": args.by.map(|d| d.to_string()),
            "who": args.who, "proof": args.proof,
            "ways": args.way.iter().map(|way| one_way(way)).collect::<Result<Vec<_>, _>>()?,
        }),
    )
}

/// Reads a rival way: its kind, then `name: words` parted by semicolons, and the bare word `advised`.
fn one_way(text: &str) -> Result<Value, Fault> {
    const SAID: [&str; 7] = ["how", "needs", "lasts", "risks", "opens", "who", "urgency"];
    let mut parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
    let mut way = Map::new();
    way.insert("kind".to_owned(), parts.next().unwrap_or_default().replace([' ', '-'], "_").into());
    for part in parts {
        match part.split_once(':') {
            Some((name, words)) if SAID.contains(&name.trim()) => {
                way.insert(name.trim().to_owned(), words.trim().into());
            }
            None if part == "advised" => {
                way.insert("advised".to_owned(), true.into());
            }
            _ => {
                return Err(Fault::input(format!(
                    "--way: `{part}` is not understood; accepted after the kind are `advised` and {}, each followed by a colon and words",
                    SAID.join(", ")
                )));
            }
        }
    }
    Ok(Value::Object(way))
}

fn conditions(args: &ConditionsArgs) -> Result<Planned, Fault> {
    not_ahead("date", Some(args.date))?;
    strict(
        "conditions",
        json!({
            "date": args.date.to_string(), "place": args.place, "afloat": args.afloat,
            "ashore_since": args.ashore_since.map(|d| d.to_string()), "weather": args.weather,
            "temp_c": args.temp_c, "rh_percent": args.rh_percent, "hours": args.hours, "present": args.present,
            "access": args.access,
        }),
    )
}

fn instrument(args: &InstrumentArgs) -> Result<Planned, Fault> {
    strict(
        "instrument",
        json!({"name": args.name, "serial": args.serial, "setting": args.setting,
            "checked": args.checked.map(|d| d.to_string()), "check": args.check}),
    )
}

fn member(args: &MemberArgs) -> Result<Planned, Fault> {
    strict(
        "member",
        json!({"member": args.member, "has": !args.lacks, "name": args.called, "group": args.group,
            "each_side": args.each_side, "count": args.count, "note": args.note}),
    )
}

fn estimate_line(args: &EstimateArgs, state: &State) -> Result<Planned, Fault> {
    let recommendation = args.recommendation.as_deref().map(|name| Desk::find(state, name)).transpose()?;
    strict(
        "estimate_line",
        json!({
            "item": args.item, "recommendation": recommendation, "trade": args.trade, "quantity": args.quantity,
            "unit": args.unit, "low": args.low, "likely": args.likely, "high": args.high,
            "currency": args.currency, "rates_from": args.rates_from, "chance_percent": args.chance_percent,
        }),
    )
}

fn follow_up(args: &FollowUpArgs, state: &State) -> Result<Planned, Fault> {
    strict(
        "follow_up",
        json!({"recommendation": Desk::find(state, &args.recommendation)?, "standing": args.standing,
            "text": args.text, "date": args.date.map(|d| d.to_string())}),
    )
}

fn named(names: &[String], state: &State) -> Result<Vec<survey::EntryId>, Fault> {
    names.iter().map(|name| Desk::find(state, name)).collect()
}
