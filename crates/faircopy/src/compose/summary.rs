//! The one page that a client reads.

use super::money::Totals;
use super::numbers::Numbers;
use super::wording::{amount, ended, listed};
use crate::{Document, Mark, Summary, SummaryLine, Urgency, UrgentLine};
use std::collections::{BTreeMap, BTreeSet};
use survey::payload::FollowUpStanding;
use survey::{Cover, State, coverage};

/// Members named as not seen before the rest is only counted.
const NAMED: usize = 4;

/// Returns the summary, from the record and what is already composed of it.
pub(super) fn summary(state: &State, numbers: &Numbers<'_>, document: &Document, totals: Option<&Totals>) -> Summary {
    let mut findings: Vec<&crate::Finding> =
        document.parts.iter().flat_map(|part| &part.findings).filter(|f| f.mark != Mark::Bare).collect();
    findings.sort_by_key(|f| (!f.serious, weight(f.mark), f.number));
    let meanings = {
        let mut all: Vec<_> = state.findings().filter(|f| !f.payload.meaning.trim().is_empty()).collect();
        all.sort_by_key(|f| {
            (!f.payload.serious, std::cmp::Reverse(f.payload.condition), numbers.findings.get(&f.id()).copied())
        });
        all
    };
    let done = done(state, numbers);
    let open = || document.recommendations.iter().filter(|r| !done.contains(&r.number));
    let mut first: Vec<&crate::Recommendation> =
        open().filter(|r| r.urgency <= Urgency::BeforeTheIntendedWaters).collect();
    if first.is_empty() {
        first = open().take(3).collect();
    }
    Summary {
        purpose: purpose(state),
        found: findings
            .iter()
            .map(|f| SummaryLine {
                words: format!("{} {}", ended(&f.title), f.opinion.trim()).trim().to_owned(),
                finding: Some(f.number),
                recommendation: None,
            })
            .collect(),
        meaning: meanings
            .iter()
            .map(|f| SummaryLine {
                words: ended(&f.payload.meaning),
                finding: numbers.findings.get(&f.id()).copied(),
                recommendation: None,
            })
            .collect(),
        first: first
            .iter()
            .map(|r| UrgentLine {
                when: r.urgency.words(r.date.as_deref()),
                words: format!("{} {}", ended(&r.title), r.action.trim()),
                recommendation: r.number,
            })
            .collect(),
        not_seen: not_seen(state),
        money: money(state, totals),
    }
}

/// Returns the numbers of the recommendations that the latest follow-up of each calls closed or superseded.
fn done(state: &State, numbers: &Numbers<'_>) -> BTreeSet<u32> {
    let mut latest = BTreeMap::new();
    for follow_up in state.follow_ups() {
        latest.insert(follow_up.payload.recommendation, follow_up.payload.standing);
    }
    let over = latest.into_iter().filter(|(_, standing)| *standing != FollowUpStanding::Open);
    over.filter_map(|(id, _)| numbers.recommendations.get(&id).copied()).collect()
}

fn weight(mark: Mark) -> u8 {
    match mark {
        Mark::Solid => 0,
        Mark::Close => 1,
        Mark::Sparse => 2,
        Mark::Bare | Mark::Dashed => 3,
    }
}

fn purpose(state: &State) -> Vec<String> {
    let Some(view) = state.brief() else { return Vec::new() };
    let b = view.payload;
    let name = state.vessel().map(|v| v.payload.name.clone()).unwrap_or_default();
    let of = if name.trim().is_empty() { String::new() } else { format!(" of {name}") };
    let by = if b.client.trim().is_empty() {
        String::new()
    } else {
        format!(" for {}", b.client.trim().trim_end_matches('.'))
    };
    let purpose = b.purpose.trim().trim_end_matches(" survey");
    let article = if purpose.starts_with(['a', 'e', 'i', 'o', 'u', 'A', 'E', 'I', 'O', 'U']) { "an" } else { "a" };
    let mut out = vec![ended(&format!("This is {article} {purpose} survey{of}{by}"))];
    if !b.intended_use.trim().is_empty() {
        out.push(ended(&format!("Use intended: {}", b.intended_use.trim())));
    }
    if !b.intended_waters.trim().is_empty() {
        out.push(ended(&format!("Waters intended: {}", b.intended_waters.trim())));
    }
    out
}

fn not_seen(state: &State) -> Vec<String> {
    let covers = coverage(state);
    let names = |wanted: Cover| -> Vec<String> {
        covers.iter().filter(|c| c.cover == wanted).map(|c| c.member.name.to_lowercase()).collect()
    };
    let some = |names: Vec<String>| {
        if names.len() > NAMED + 1 {
            format!("{} and {} others", names[..NAMED].join(", "), names.len() - NAMED)
        } else {
            listed(&names)
        }
    };
    let mut out = Vec::new();
    let (whole, part) = (names(Cover::NotSeen), names(Cover::PartlySeen));
    if !whole.is_empty() {
        out.push(format!("Not seen at all: {}.", some(whole)));
    }
    if !part.is_empty() {
        out.push(format!("Seen only in part: {}.", some(part)));
    }
    let owed = names(Cover::Owed).len() + names(Cover::HearsayOnly).len();
    if owed > 0 && state.observations().next().is_some() {
        out.push(format!("Of {owed} further kinds of member nothing, or only hearsay, is recorded."));
    }
    if !out.is_empty() {
        out.push("No conclusion is drawn about what was not seen.".to_owned());
    }
    out
}

fn money(state: &State, totals: Option<&Totals>) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(t) = totals {
        let money = |value: f64| amount(t.rounded(value));
        out.push(format!(
            "All work in the estimate together: {} {} to {}, middle {}; it falls outside that range one time in five.",
            t.currency,
            money(t.p10),
            money(t.p90),
            money(t.p50)
        ));
    }
    if let Some(view) = state.opinion_of_value() {
        let v = view.payload;
        out.push(format!(
            "Opinion of value: {} {} to {}, middle {}.",
            v.currency,
            amount(v.low),
            amount(v.high),
            amount(v.middle)
        ));
    }
    out
}
