//! Recommendations, each with the findings it answers and what has become of it.

use super::numbers::Numbers;
use super::ways::ways;
use super::wording::{day, ended, sentence_case};
use crate::{Recommendation, Row, Urgency};
use survey::State;
use survey::payload::Urgency as Recorded;

/// Returns the recommendations.
pub(super) fn recommendations(state: &State, numbers: &Numbers<'_>) -> Vec<Recommendation> {
    let one = |view: survey::View<'_, survey::payload::Recommendation>| {
        let r = view.payload;
        let more = [("Why", &r.why), ("By whom", &r.who), ("Shown by", &r.proof)]
            .into_iter()
            .filter(|(_, text)| !text.trim().is_empty())
            .map(|(label, text)| Row::new(label, sentence_case(&ended(text))));
        let mut findings: Vec<u32> = r.findings.iter().filter_map(|id| numbers.findings.get(id).copied()).collect();
        findings.sort_unstable();
        findings.dedup();
        let since: Vec<String> = state
            .follow_ups()
            .filter(|f| f.payload.recommendation == view.id())
            .map(|f| {
                let standing = sentence_case(&f.payload.standing.to_string());
                let date = f.payload.date.map(|d| format!(", {}", day(d))).unwrap_or_default();
                format!("{standing}{date}: {}", ended(&f.payload.text))
            })
            .collect();
        Recommendation {
            number: numbers.recommendations.get(&view.id()).copied().unwrap_or(0),
            urgency: urgency(r.urgency),
            date: r.by.map(day),
            date_order: r.by.map(|d| d.to_string()).unwrap_or_default(),
            title: sentence_case(r.title.trim()),
            action: ended(&r.action),
            more: more.collect(),
            ways: ways(&r.ways),
            findings,
            standing: since.join("\n"),
        }
    };
    let mut all: Vec<Recommendation> = state.recommendations().map(one).collect();
    all.sort_by_key(|r| r.number);
    all
}

pub(super) fn urgency(recorded: Recorded) -> Urgency {
    match recorded {
        Recorded::BeforeSheFloats => Urgency::BeforeSheFloats,
        Recorded::BeforeSheIsUsed => Urgency::BeforeSheIsUsed,
        Recorded::BeforeTheIntendedWaters => Urgency::BeforeTheIntendedWaters,
        Recorded::AtTheNextHaulOut => Urgency::AtTheNextHaulOut,
        Recorded::Watch => Urgency::Watch,
        Recorded::ForLongLife => Urgency::ForLongLife,
        Recorded::FindOut => Urgency::FindOut,
    }
}
