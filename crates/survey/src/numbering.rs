//! The order and numbers of findings, the same in the report, on the plans and on the screen.

use crate::payload::Finding;
use crate::{EntryId, State, View, coverage};
use std::collections::BTreeMap;

/// Returns the findings by part of the boat, in the order in which they are printed: parts and members as in the
/// catalogue, findings of one member as they were begun. Parts without findings are there too.
pub fn findings_by_part(state: &State) -> Vec<(String, Vec<View<'_, Finding>>)> {
    let covers = coverage(state);
    let mut parts: Vec<(String, Vec<View<'_, Finding>>)> = Vec::new();
    let mut place_of: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (order, cover) in covers.iter().enumerate() {
        let part = match parts.iter().position(|(name, _)| *name == cover.member.group) {
            Some(part) => part,
            None => {
                parts.push((cover.member.group.clone(), Vec::new()));
                parts.len() - 1
            }
        };
        place_of.insert(cover.member.id.as_str(), (part, order));
    }
    let mut findings: Vec<_> = state.findings().collect();
    let place = |finding: &View<'_, Finding>| place_of.get(finding.payload.member.as_str()).copied();
    findings.sort_by_key(|finding| place(finding).map_or(usize::MAX, |(_, order)| order));
    for finding in findings {
        // Coverage lists every member that a finding names, so each has its part.
        if let Some((part, _)) = place(&finding) {
            parts[part].1.push(finding);
        }
    }
    parts
}

/// Returns the number by which each finding is called, from 1.
pub fn finding_numbers(state: &State) -> BTreeMap<EntryId, u32> {
    let parts = findings_by_part(state);
    parts.iter().flat_map(|(_, findings)| findings).map(View::id).zip(1..).collect()
}
