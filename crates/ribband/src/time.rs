//! The time of day, read in this one place.

use survey::EntryId;

/// Returns milliseconds since 1970-01-01 UTC.
pub fn now_ms() -> u64 {
    u64::try_from(jiff::Timestamp::now().as_millisecond()).unwrap_or(0)
}

/// Returns the day it is at Greenwich.
pub fn today() -> jiff::civil::Date {
    jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date()
}

/// Returns a new identifier for an entry.
pub fn new_entry_id() -> EntryId {
    EntryId::new(uuid::Uuid::now_v7())
}
