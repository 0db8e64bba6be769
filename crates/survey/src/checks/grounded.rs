//! Findings stand on something, serious ones lead to something, and recommendations answer something.

use super::written::{cut, is_denied, words_of};
use super::{Asked, Found, Rule, Weight};
use crate::payload::{Condition, Finding, Recommendation};
use crate::{EntryId, Reading, Record, View};
use std::collections::BTreeSet;

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "finding-has-basis",
        asks: "Every finding names the entries it rests on.",
        reason: "A conclusion without grounds cannot be checked, nor defended.",
        weight: Weight::Blocks,
        check: basis,
    },
    Rule {
        name: "grounds-stand",
        asks: "No finding, recommendation or line of the estimate rests on an entry that has been withdrawn.",
        reason: "When the ground is gone, what stood on it must be looked at again.",
        weight: Weight::Blocks,
        check: grounds_stand,
    },
    Rule {
        name: "serious-finding-has-recommendation",
        asks: "Every serious finding has a recommendation.",
        reason: "A danger named without a remedy leaves the reader to guess.",
        weight: Weight::Blocks,
        check: serious_answered,
    },
    Rule {
        name: "finding-of-work-has-recommendation",
        asks: "Every finding of work needed or of failure has a recommendation.",
        reason: "A yard prices recommendations, not findings.",
        weight: Weight::Advises,
        check: work_answered,
    },
    Rule {
        name: "serious-finding-weighed",
        asks: "Every serious finding says how sure it is and which other explanations were considered.",
        reason: "A reader acts on how sure the surveyor is, and a dispute asks what else it could have been.",
        weight: Weight::Advises,
        check: weighed,
    },
    Rule {
        name: "recommendation-has-finding",
        asks: "Every recommendation answers a finding, or is carried over from the survey before.",
        reason: "Work that nothing found calls for is work the owner should not pay for.",
        weight: Weight::Blocks,
        check: recommendation_grounded,
    },
    Rule {
        name: "sound-member-not-renewed",
        asks: "Nothing that is found sound is to be renewed.",
        reason: "Minor scars in sound seasoned timber are no ground for renewal.",
        weight: Weight::Blocks,
        check: sound_renewed,
    },
    Rule {
        name: "adverse-reading-answered",
        asks: "A reading that speaks against a member is taken up in a finding.",
        reason: "A dull blow that no finding mentions will be asked about.",
        weight: Weight::Advises,
        check: adverse_answered,
    },
    Rule {
        name: "carried-recommendation-followed-up",
        asks: "Every recommendation carried over from the survey before says what became of it.",
        reason: "The first question at a next survey is what was done.",
        weight: Weight::Advises,
        check: followed_up,
    },
];

fn basis(asked: &Asked<'_>) -> Vec<Found> {
    let without = asked.state.findings().filter(|f| !f.payload.basis.iter().any(|id| stands(asked, *id)));
    without
        .map(|f| {
            let words = format!("The finding ‘{}’ names nothing it rests on.", cut(&f.payload.title));
            Found::new(words).at(f.id()).of(&f.payload.member).field("basis")
        })
        .collect()
}

fn stands(asked: &Asked<'_>, id: EntryId) -> bool {
    asked.state.record(id).is_some_and(|record| !record.is_withdrawn())
}

fn grounds_stand(asked: &Asked<'_>) -> Vec<Found> {
    let gone = |id: &EntryId| asked.state.record(*id).is_some_and(Record::is_withdrawn);
    let mut out = Vec::new();
    for f in asked.state.findings().filter(|f| f.payload.basis.iter().any(gone)) {
        let words = format!("The finding ‘{}’ rests on an entry that was withdrawn.", cut(&f.payload.title));
        out.push(Found::new(words).at(f.id()).of(&f.payload.member).field("basis"));
    }
    for r in asked.state.recommendations().filter(|r| r.payload.findings.iter().any(gone)) {
        let words = format!("The recommendation ‘{}’ answers a finding that was withdrawn.", cut(&r.payload.title));
        out.push(Found::new(words).at(r.id()).field("findings"));
    }
    for l in asked.state.estimate_lines().filter(|l| l.payload.recommendation.as_ref().is_some_and(gone)) {
        let words = format!("The line ‘{}’ prices a recommendation that was withdrawn.", cut(&l.payload.item));
        out.push(Found::new(words).at(l.id()).field("recommendation"));
    }
    out
}

/// Returns the findings that a standing recommendation answers.
fn answered(asked: &Asked<'_>) -> BTreeSet<EntryId> {
    asked.state.recommendations().flat_map(|r| r.payload.findings.clone()).collect()
}

