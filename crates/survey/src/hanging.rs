//! What hangs on an entry: what must be looked at again when it is withdrawn.

use crate::payload::Payload;
use crate::{EntryId, State};
use std::collections::BTreeSet;

/// A record that rests on another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hanging {
    /// The record.
    pub id: EntryId,
    /// Its kind, as written.
    pub kind: String,
    /// What it is called.
    pub title: String,
    /// The record it rests on: the one asked for, or one that hangs on that.
    pub on: EntryId,
}

/// Returns the standing records that rest on an entry: findings on what they were drawn from, recommendations on findings,
/// lines of the estimate and follow-ups on recommendations, and so on down.
pub fn hanging_on(state: &State, id: EntryId) -> Vec<Hanging> {
    let mut out: Vec<Hanging> = Vec::new();
    let mut done: BTreeSet<EntryId> = BTreeSet::from([id]);
    let mut open = vec![id];
    while let Some(on) = open.pop() {
        for record in state.records().into_iter().filter(|record| !record.is_withdrawn()) {
            let (rests, title) = match record.payload() {
                Payload::Finding(f) => (f.basis.contains(&on), f.title.clone()),
                Payload::Recommendation(r) => (r.findings.contains(&on), r.title.clone()),
                Payload::EstimateLine(l) => (l.recommendation == Some(on), l.item.clone()),
                Payload::FollowUp(f) => (f.recommendation == on, f.text.clone()),
                _ => continue,
            };
            let own = record.first().id;
            if rests && done.insert(own) {
                out.push(Hanging { id: own, kind: record.first().kind().to_owned(), title, on });
                open.push(own);
            }
        }
    }
    out
}
