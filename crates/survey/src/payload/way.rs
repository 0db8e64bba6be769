//! Rival ways of doing what a recommendation asks.

use super::finding::Urgency;
use crate::reading::words;
use serde::{Deserialize, Serialize};
use std::fmt;

words!(
    /// What is done about a fault, from least to most.
    WayKind {
        /// Left as it is, and watched.
        LeaveAndWatch => "leave and watch",
        /// Protected from what makes it worse.
        Protect => "protect",
        /// Repaired where it is.
        RepairInPlace => "repair in place",
        /// Taken out and renewed.
        Renew => "renew",
    }
);

/// One way of doing what a recommendation asks, to be weighed against the others.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// What is done.
    pub kind: WayKind,
    /// How, in words, where the kind does not say enough.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub how: String,
    /// What it needs: skill, timber, time, access, dry weather.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub needs: String,
    /// How long it lasts.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lasts: String,
    /// What it risks.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub risks: String,
    /// What else it opens up: what must come off, and what will be seen or disturbed then.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub opens: String,
    /// When it must be done, where that differs from the recommendation's own urgency.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub urgency: Option<Urgency>,
    /// Who must do or check it, where that differs from the recommendation's own.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub who: String,
    /// Whether this is the way the surveyor advises.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub advised: bool,
}

/// Returns why a list of rival ways cannot be.
pub(super) fn fault(ways: &[Way]) -> Option<String> {
    if ways.iter().filter(|way| way.advised).count() > 1 {
        return Some("more than one of the `ways` is `advised`; accepted is one, or none".to_owned());
    }
    let twice = |(i, way): (usize, &Way)| ways[..i].iter().any(|other| other.kind == way.kind && other.how == way.how);
    let at = ways.iter().enumerate().position(twice)?;
    Some(format!("`ways[{at}]` ({}) stands there twice; tell two ways of one kind apart in `how`", ways[at].kind))
}
