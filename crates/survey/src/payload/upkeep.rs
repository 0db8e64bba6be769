//! Kinds that speak of other entries: amendments, reports issued, follow-ups.

use super::empty;
use crate::reading::words;
use crate::{Digest, EntryId};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::fmt;

/// A correction of an earlier entry. The earlier one stays; the latest amendment shows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Amendment {
    /// The entry, or earlier amendment, that the writer had before them.
    pub amends: EntryId,
    /// Other amendments of the same entry that the writer had before them too: this one settles between them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub settles: Vec<EntryId>,
    /// Why.
    pub why: String,
    /// What the entry now says, whole, in the shape of its kind. Left out when it is withdrawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub payload: Option<Value>,
}

impl Amendment {
    /// Tells whether the entry is withdrawn: it no longer counts, though it stays readable.
    pub fn withdraws(&self) -> bool {
        self.payload.is_none()
    }

    pub(super) fn impossible(&self) -> Option<String> {
        if self.payload.as_ref().is_some_and(|p| !p.is_object()) {
            return Some("`payload` is a JSON object, or left out to withdraw the entry".to_owned());
        }
        empty("why", &self.why)
    }
}

/// A report that went out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReportIssued {
    /// Version, from 1.
    pub version: u32,
    /// The day.
    pub date: Date,
    /// Digest of the field book it was made from.
    pub field_book: Digest,
    /// SHA-256 of the file.
    pub sha256: Digest,
    /// To whom.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub addressees: Vec<String>,
    /// What changed since the version before.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub changes: String,
}

impl ReportIssued {
    pub(super) fn impossible(&self) -> Option<String> {
        (self.version == 0).then(|| "`version` is counted from 1".to_owned())
    }
}

words!(
    /// Where a recommendation stands.
    FollowUpStanding {
        /// Not done.
        Open => "open",
        /// Done and seen.
        Closed => "closed",
        /// Overtaken by something else.
        Superseded => "superseded",
    }
);

/// What became of a recommendation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FollowUp {
    /// The recommendation.
    pub recommendation: EntryId,
    /// When it was looked at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// Where it stands.
    pub standing: FollowUpStanding,
    /// What was done, and how it was seen; whose word it is when it was not seen.
    pub text: String,
}

impl FollowUp {
    pub(super) fn impossible(&self) -> Option<String> {
        empty("text", &self.text)
    }
}
