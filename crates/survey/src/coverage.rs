//! What has been looked at, what was not seen, and what is still owed.

use crate::payload::Condition;
use crate::{BoatMember, EntryId, State, members_of};
use std::collections::HashMap;

/// How far a member is covered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cover {
    /// Nothing is recorded of it.
    Owed,
    /// It is recorded as not seen, and nothing else is.
    NotSeen,
    /// Part was seen, and part is recorded as not seen.
    PartlySeen,
    /// It was looked at.
    Seen,
    /// Only hearsay is recorded.
    HearsayOnly,
}

/// A member with what is recorded of it.
#[derive(Clone, Debug)]
pub struct MemberCover {
    /// The member.
    pub member: BoatMember,
    /// How far it is covered.
    pub cover: Cover,
    /// The worst condition that a finding gives it.
    pub condition: Option<Condition>,
    /// Its observations.
    pub observations: Vec<EntryId>,
    /// Where it is recorded as not seen.
    pub not_seen: Vec<EntryId>,
    /// Its findings.
    pub findings: Vec<EntryId>,
}

/// Returns all members of the boat with what is recorded of each, in the catalogue's order. A member that is
/// observed though the boat is not said to have it is added at the end.
pub fn coverage(state: &State) -> Vec<MemberCover> {
    let mut members = members_of(state);
    let known: std::collections::HashSet<String> = members.iter().map(|m| m.id.clone()).collect();
    let mut extra: Vec<String> = Vec::new();
    let named = state
        .observations()
        .map(|o| o.payload.member.as_str())
        .chain(state.not_seen().map(|n| n.payload.member.as_str()))
        .chain(state.findings().map(|f| f.payload.member.as_str()));
    for id in named {
        if !known.contains(id) && !extra.iter().any(|e| e == id) {
            extra.push(id.to_owned());
        }
    }
    let language = crate::language_of(state);
    members.extend(extra.into_iter().map(|id| {
        let of_catalogue = crate::catalogue_member(&id);
        BoatMember {
            name: of_catalogue.map_or_else(|| id.replace('-', " "), |m| m.called(language).to_owned()),
            group: of_catalogue.map_or_else(|| "added by the surveyor".to_owned(), |m| m.group.clone()),
            each_side: of_catalogue.is_some_and(|m| m.each_side),
            count: None,
            why_inaccessible: None,
            consequence: of_catalogue.and_then(|m| m.consequence),
            added: true,
            id,
        }
    }));
    let mut covers: Vec<MemberCover> = members
        .into_iter()
        .map(|member| MemberCover {
            member,
            cover: Cover::Owed,
            condition: None,
            observations: Vec::new(),
            not_seen: Vec::new(),
            findings: Vec::new(),
        })
        .collect();
    let at: HashMap<String, usize> = covers.iter().enumerate().map(|(i, c)| (c.member.id.clone(), i)).collect();
    let mut first_hand = vec![false; covers.len()];
    for o in state.observations() {
        if let Some(&i) = at.get(&o.payload.member) {
            covers[i].observations.push(o.id());
            first_hand[i] |= !o.payload.is_hearsay();
        }
    }
    for n in state.not_seen() {
        if let Some(&i) = at.get(&n.payload.member) {
            covers[i].not_seen.push(n.id());
        }
    }
    for f in state.findings() {
        if let Some(&i) = at.get(&f.payload.member) {
            covers[i].findings.push(f.id());
            covers[i].condition = covers[i].condition.max(Some(f.payload.condition));
        }
    }
    for (cover, seen) in covers.iter_mut().zip(first_hand) {
        cover.cover = match (seen, cover.not_seen.is_empty()) {
            (true, true) => Cover::Seen,
            (true, false) => Cover::PartlySeen,
            (false, false) => Cover::NotSeen,
            (false, true) if cover.observations.is_empty() => Cover::Owed,
            (false, true) => Cover::HearsayOnly,
        };
    }
    covers
}
