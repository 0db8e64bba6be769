//! `ribband check`: what a report still owes its reader.

use super::{print, print_json};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use store::Store as _;
use survey::checks::{Given, Shortfall, Weight, before_issue, rules, stops};
use survey::{State, SurveyId};

/// Most things told of one rule before the rest is only counted.
const TOLD: usize = 8;

/// Checks a survey with what is at hand in the folder.
pub fn shortfalls(desk: &Desk, survey: SurveyId, state: &State) -> Result<Vec<Shortfall>, Fault> {
    let lacking = desk.store().attachments_lacking(survey).map_err(Fault::undone)?;
    let missing: BTreeSet<_> = lacking.into_iter().map(|named| named.sha256).collect();
    Ok(before_issue(state, &Given { missing }))
}

pub fn run(desk: &mut Desk, chosen: Option<&str>, as_json: bool) -> Result<(), Fault> {
    let survey = desk.choose(chosen)?;
    let state = desk.state(survey)?;
    let found = shortfalls(desk, survey, &state)?;
    let stopping = stops(&found, &BTreeMap::new()).len();
    if as_json {
        print_json(&json!({
            "survey": survey.to_string(),
            "may_be_issued": stopping == 0,
            "rules": rules().map(|rule| json!({
                "name": rule.name, "asks": rule.asks, "reason": rule.reason, "blocks": rule.weight == Weight::Blocks,
            })).collect::<Vec<_>>(),
            "wanting": found.iter().map(one).collect::<Vec<_>>(),
        }))?;
    } else {
        told(&found)?;
        let advice = found.len() - stopping;
        print(&match (stopping, advice) {
            (0, 0) => "Nothing is wanting.".to_owned(),
            (0, n) => format!("Nothing stops the issue; advice: {n}."),
            (n, _) => format!(
                "The report is not issued yet: {n} {} it. Mend them, or overrule a check with `ribband issue --against NAME=REASON`.",
                if n == 1 { "thing stops" } else { "things stop" }
            ),
        })?;
    }
    if stopping > 0 { Err(Fault::undone(format!("things that stop the issue: {stopping}"))) } else { Ok(()) }
}

fn one(s: &Shortfall) -> Value {
    json!({
        "rule": s.rule.name,
        "blocks": s.rule.weight == Weight::Blocks,
        "words": s.words,
        "entry": s.spot.entry.map(|id| id.to_string()),
        "member": s.spot.member,
        "field": s.spot.field,
        "wants": s.spot.wants,
    })
}

/// Prints what was found, rule by rule, each with its reason.
pub fn told(found: &[Shortfall]) -> Result<(), Fault> {
    for rule in rules() {
        let own: Vec<&Shortfall> = found.iter().filter(|s| std::ptr::eq(s.rule, rule)).collect();
        if own.is_empty() {
            continue;
        }
        let weight = if rule.weight == Weight::Blocks { "stops the issue" } else { "advice" };
        print(&format!("{} ({weight}): {} {}", rule.name, rule.asks, rule.reason))?;
        for s in own.iter().take(TOLD) {
            print(&format!("  {}{}", s.words, place(s)))?;
        }
        if own.len() > TOLD {
            print(&format!("  and {} more", own.len() - TOLD))?;
        }
    }
    Ok(())
}

/// Says where a thing is mended.
fn place(s: &Shortfall) -> String {
    let mut parts: Vec<String> = Vec::new();
    parts.extend(s.spot.entry.map(|id| format!("entry {}", id.short())));
    parts.extend(s.spot.field.map(|field| format!("field {field}")));
    parts.extend(s.spot.wants.map(|kind| format!("to be entered: {}", kind.replace('_', " "))));
    if parts.is_empty() { String::new() } else { format!(" [{}]", parts.join(", ")) }
}
