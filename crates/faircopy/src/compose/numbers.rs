//! The numbers by which findings, recommendations, observations and reckonings are called in the report.

use std::collections::{BTreeMap, BTreeSet};
use survey::payload::{Attachment, Finding, Observation, Recommendation};
use survey::{EntryId, State, View, coverage, finding_numbers, findings_by_part};

/// Numbers, each counted from 1 in the order of print.
pub(super) struct Numbers<'a> {
    pub(super) observations: BTreeMap<EntryId, u32>,
    pub(super) findings: BTreeMap<EntryId, u32>,
    pub(super) recommendations: BTreeMap<EntryId, u32>,
    pub(super) reckonings: BTreeMap<EntryId, u32>,
    /// Findings by part of the boat, in order.
    pub(super) parts: Vec<(String, Vec<View<'a, Finding>>)>,
    /// Member's name as printed, by its name in the record.
    names: BTreeMap<String, String>,
}

impl<'a> Numbers<'a> {
    pub(super) fn of(state: &'a State) -> Self {
        let covers = coverage(state);
        let names: BTreeMap<String, String> =
            covers.iter().map(|c| (c.member.id.clone(), c.member.name.clone())).collect();
        let parts = findings_by_part(state);

        let mut recommendations: Vec<View<'a, Recommendation>> = state.recommendations().collect();
        recommendations.sort_by_key(|r| (r.payload.urgency, r.payload.by.is_none(), r.payload.by));
        let count = |ids: Vec<EntryId>| ids.into_iter().zip(1..).collect();
        Self {
            observations: count(state.observations().map(|o| o.id()).collect()),
            findings: finding_numbers(state),
            recommendations: count(recommendations.iter().map(View::id).collect()),
            reckonings: count(state.reckonings().map(|r| r.id()).collect()),
            parts,
            names,
        }
    }

    /// Returns a member's name as printed.
    pub(super) fn member(&self, id: &str) -> String {
        self.names.get(id).cloned().unwrap_or_else(|| id.replace('-', " "))
    }

    /// Returns the findings that rest on an entry, by number.
    pub(super) fn findings_on(&self, id: EntryId) -> Vec<u32> {
        let all = self.parts.iter().flat_map(|(_, own)| own);
        all.filter(|f| f.payload.basis.contains(&id)).filter_map(|f| self.findings.get(&f.id()).copied()).collect()
    }
}

/// Returns the pictures that belong to a record.
pub(super) fn pictures_of<'a>(state: &'a State, id: EntryId) -> impl Iterator<Item = View<'a, Attachment>> {
    state.attachments_of(id).filter(|a| is_picture(a.payload))
}

/// Tells whether an attachment is a picture.
pub(super) fn is_picture(attachment: &Attachment) -> bool {
    attachment.media_type.starts_with("image/")
}

/// Returns where an observation's pictures are printed first: with the first finding that rests on it.
pub(super) fn observations_of(state: &State, finding: &Finding) -> Vec<EntryId> {
    let known: BTreeSet<EntryId> = state.all::<Observation>().map(|o| o.id()).collect();
    finding.basis.iter().copied().filter(|id| known.contains(id)).collect()
}
