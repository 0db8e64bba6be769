//! What somebody says is marked as such, and no conclusion rests on it alone.

use super::written::{cut, own_words};
use super::{Asked, Found, Rule, Weight};
use crate::payload::{Observation, Payload};

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "hearsay-not-used-as-fact",
        asks: "No finding rests on hearsay alone, unless its words say that it does.",
        reason: "What an owner says may be true; the surveyor did not see it.",
        weight: Weight::Blocks,
        check: not_as_fact,
    },
    Rule {
        name: "hearsay-marked",
        asks: "What somebody told is entered as asked, or says whose word it is and that it was not checked.",
        reason: "A reader must be able to tell what was seen from what was told.",
        weight: Weight::Blocks,
        check: marked,
    },
];

/// Words by which a text owns that somebody said so.
const MARKS: [&str; 14] = [
    "says",
    "said",
    "told",
    "hearsay",
    "according to",
    "by his own account",
    "by her own account",
    "word of",
    "'s word",
    "’s word",
    "reports that",
    "claims",
    "stated by",
    "not checked",
];

fn is_marked(text: &str) -> bool {
    let text = text.to_lowercase();
    MARKS.iter().any(|mark| text.contains(mark))
}

fn not_as_fact(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for f in asked.state.findings() {
        let standing = f.payload.basis.iter().filter_map(|id| asked.state.record(*id)).filter(|r| !r.is_withdrawn());
        let mut any = false;
        let only_told = standing
            .inspect(|_| any = true)
            .all(|record| matches!(record.payload(), Payload::Observation(o) if Observation::is_hearsay(o)));
        if any && only_told && !is_marked(&f.payload.text) {
            let words = format!(
                "The finding ‘{}’ rests only on what somebody says, and its words do not say so.",
                cut(&f.payload.title)
            );
            out.push(Found::new(words).at(f.id()).of(&f.payload.member).field("text"));
        }
    }
    out
}

/// Ways of saying that someone told it, without more.
const TOLD: [&str; 14] = [
    "owner says",
    "owner said",
    "owner told",
    "owner reports",
    "owner states",
    "yard says",
    "yard said",
    "yard told",
    "seller says",
    "seller said",
    "broker says",
    "broker said",
    "we were told",
    "i was told",
];

fn marked(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for one in own_words(asked.state) {
        let text = one.words.to_lowercase();
        let told = TOLD.iter().find(|told| text.contains(*told));
        let owned =
            ["hearsay", "not checked", "unchecked", "not shown to us", "not seen by"].iter().any(|w| text.contains(w));
        if let Some(told) = told.filter(|_| !owned) {
            let words = format!(
                "‘{}’: what is told (‘{told}’) stands among what was seen; enter it as asked, or add that it is hearsay.",
                cut(one.words)
            );
            let found = Found::new(words).at(one.entry).field(one.field);
            out.push(match one.member {
                Some(member) => found.of(member),
                None => found,
            });
        }
    }
    if let Some(view) = asked.state.vessel() {
        for line in view.payload.history.iter().filter(|line| !line.trim().is_empty()) {
            // Whose word it is stands before a colon or in brackets.
            let names = line.contains('(')
                || line.split_once(": ").is_some_and(|(who, _)| who.chars().any(char::is_alphabetic));
            if !names {
                let words = format!("Her history says ‘{}’ and not whose word it is.", cut(line));
                out.push(Found::new(words).at(view.id()).field("history"));
            }
        }
    }
    out
}
