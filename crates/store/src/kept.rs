//! What a store keeps, and what it says about it.

use crate::StoreFault;
use serde::{Deserialize, Serialize};
use std::fmt;
use survey::{Digest, Entry, EntryId, Stamp, SurveyId};

/// A place in the order in which entries came to one store. Means nothing in another store.
///
/// Whoever reads everything after a position and remembers the last one seen misses nothing: entries that come later
/// have greater positions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Position(pub u64);

impl Position {
    /// Before the first entry.
    pub const START: Self = Self(0);
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// An entry as it lies in the store: its line, unread, and what the store files it under.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptEntry {
    /// When it came, in the store's own order.
    pub position: Position,
    /// SHA-256 of the line, as it was when it came.
    pub hash: Digest,
    /// The entry's name.
    pub id: EntryId,
    /// The survey it is filed under.
    pub survey: SurveyId,
    /// The device it is filed under.
    pub device: String,
    /// The time it is filed under.
    pub time: Stamp,
    /// The line's bytes, without a line's end.
    pub line: Vec<u8>,
}

impl KeptEntry {
    pub(crate) fn of(entry: &Entry, position: Position) -> Self {
        Self {
            position,
            hash: entry.hash(),
            id: entry.id,
            survey: entry.survey,
            device: entry.device.clone(),
            time: entry.time,
            line: entry.line().as_bytes().to_vec(),
        }
    }

    /// Reads the entry, and makes sure that it is the one that came.
    pub fn read(&self) -> Result<Entry, StoreFault> {
        let damaged = |why: String| StoreFault::EntryDamaged { id: self.id, position: self.position, why };
        if Digest::of(&self.line) != self.hash {
            return Err(damaged("its bytes are not those that were recorded".to_owned()));
        }
        let line = std::str::from_utf8(&self.line).map_err(|_| damaged("it is not text".to_owned()))?;
        Entry::read(line).map_err(|fault| damaged(fault.to_string()))
    }
}

/// Where a device stands in a survey: what its next entry must follow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Head {
    /// Hash of the device's last entry in the survey; none before its first.
    pub prev: Option<Digest>,
    /// The latest time of any entry kept in the survey, by whatever device.
    pub latest: Stamp,
}

/// What is kept of a survey.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SurveyKept {
    /// The survey.
    pub survey: SurveyId,
    /// How many entries.
    pub entries: u64,
    /// Position of the entry that came last.
    pub last: Position,
    /// The latest time of any of them.
    pub latest: Stamp,
}

/// What came of entries handed over by another store.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Taken {
    /// How many were new and are now kept.
    pub new: u64,
    /// How many were there already.
    pub known: u64,
    /// Names under which an entry of other content was there already; both are kept.
    pub clashes: Vec<EntryId>,
}

/// An attachment that the store now has, whole and synced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeptAttachment {
    /// SHA-256 of its bytes, its name.
    pub sha256: Digest,
    /// Its length in bytes.
    pub bytes: u64,
    /// Whether it was not there before.
    pub new: bool,
}
