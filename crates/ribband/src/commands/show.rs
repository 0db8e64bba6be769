//! `ribband show`.

use super::{print, print_json};
use crate::arguments::ShowArgs;
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::{Value, json};
use std::fmt::Write as _;
use survey::payload::Payload;
use survey::{Cover, Record, State, coverage};

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &ShowArgs, as_json: bool) -> Result<(), Fault> {
    let state = desk.state(desk.choose(chosen)?)?;
    if let Some(name) = &args.entry {
        return one(&state, name, as_json);
    }
    if args.members || args.owed {
        return members(&state, args.owed, as_json);
    }
    let records: Vec<&Record> = state
        .records()
        .into_iter()
        .filter(|record| args.kind.as_deref().is_none_or(|kind| record.first().kind() == kind))
        .filter(|record| args.member.as_deref().is_none_or(|member| member_of(record.payload()) == Some(member)))
        .collect();
    if as_json {
        return print_json(&Value::Array(records.iter().map(|record| record_json(&state, record)).collect()));
    }
    if let Some(vessel) = state.vessel() {
        print(&format!("{}, {} entries, the latest {}", vessel.payload.name, state.len(), state.latest()))?;
    }
    for record in records {
        let mut line =
            format!("{}  {:14}  {}", record.first().id.short(), record.first().kind(), said(record.payload()));
        if record.is_withdrawn() {
            line.push_str("  (withdrawn)");
        } else if !record.amendments().is_empty() {
            line.push_str("  (amended)");
        }
        if record.is_disputed() {
            line.push_str("  (two versions stand; settle with `ribband amend … --settle`)");
        }
        print(&line)?;
    }
    let unread = state.unread();
    if !unread.is_empty() {
        print(&format!(
            "{} entries are of kinds that this version does not know; they are kept as they are.",
            unread.len()
        ))?;
    }
    Ok(())
}

fn member_of(payload: &Payload) -> Option<&str> {
    match payload {
        Payload::Observation(o) => Some(&o.member),
        Payload::NotSeen(n) => Some(&n.member),
        Payload::Finding(f) => Some(&f.member),
        Payload::MemberHad(m) => Some(&m.member),
        Payload::Reckoning(r) => r.member.as_deref(),
        _ => None,
    }
}

/// Says in a line what a payload says.
fn said(payload: &Payload) -> String {
    let placed = |member: &str, place: &survey::Place| {
        if place.is_empty() { member.to_owned() } else { format!("{member}, {place}") }
    };
    match payload {
        Payload::Brief(b) => format!("{} for {}", b.purpose, if b.client.is_empty() { "a client" } else { &b.client }),
        Payload::Vessel(v) => v.name.clone(),
        Payload::HullForm(_) => "her shape".to_owned(),
        Payload::Beforehand(_) => "what is known beforehand".to_owned(),
        Payload::MemberHad(m) => format!("{} {}", if m.has { "has" } else { "lacks" }, m.member),
        Payload::Conditions(c) => {
            format!("{} {}", c.date.map(|d| d.to_string()).unwrap_or_default(), c.place)
        }
        Payload::Instrument(i) => i.name.clone(),
        Payload::Observation(o) => {
            format!("{}: {}: {} {}", placed(&o.member, &o.place), o.reading.method(), o.reading, o.note)
        }
        Payload::Attachment(a) => format!("{} {}", a.file_name, a.caption),
        Payload::NotSeen(n) => format!("{}: {}", placed(&n.member, &n.place), n.why),
        Payload::Reckoning(r) => format!("{}: {}", r.topic, r.note),
        Payload::Finding(f) => format!("{}: {} ({})", f.member, f.title, f.condition),
        Payload::Recommendation(r) => format!("{}: {}", r.urgency, r.title),
        Payload::EstimateLine(l) => format!("{}: {} to {} {}", l.item, l.low, l.high, l.currency),
        Payload::Comparable(c) => format!("{}: {} {}", c.title, c.price, c.currency),
        Payload::OpinionOfValue(v) => format!("{} to {} {}", v.low, v.high, v.currency),
        Payload::Amendment(a) => a.why.clone(),
        Payload::ReportIssued(r) => format!("version {} of {}", r.version, r.date),
        Payload::ClientLink(l) => format!("for {}, until {}", l.to, l.until),
        Payload::FollowUp(f) => format!("{}: {}", f.standing, f.text),
        Payload::Unknown { kind, why } => match why {
            Some(why) => format!("in a form this version cannot read ({why})"),
            None => format!("of kind `{kind}`, which this version does not know"),
        },
    }
}

