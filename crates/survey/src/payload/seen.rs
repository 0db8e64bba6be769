//! Kinds that the walk round the boat gives: members had, observations, attachments, what was not seen,
//! and reckonings.

use super::{empty, far_day};
use crate::{Digest, EntryId, Place, Reading};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// A member that this boat has beside those of the catalogue, or one of the catalogue that she lacks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MemberHad {
    /// Name in the catalogue, or a new one of the surveyor's (lower case, words joined by hyphens).
    pub member: String,
    /// Whether she has it.
    pub has: bool,
    /// What it is called, for a member of the surveyor's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The group it belongs to, for a member of the surveyor's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<String>,
    /// Whether there is one on each side, for a member of the surveyor's own.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub each_side: bool,
    /// How many, when counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl MemberHad {
    pub(super) fn impossible(&self) -> Option<String> {
        member_name("member", &self.member)
    }
}

/// Something found out about a member, at a place, by a method.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Observation {
    /// The member, by its name in the catalogue or the surveyor's own.
    pub member: String,
    /// Where.
    #[serde(default, skip_serializing_if = "Place::is_empty")]
    pub place: Place,
    /// The reading, typed by its method.
    pub reading: Reading,
    /// What else is to be said, in the surveyor's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The day on which it was found out, when that is not the day on which it is written down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen_on: Option<Date>,
}

impl Observation {
    /// Returns an observation without a note, found out on the day on which it is written down.
    pub fn new(member: impl Into<String>, place: Place, reading: Reading) -> Self {
        Self { member: member.into(), place, reading, note: String::new(), seen_on: None }
    }

    /// Tells whether the observation is somebody's word, not the surveyor's own.
    pub fn is_hearsay(&self) -> bool {
        matches!(self.reading, Reading::Ask { .. })
    }

    pub(super) fn impossible(&self) -> Option<String> {
        member_name("member", &self.member)
            .or_else(|| self.place.fault())
            .or_else(|| self.reading.fault())
            .or_else(|| match &self.reading {
                Reading::Sight { signs } if signs.is_empty() => empty("note", &self.note),
                _ => None,
            })
            .or_else(|| far_day("seen_on", self.seen_on))
    }
}

/// A photograph, recording or paper, kept whole beside the record and named by its digest.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Attachment {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// Its length in bytes.
    pub bytes: u64,
    /// Its media type, e.g. `image/jpeg`.
    pub media_type: String,
    /// The file's own name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub file_name: String,
    /// What it shows, for the caption.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub caption: String,
    /// What it shows, for someone who cannot see it; the caption when left out.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub alternative: String,
    /// The entry it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<EntryId>,
    /// When it was taken, as the camera says (RFC 3339, or EXIF's local time when it names no zone).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<String>,
    /// Where it was taken, when kept on purpose: latitude and longitude in degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub position_deg: Option<(f64, f64)>,
}

impl Attachment {
    pub(super) fn impossible(&self) -> Option<String> {
        empty("media_type", &self.media_type).or_else(|| match self.position_deg {
            Some((lat, lon)) if lat.abs() <= 90.0 && lon.abs() <= 180.0 => None,
            None => None,
            Some(_) => Some("`position_deg` is not a latitude and a longitude in degrees".to_owned()),
        })
    }
}

/// A member, or part of one, that was not seen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NotSeen {
    /// The member.
    pub member: String,
    /// Which part of it; the whole member when left out.
    #[serde(default, skip_serializing_if = "Place::is_empty")]
    pub place: Place,
    /// Why it was not seen: names the barrier.
    pub why: String,
    /// What it would take to see it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub needs: String,
}

impl NotSeen {
    pub(super) fn impossible(&self) -> Option<String> {
        member_name("member", &self.member).or_else(|| empty("why", &self.why)).or_else(|| self.place.fault())
    }
}

/// A computation kept in the record, with all that is needed to do it again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reckoning {
    /// The topic, as in the table of reckoners.
    pub topic: String,
    /// The topic's version when it was reckoned.
    pub version: u32,
    /// The inputs as understood, in the units of their names.
    pub inputs: Value,
    /// The results, in the units of their names.
    pub results: Value,
    /// The equation or method.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub equation: String,
    /// Sources.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sources: Vec<String>,
    /// Cautions.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
    /// The member it is about, when it is about one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub member: Option<String>,
    /// What the surveyor takes from it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Reckoning {
    pub(super) fn impossible(&self) -> Option<String> {
        if !self.inputs.is_object() || !self.results.is_object() {
            return Some("`inputs` and `results` are JSON objects".to_owned());
        }
        empty("topic", &self.topic)
    }
}

/// Returns a fault when a member's name cannot be one.
pub(super) fn member_name(field: &str, name: &str) -> Option<String> {
    let good = !name.is_empty()
        && name.len() <= 60
        && name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    (!good).then(|| {
        let given: String = name.chars().filter(|c| !c.is_control()).take(40).collect();
        format!("`{field}` is `{given}`; accepted are lower-case letters, digits and hyphens, as in `sheer-strake`")
    })
}
