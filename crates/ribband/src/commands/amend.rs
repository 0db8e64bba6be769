//! `ribband amend`.

use super::{print, print_json};
use crate::arguments::AmendArgs;
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use serde_json::{Map, Value, json};
use survey::payload::Amendment;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: AmendArgs, as_json: bool) -> Result<(), Fault> {
    if args.why.trim().is_empty() {
        return Err(Fault::input(
            "--why is empty; say why the entry is amended, for whoever reads the field book later",
        ));
    }
    let author = desk.author(args.author.as_deref())?;
    let survey = desk.choose(chosen)?;
    let state = desk.state(survey)?;
    let id = Desk::find(&state, &args.entry)?;
    let record = state
        .record(id)
        .ok_or_else(|| Fault::input(format!("entry {} amends one that is not in this survey yet", id.short())))?;
    let payload = if args.withdraw {
        None
    } else if let Some(text) = &args.payload {
        Some(serde_json::from_str(text).map_err(|fault| Fault::input(format!("--payload: {}", not_json(&fault))))?)
    } else if args.set.is_empty() {
        return Err(Fault::input("nothing is amended; accepted are --set FIELD=VALUE, --payload JSON or --withdraw"));
    } else {
        let mut now: Value = serde_json::from_str(&record.payload().to_json()).map_err(Fault::undone)?;
        for pair in &args.set {
            set(&mut now, pair)?;
        }
        Some(now)
    };
    let hanging = if args.withdraw { survey::hanging_on(&state, record.first().id) } else { Vec::new() };
    let settles = if args.settle { record.rivals().iter().map(|rival| rival.id).collect() } else { Vec::new() };
    let amendment = Amendment { amends: record.shown().id, settles, why: args.why, payload };
    let entries = desk.write(survey, &author, &[Planned { id: None, payload: amendment.into() }])?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        let hanging: Vec<_> = hanging
            .iter()
            .map(|hang| json!({"entry": hang.id.to_string(), "kind": hang.kind, "title": hang.title, "on": hang.on.to_string()}))
            .collect();
        return print_json(&json!({"survey": survey.to_string(), "entries": ids, "hanging": hanging}));
    }
    if args.withdraw {
        print(&format!("Withdrawn: {} {}.", record.first().kind().replace('_', " "), record.first().id.short()))?;
        for hang in &hanging {
            print(&format!(
                "What hangs on it: {} {} ‘{}’; look at it again.",
                hang.kind.replace('_', " "),
                hang.id.short(),
                hang.title
            ))?;
        }
        return Ok(());
    }
    print(&format!("Amended {} {}.", record.first().kind().replace('_', " "), record.first().id.short()))
}

/// Says where a text stops being JSON.
fn not_json(fault: &serde_json::Error) -> String {
    format!("this is not JSON (line {}, character {}); accepted is one JSON object", fault.line(), fault.column())
}

/// Sets `field.field=value`; a value that is JSON is taken as such, anything else as text; an empty one takes the
/// field away.
fn set(payload: &mut Value, pair: &str) -> Result<(), Fault> {
    let (path, text) = pair
        .split_once('=')
        .ok_or_else(|| Fault::input(format!("--set {pair}: accepted is FIELD=VALUE, as in note=…")))?;
    let value = serde_json::from_str(text).unwrap_or_else(|_| Value::from(text));
    let mut steps: Vec<&str> = path.trim().split('.').collect();
    let last = steps.pop().filter(|step| !step.is_empty());
    let last = last.ok_or_else(|| Fault::input(format!("--set {pair}: the field has no name")))?;
    let mut at = payload;
    for step in steps {
        let map = at.as_object_mut().ok_or_else(|| Fault::input(format!("--set {pair}: `{step}` is not in there")))?;
        at = map.entry(step).or_insert_with(|| Value::Object(Map::new()));
    }
    let map = at.as_object_mut().ok_or_else(|| Fault::input(format!("--set {pair}: `{last}` is not in there")))?;
    if text.is_empty() {
        map.shift_remove(last);
    } else {
        map.insert(last.to_owned(), value);
    }
    Ok(())
}
