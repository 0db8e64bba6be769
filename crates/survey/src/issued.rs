//! A survey as it stood when a report went out, and what has changed since.

use crate::payload::{Head, Payload, ReportIssued};
use crate::{Digest, Entry, EntryId, State, View};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What happened to a thing that a report says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// It is new.
    Added,
    /// It says something else.
    Amended,
    /// It no longer counts.
    Withdrawn,
}

/// One thing that changed between two states of a survey.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// The record.
    pub id: EntryId,
    /// Its kind, as written: `finding`, `recommendation`, …
    pub kind: String,
    /// What happened.
    pub change: Change,
    /// What it is called now, or was called when it was withdrawn.
    pub title: String,
    /// The reasons that the amendments give, in order of time.
    pub why: Vec<String>,
}

/// Kinds whose change is told, in the order in which it is told.
const TOLD: [&str; 6] = ["finding", "recommendation", "not_seen", "estimate_line", "opinion_of_value", "follow_up"];

/// Returns what changed between an earlier state of a survey and a later one, of what a report says: findings,
/// recommendations, what was not seen, estimate, value and follow-ups, in this order.
pub fn changes_since(then: &State, now: &State) -> Vec<Changed> {
    let mut out = Vec::new();
    for kind in TOLD {
        for record in now.records_of(kind) {
            let id = record.first().id;
            let before = then.record(id).filter(|r| r.first().kind() == kind);
            let stood = before.is_some_and(|r| !r.is_withdrawn());
            let change = match (stood, record.is_withdrawn()) {
                (false, false) => Change::Added,
                (true, true) => Change::Withdrawn,
                (true, false) if before.is_some_and(|r| r.payload() != record.payload()) => Change::Amended,
                _ => continue,
            };
            let known: BTreeSet<EntryId> =
                before.map(|r| r.versions().iter().map(|v| v.id).collect()).unwrap_or_default();
            let why =
                record.amendments().into_iter().filter(|a| !known.contains(&a.id)).filter_map(|a| match &a.payload {
                    Payload::Amendment(amendment) => Some(amendment.why.clone()),
                    _ => None,
                });
            out.push(Changed { id, kind: kind.to_owned(), change, title: title(record.payload()), why: why.collect() });
        }
    }
    out
}

fn title(payload: &Payload) -> String {
    match payload {
        Payload::Finding(f) => f.title.clone(),
        Payload::Recommendation(r) => r.title.clone(),
        Payload::NotSeen(n) => {
            let member = n.member.replace('-', " ");
            if n.place.is_empty() { member } else { format!("{member}, {}", n.place) }
        }
        Payload::EstimateLine(l) => l.item.clone(),
        Payload::OpinionOfValue(v) => format!("{} {} to {}", v.currency, v.low, v.high),
        Payload::FollowUp(f) => f.text.clone(),
        _ => String::new(),
    }
}

impl State {
    /// Returns the last entry of each device, by device: they name, through the hashes that run back from them, the whole
    /// set of entries.
    pub fn heads(&self) -> Vec<Head> {
        let mut last: BTreeMap<&str, &Entry> = BTreeMap::new();
        let entries = self.entries();
        for entry in &entries {
            last.insert(&entry.device, entry);
        }
        last.into_iter().map(|(device, entry)| Head { device: device.to_owned(), hash: entry.hash() }).collect()
    }

    /// Returns the survey as it stood when a report went out: the entries that the report's heads name or, for a report
    /// issued without them, those written before it. `None` when they are not all here, or do not give the digest that the
    /// report names.
    pub fn as_issued(&self, issued: &View<'_, ReportIssued>) -> Option<State> {
        let entries = self.entries();
        let chosen: Vec<Entry> = match issued.payload.issue.as_ref().filter(|issue| !issue.heads.is_empty()) {
            Some(issue) => {
                let by_hash: HashMap<Digest, &Entry> = entries.iter().map(|e| (e.hash(), *e)).collect();
                let mut chosen = Vec::new();
                for head in &issue.heads {
                    let mut at = Some(head.hash);
                    // A chain is as long as the survey at most, so a ring of forged hashes ends too.
                    for _ in 0..=entries.len() {
                        let Some(hash) = at else { break };
                        let entry = by_hash.get(&hash)?;
                        chosen.push((*entry).clone());
                        at = entry.prev;
                    }
                }
                chosen
            }
            None => {
                let order = issued.record.first().order();
                entries.iter().filter(|e| e.order() < order).map(|e| (*e).clone()).collect()
            }
        };
        let state = State::fold(self.survey(), chosen);
        (state.digest() == issued.payload.field_book).then_some(state)
    }
}
