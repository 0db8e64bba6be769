//! The certificate, what changed since the version before, and the letterhead.

use super::Row;
use serde::Serialize;

/// The page that says what was issued, by whom, and how to check it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Certificate {
    /// Vessel, version, day, to whom, survey: labelled lines.
    pub rows: Vec<Row>,
    /// Number of entries in the field book that it was made from.
    pub entries: u64,
    /// SHA-256 of that field book.
    pub sha256: String,
    /// The surveyor's public key, 64 hexadecimal digits.
    pub public_key: String,
    /// How to check it, in sentences.
    pub words: Vec<String>,
    /// Checks before issue that the surveyor overruled: what was asked, and why the report goes out all the same.
    pub against: Vec<Row>,
}

/// What changed since the version before.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Changes {
    /// Since which version, in a sentence.
    pub since: String,
    /// What was added, amended and withdrawn: labelled lines.
    pub lines: Vec<Row>,
}

/// What stands at the head of the title page: whose report it is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Letterhead {
    /// Lines: name of the practice, address, how to reach it.
    pub lines: Vec<String>,
    /// Licences and memberships, as the surveyor states them.
    pub licences: Vec<String>,
}
