//! Which attachments entries name.

use survey::payload::Payload;
use survey::{Digest, Entry, EntryId};

/// An attachment as an entry names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// Its length, where the entry states it.
    pub bytes: Option<u64>,
    /// The entry.
    pub entry: EntryId,
    /// Whether the record is incomplete without it. Not so for what only looks like the name of an attachment, in
    /// an entry of a kind that this version does not know.
    pub required: bool,
}

/// Returns the attachment that an entry names, if any: a photograph, recording or paper, the file of a report that
/// went out, or whatever an amendment puts in place of one of these.
pub(crate) fn named_by(entry: &Entry) -> Option<Named> {
    let named = |sha256, bytes, required| Some(Named { sha256, bytes, entry: entry.id, required });
    match &entry.payload {
        Payload::Attachment(attachment) => named(attachment.sha256, Some(attachment.bytes), true),
        Payload::ReportIssued(report) => named(report.sha256, None, true),
        Payload::Amendment(amendment) => {
            let new = amendment.payload.as_ref()?;
            let sha256 = new.get("sha256")?.as_str()?.parse().ok()?;
            named(sha256, new.get("bytes").and_then(serde_json::Value::as_u64), true)
        }
        Payload::Unknown { .. } => {
            let new: serde_json::Value = serde_json::from_str(&entry.payload_json()).ok()?;
            named(new.get("sha256")?.as_str()?.parse().ok()?, None, false)
        }
        _ => None,
    }
}