fn unanswered(asked: &Asked<'_>, wanted: impl Fn(&Finding) -> bool, what: &str) -> Vec<Found> {
    let answered = answered(asked);
    let open = asked.state.findings().filter(|f| wanted(f.payload) && !answered.contains(&f.id()));
    open.map(|f| {
        let words = format!("The {what} ‘{}’ has no recommendation.", cut(&f.payload.title));
        Found::new(words).at(f.id()).of(&f.payload.member).wants("recommendation")
    })
    .collect()
}

fn serious_answered(asked: &Asked<'_>) -> Vec<Found> {
    unanswered(asked, |f| f.serious, "serious finding")
}

fn work_answered(asked: &Asked<'_>) -> Vec<Found> {
    unanswered(asked, |f| !f.serious && f.condition >= Condition::WorkNeeded, "finding")
}

fn weighed(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for f in asked.state.findings().filter(|f| f.payload.serious) {
        let at = |words: String, field| Found::new(words).at(f.id()).of(&f.payload.member).field(field);
        if f.payload.sure.is_none() {
            out.push(at(
                format!("The serious finding ‘{}’ does not say how sure it is.", cut(&f.payload.title)),
                "sure",
            ));
        }
        if f.payload.alternatives.is_empty() {
            let words =
                format!("The serious finding ‘{}’ names no other explanation considered.", cut(&f.payload.title));
            out.push(at(words, "alternatives"));
        }
    }
    out
}

fn recommendation_grounded(asked: &Asked<'_>) -> Vec<Found> {
    let standing =
        |r: &View<'_, Recommendation>| r.payload.findings.iter().any(|id| asked.state.find::<Finding>(*id).is_some());
    let loose = asked.state.recommendations().filter(|r| !standing(r) && r.payload.carried_from.is_none());
    loose
        .map(|r| {
            let words = format!("The recommendation ‘{}’ answers no finding.", cut(&r.payload.title));
            Found::new(words).at(r.id()).field("findings")
        })
        .collect()
}

/// Words that ask for a new one.
const RENEWAL: [&str; 9] =
    ["renew", "renewed", "renewal", "renewing", "replace", "replaced", "replacement", "replacing", "re-plank"];

fn sound_renewed(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for r in asked.state.recommendations() {
        let findings: Vec<_> = r.payload.findings.iter().filter_map(|id| asked.state.find::<Finding>(*id)).collect();
        if findings.is_empty() || findings.iter().any(|f| f.payload.condition != Condition::Sound) {
            continue;
        }
        let words = words_of(&format!("{}. {}", r.payload.title, r.payload.action));
        let renews =
            words.iter().enumerate().any(|(at, word)| RENEWAL.contains(&word.as_str()) && !is_denied(&words, at));
        if renews {
            let members: BTreeSet<String> = findings.iter().map(|f| asked.member(&f.payload.member)).collect();
            let members = members.into_iter().collect::<Vec<_>>().join(", ");
            let words =
                format!("‘{}’ asks for renewal, and all it answers is found sound ({members}).", cut(&r.payload.title));
            out.push(Found::new(words).at(r.id()).field("action"));
        }
    }
    out
}

fn adverse_answered(asked: &Asked<'_>) -> Vec<Found> {
    let used: BTreeSet<EntryId> = asked.state.findings().flat_map(|f| f.payload.basis.clone()).collect();
    let open = asked.state.observations().filter(|o| o.payload.reading.is_adverse() && !used.contains(&o.id()));
    open.map(|o| {
        let place = if o.payload.place.is_empty() { String::new() } else { format!(", {}", o.payload.place) };
        let what = match &o.payload.reading {
            Reading::Draw { fastening, condition, .. } => format!("{fastening} {condition}"),
            reading => reading.to_string(),
        };
        let words = format!("{}{place}: ‘{}’ is taken up in no finding.", asked.member(&o.payload.member), cut(&what));
        Found::new(words).at(o.id()).of(&o.payload.member).wants("finding")
    })
    .collect()
}

fn followed_up(asked: &Asked<'_>) -> Vec<Found> {
    let known: BTreeSet<EntryId> = asked.state.follow_ups().map(|f| f.payload.recommendation).collect();
    let open = asked.state.recommendations().filter(|r| r.payload.carried_from.is_some() && !known.contains(&r.id()));
    open.map(|r| {
        let words = format!("It is not said what became of ‘{}’.", cut(&r.payload.title));
        Found::new(words).at(r.id()).wants("follow_up")
    })
    .collect()
}
