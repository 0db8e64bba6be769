//! Names of entries, made from their moment and label, so that they are the same every time.

use survey::{Digest, EntryId, SurveyId};
use uuid::Uuid;

/// Returns the survey's name.
pub(crate) fn of_survey(began_ms: u64) -> SurveyId {
    SurveyId::new(version_7(began_ms, "the survey of Marram"))
}

/// Returns an entry's name.
pub(crate) fn of_entry(at_ms: u64, label: &str) -> EntryId {
    EntryId::new(version_7(at_ms, label))
}

/// Lays out a UUID of version 7 (RFC 9562, section 5.7) with the digest of a label in place of chance.
fn version_7(at_ms: u64, label: &str) -> Uuid {
    let digest = Digest::of(label.as_bytes());
    let mut chance = [0; 10];
    chance.copy_from_slice(&digest.bytes()[..10]);
    uuid::Builder::from_unix_timestamp_millis(at_ms, &chance).into_uuid()
}
