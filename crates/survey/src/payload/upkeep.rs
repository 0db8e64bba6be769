//! Kinds that speak of other entries: amendments, reports issued, follow-ups.

use super::{empty, far_day};
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
    /// How it was frozen and signed; left out by letters that went out without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub issue: Option<Issue>,
}

/// How a report was frozen and signed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Issue {
    /// The last entry of each device that the report was made from: they name the whole set of entries.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub heads: Vec<Head>,
    /// The checks that were overruled, each with the surveyor's reason.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub against: Vec<Against>,
    /// Who signed, as printed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub signed_by: String,
    /// The surveyor's public key (Ed25519, RFC 8032), 64 hexadecimal digits.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub public_key: String,
    /// The signature over file and field book (Ed25519, RFC 8032), 128 hexadecimal digits.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub signature: String,
}

/// The last entry of one device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Head {
    /// The device.
    pub device: String,
    /// Hash of its last entry.
    pub hash: Digest,
}

/// A check that a surveyor overruled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Against {
    /// The name of the rule.
    pub rule: String,
    /// How many things it found.
    pub found: u32,
    /// Why the report goes out all the same.
    pub reason: String,
}

impl ReportIssued {
    pub(super) fn impossible(&self) -> Option<String> {
        let no_reason = |a: &Against| a.reason.trim().is_empty();
        if self.issue.as_ref().is_some_and(|issue| issue.against.iter().any(no_reason)) {
            return Some("a check that is overruled needs a `reason`".to_owned());
        }
        (self.version == 0)
            .then(|| "`version` is counted from 1".to_owned())
            .or_else(|| far_day("date", Some(self.date)))
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
        empty("text", &self.text).or_else(|| far_day("date", self.date))
    }
}
