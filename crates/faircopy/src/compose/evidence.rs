//! The evidence for each finding that bears on safety, worded as a surveyor would.

use super::findings::range;
use super::numbers::{Numbers, observations_of};
use super::reading::said;
use super::reckonings::weighed_in_words;
use super::wording::{Wording, ended, listed, sentence_case};
use crate::{Evidence, Row};
use survey::payload::Observation;
use survey::{BoreFinds, DrawnCondition, EntryId, Knife, Method, Reading, SoundAnswer, State, View, coverage};

/// Returns the evidence for the serious findings, in their order.
pub(super) fn evidence(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Vec<Evidence> {
    let all = numbers.parts.iter().flat_map(|(_, own)| own).filter(|f| f.payload.serious);
    all.map(|f| one(state, numbers, wording, f)).collect()
}

fn one(state: &State, numbers: &Numbers<'_>, wording: &Wording, view: &View<'_, survey::payload::Finding>) -> Evidence {
    let f = view.payload;
    let basis: Vec<View<'_, Observation>> =
        observations_of(state, f).into_iter().filter_map(|id| state.find::<Observation>(id)).collect();
    let mut rows: Vec<Row> = Vec::new();
    let mut row = |label: &str, words: String| {
        if !words.trim().is_empty() {
            rows.push(Row::new(label, words));
        }
    };
    let line = |o: &View<'_, Observation>| {
        let number = numbers.observations.get(&o.id()).map(|n| format!("Observation {n}: ")).unwrap_or_default();
        let said = said(o.payload, wording);
        let by = if said.by.is_empty() { String::new() } else { format!("{} says: ", said.by) };
        format!("{number}{by}{}", said.words)
    };
    let lines = |wanted: &dyn Fn(&Observation) -> bool| -> String {
        basis.iter().filter(|o| wanted(o.payload)).map(line).collect::<Vec<_>>().join("\n\n")
    };
    row("Reads against it", lines(&|o| !o.is_hearsay() && o.reading.is_adverse()));
    row("Reads in its favour", lines(&|o| is_clear(&o.reading)));
    row("Seen and measured", lines(&|o| !o.is_hearsay() && !o.reading.is_adverse() && !is_clear(&o.reading)));
    row("Told, not checked", lines(&Observation::is_hearsay));
    // Readings of the same member that the finding does not rest on, and that read the other way.
    let elsewhere: Vec<u32> = state
        .observations()
        .filter(|o| o.payload.member == f.member && is_clear(&o.payload.reading) && !f.basis.contains(&o.id()))
        .filter_map(|o| numbers.observations.get(&o.id()).copied())
        .collect();
    if !elsewhere.is_empty() {
        let many = if elsewhere.len() == 1 { "Observation" } else { "Observations" };
        let list: Vec<String> = elsewhere.iter().map(u32::to_string).collect();
        row("Good elsewhere on it", format!("{many} {} of the same member.", listed(&list)));
    }
    for id in &f.basis {
        if let Some(words) = weighed_in_words(state, *id) {
            row("Weighed by machine", words);
        }
    }
    let considered: Vec<String> = f
        .alternatives
        .iter()
        .map(|a| {
            let against =
                if a.against.trim().is_empty() { String::new() } else { format!(" Against it: {}", ended(&a.against)) };
            format!("{}{against}", ended(&sentence_case(a.what.trim())))
        })
        .collect();
    let none = "No other explanation is recorded as considered.".to_owned();
    row("Also considered", if considered.is_empty() { none } else { considered.join("\n\n") });
    let unsaid = "How sure the surveyor is, is not recorded.".to_owned();
    row(
        "How sure",
        f.sure.map_or(unsaid, |s| sentence_case(&format!("{s}: {} in the words of this report.", range(s)))),
    );
    row("Not done", not_done(state, numbers, wording, f, &basis));
    Evidence {
        finding: numbers.findings.get(&view.id()).copied().unwrap_or(0),
        title: sentence_case(f.title.trim()),
        rows,
    }
}

/// Tells whether a reading by itself speaks for the member.
fn is_clear(reading: &Reading) -> bool {
    match reading {
        Reading::Sound { answer, .. } => *answer == SoundAnswer::Rings,
        Reading::Probe { knife, moves_under_pry, .. } => *knife == Some(Knife::Firm) && *moves_under_pry != Some(true),
        Reading::Bore { finds, .. } => *finds == BoreFinds::Solid,
        Reading::Draw { condition, .. } => *condition == DrawnCondition::Good,
        _ => false,
    }
}

/// Says what was not done that could have told more: ways of trying that were not used here, and what was not seen.
fn not_done(
    state: &State,
    numbers: &Numbers<'_>,
    wording: &Wording,
    finding: &survey::payload::Finding,
    basis: &[View<'_, Observation>],
) -> String {
    let mut out: Vec<String> = Vec::new();
    let used = |method: Method| {
        let here = basis.iter().any(|o| o.payload.reading.method() == method);
        here || state.observations().any(|o| o.payload.member == finding.member && o.payload.reading.method() == method)
    };
    let closer = [
        (Method::Probe, "knife or lever"),
        (Method::Bore, "boring"),
        (Method::Draw, "drawing a fastening"),
        (Method::OpenUp, "opening up"),
    ];
    let unused: Vec<String> = closer.iter().filter(|(m, _)| !used(*m)).map(|(_, words)| (*words).to_owned()).collect();
    if !unused.is_empty() {
        out.push(format!("Not tried on this member: {}.", listed(&unused)));
    }
    let ids: Vec<EntryId> = coverage(state)
        .into_iter()
        .filter(|c| c.member.id == finding.member)
        .flat_map(|c| c.not_seen)
        .chain(finding.basis.iter().copied())
        .collect();
    let mut told: Vec<EntryId> = Vec::new();
    for n in ids.iter().filter_map(|id| state.find::<survey::payload::NotSeen>(*id)) {
        if !told.contains(&n.id()) {
            told.push(n.id());
            let place = wording.member_at(&numbers.member(&n.payload.member), &n.payload.place);
            let needs = n.payload.needs.trim();
            let needs = if needs.is_empty() { String::new() } else { format!(" It would take: {}", ended(needs)) };
            out.push(format!("Not seen: {} {}{needs}", ended(&place), ended(&sentence_case(n.payload.why.trim()))));
        }
    }
    if out.is_empty() {
        out.push("Every usual way of trying it was used, and no part of it is listed as not seen.".to_owned());
    }
    out.join("\n\n")
}
