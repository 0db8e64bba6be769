//! What a package says of itself.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use survey::{Digest, SurveyId};

/// The form of packages that this version writes, and the last that it reads.
pub(super) const FORM: u32 = 1;

pub(super) const MANIFEST: &str = "package.json";
pub(super) const HASHES: &str = "hashes.txt";
pub(super) const ENTRIES: &str = "entries.jsonl";

/// The content of `package.json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Manifest {
    /// The form of the package.
    pub package: u32,
    pub surveys: Vec<SurveyIn>,
    pub attachments: Vec<AttachmentIn>,
    /// Attachments that entries name but that are left out.
    pub left_out: Vec<Digest>,
}

/// A survey in a package.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SurveyIn {
    pub survey: SurveyId,
    /// How many of its entries are here.
    pub entries: u64,
    /// Digest of the field book: SHA-256 over the entries' hashes, sorted, 32 bytes each.
    pub field_book: Digest,
}

/// An attachment in a package.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AttachmentIn {
    pub sha256: Digest,
    pub bytes: u64,
}

/// Returns the name of an attachment's member.
pub(super) fn member_of(sha256: &Digest) -> String {
    let name = sha256.to_string();
    format!("attachments/{}/{name}", &name[..2])
}

/// Returns what a package says of its surveys, given the hashes of each one's entries.
pub(super) fn surveys_in(hashes: BTreeMap<SurveyId, Vec<Digest>>) -> Vec<SurveyIn> {
    let one = |(survey, mut hashes): (SurveyId, Vec<Digest>)| {
        hashes.sort();
        let joined: Vec<u8> = hashes.iter().flat_map(|hash| *hash.bytes()).collect();
        SurveyIn { survey, entries: hashes.len() as u64, field_book: Digest::of(&joined) }
    };
    hashes.into_iter().map(one).collect()
}
