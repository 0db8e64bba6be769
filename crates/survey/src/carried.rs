//! Beginning a next survey from the last: what is carried over.

use crate::payload::{CarriedFrom, Finding, FollowUpStanding, Payload, Recommendation};
use crate::{EntryId, State};
use std::collections::BTreeMap;

/// Returns what the next survey of the same boat begins with: her particulars and shape, the members she was found to have
/// or lack, and the recommendations that are still open, each naming the one it carries on. Nothing that was seen is
/// carried over: a next survey looks for itself.
pub fn carried_over(last: &State) -> Vec<Payload> {
    let mut out: Vec<Payload> = Vec::new();
    out.extend(last.vessel().map(|v| v.payload.clone().into()));
    out.extend(last.hull_form().map(|h| h.payload.clone().into()));
    out.extend(last.beforehand().map(|b| b.payload.clone().into()));
    out.extend(last.members_had().map(|m| m.payload.clone().into()));
    let mut standing: BTreeMap<EntryId, FollowUpStanding> = BTreeMap::new();
    for follow_up in last.follow_ups() {
        standing.insert(follow_up.payload.recommendation, follow_up.payload.standing);
    }
    for r in last.recommendations() {
        if standing.get(&r.id()).is_some_and(|s| *s != FollowUpStanding::Open) {
            continue;
        }
        let titles = r.payload.findings.iter().filter_map(|id| last.find::<Finding>(*id));
        let titles: Vec<String> = titles.map(|f| f.payload.title.clone()).collect();
        let earlier = r.payload.carried_from.clone().map(|c| c.findings).unwrap_or_default();
        let carried = Recommendation {
            findings: Vec::new(),
            carried_from: Some(CarriedFrom {
                survey: last.survey(),
                recommendation: r.id(),
                findings: if titles.is_empty() { earlier } else { titles },
            }),
            ..r.payload.clone()
        };
        out.push(carried.into());
    }
    out
}
