//! The hybrid logical clock: wall time that never runs backwards and never ties on one device.
//!
//! After Kulkarni, Demirbas, Madappa, Avva and Leone, "Logical Physical Clocks", OPODIS 2014.

use serde::{Deserialize, Serialize};
use std::fmt;

/// A moment on the hybrid logical clock. Ordered by wall time, then by count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Stamp {
    /// Milliseconds since 1970-01-01 UTC, as far as the writing device knew.
    pub ms: u64,
    /// Count of entries within, or ahead of, that millisecond.
    pub n: u32,
}

impl Stamp {
    /// Returns the moment as civil time in UTC, when it is within the calendar.
    pub fn utc(self) -> Option<jiff::Timestamp> {
        i64::try_from(self.ms).ok().and_then(|ms| jiff::Timestamp::from_millisecond(ms).ok())
    }
}

impl fmt::Display for Stamp {
    /// Writes RFC 3339 in UTC to the second, e.g. `2026-06-03T09:12:44Z`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.utc() {
            Some(time) => write!(f, "{time:.0}"),
            None => write!(f, "{} ms", self.ms),
        }
    }
}

/// A device's clock. Holds the latest moment seen, written here or read from others.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Clock {
    latest: Stamp,
}

impl Clock {
    /// Returns a clock that has seen the given moment.
    pub fn after(latest: Stamp) -> Self {
        Self { latest }
    }

    /// Returns the moment for the next entry, later than every one seen, given the wall time in milliseconds.
    pub fn tick(&mut self, wall_ms: u64) -> Stamp {
        self.latest = if wall_ms > self.latest.ms {
            Stamp { ms: wall_ms, n: 0 }
        } else {
            match self.latest.n.checked_add(1) {
                Some(n) => Stamp { ms: self.latest.ms, n },
                None => Stamp { ms: self.latest.ms.saturating_add(1), n: 0 },
            }
        };
        self.latest
    }

    /// Takes note of a moment read from another device.
    pub fn see(&mut self, stamp: Stamp) {
        self.latest = self.latest.max(stamp);
    }
}