fn record_json(state: &State, record: &Record) -> Value {
    let payload = |payload: &Payload| match payload {
        Payload::Unknown { .. } => serde_json::from_str(&record.first().payload_json()).unwrap_or(Value::Null),
        known => serde_json::from_str(&known.to_json()).unwrap_or(Value::Null),
    };
    let id = record.first().id;
    json!({
        "id": id.to_string(),
        "kind": record.first().kind(),
        "payload": payload(record.payload()),
        "withdrawn": record.is_withdrawn(),
        "disputed": record.is_disputed(),
        "attachments": state.attachments_of(id).map(|a| a.id().to_string()).collect::<Vec<_>>(),
        "versions": record.versions().iter().map(|version| json!({
            "id": version.id.to_string(),
            "author": version.author,
            "device": version.device,
            "time": version.time.to_string(),
            "hash": version.hash().to_string(),
            "why": match &version.payload { Payload::Amendment(a) => Some(a.why.clone()), _ => None },
            "payload": record.payload_at(version).as_ref().map(payload),
        })).collect::<Vec<_>>(),
    })
}

fn one(state: &State, name: &str, as_json: bool) -> Result<(), Fault> {
    let id = Desk::find(state, name)?;
    let record = state
        .record(id)
        .ok_or_else(|| Fault::input(format!("entry {} amends one that is not in this survey yet", id.short())))?;
    if as_json {
        return print_json(&record_json(state, record));
    }
    let mut out = format!("{}  {}\n", record.first().id, record.first().kind());
    for version in record.versions() {
        let why = match &version.payload {
            Payload::Amendment(a) => format!(", because: {}", a.why),
            _ => String::new(),
        };
        let shows = if version.id == record.shown().id { " (shows)" } else { "" };
        let _ = writeln!(out, "{} by {} on {}{why}{shows}", version.time, version.author, version.device);
        match record.payload_at(version) {
            Some(payload) => {
                let _ = writeln!(out, "  {}", said(&payload));
            }
            None => out.push_str("  withdrawn\n"),
        }
    }
    for attachment in state.attachments_of(record.first().id) {
        let _ = writeln!(
            out,
            "attachment {}  {}  {}",
            attachment.id().short(),
            attachment.payload.file_name,
            attachment.payload.caption
        );
    }
    print(out.trim_end())
}

fn members(state: &State, owed: bool, as_json: bool) -> Result<(), Fault> {
    let covers: Vec<_> = coverage(state).into_iter().filter(|c| !owed || c.cover == Cover::Owed).collect();
    let word = |cover: Cover| match cover {
        Cover::Owed => "owed",
        Cover::NotSeen => "not seen",
        Cover::PartlySeen => "seen in part",
        Cover::Seen => "seen",
        Cover::HearsayOnly => "hearsay only",
    };
    if as_json {
        let list: Vec<Value> = covers
            .iter()
            .map(|c| {
                json!({"member": c.member.id, "name": c.member.name, "group": c.member.group,
                    "each_side": c.member.each_side, "count": c.member.count, "cover": word(c.cover),
                    "condition": c.condition.map(|condition| condition.to_string()),
                    "observations": c.observations.len(), "findings": c.findings.len()})
            })
            .collect();
        return print_json(&Value::Array(list));
    }
    let mut group = String::new();
    for cover in covers {
        if cover.member.group != group {
            group.clone_from(&cover.member.group);
            print(&group)?;
        }
        let condition = cover.condition.map(|c| format!("  {c}")).unwrap_or_default();
        print(&format!("  {:24} {:28} {}{condition}", cover.member.id, cover.member.name, word(cover.cover)))?;
    }
    Ok(())
}
