//! Writing payloads down as a device's next entries.

use crate::{Store, StoreFault};
use survey::payload::Payload;
use survey::{Entry, EntryId, Pen, SurveyId};

/// Writes payloads down as the next entries of a device, in one go: all of them or none. Names are UUIDs of version 7
/// that the caller drew; `wall_ms` is the time of day in milliseconds since 1970-01-01 UTC.
pub fn write_down(
    store: &dyn Store,
    survey: SurveyId,
    author: &str,
    device: &str,
    wall_ms: u64,
    payloads: &[(EntryId, Payload)],
) -> Result<Vec<Entry>, StoreFault> {
    store.append_with(survey, device, &mut |head| {
        let mut pen = Pen::new(survey, author, device).after(head.prev, head.latest);
        Ok(payloads.iter().map(|(id, payload)| pen.write(*id, wall_ms, payload)).collect())
    })
}
