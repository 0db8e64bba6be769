//! One entry: a line of JSON, and what is read from it.

use crate::payload::Payload;
use crate::{Clock, Digest, EntryId, Stamp, SurveyId};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

/// Version of the entry's written form.
pub const FORMAT: u32 = 1;

/// Longest line accepted, in bytes. Notes of many pages fit; pictures belong into attachments.
pub const LONGEST_LINE: usize = 4 << 20;

/// Why a line is not an entry.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EntryFault {
    /// The line is not the JSON of an entry.
    #[error("the line is not an entry: {0}")]
    Shape(String),
    /// The line is longer than any entry may be.
    #[error("the line has {bytes} bytes; accepted are up to {LONGEST_LINE}")]
    TooLong {
        /// Its length.
        bytes: usize,
    },
    /// The line is written in a newer form.
    #[error("entry {id} is written in form {format}; this version reads forms up to {FORMAT}")]
    Newer {
        /// The entry.
        id: EntryId,
        /// Its form.
        format: u32,
    },
}

/// An entry of the field book. Never changed once written.
///
/// The entry *is* its line: [`Entry::hash`] is SHA-256 of the line's bytes, without the line's end, and the line
/// is passed on as it came, so that fields and kinds of newer versions survive unread.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its name.
    pub id: EntryId,
    /// The survey it belongs to.
    pub survey: SurveyId,
    /// Who wrote it.
    pub author: String,
    /// On which device.
    pub device: String,
    /// When, on the hybrid logical clock.
    pub time: Stamp,
    /// Hash of the entry that the same device wrote before it in this survey; none for its first.
    pub prev: Option<Digest>,
    /// What it says.
    pub payload: Payload,
    hash: Digest,
    line: Box<str>,
}

impl PartialEq for Entry {
    /// Entries are equal when their lines are.
    fn eq(&self, other: &Self) -> bool {
        self.hash == other.hash
    }
}

/// The line's shape, for writing.
#[derive(Serialize)]
struct Written<'a> {
    format: u32,
    id: EntryId,
    survey: SurveyId,
    author: &'a str,
    device: &'a str,
    time: Stamp,
    prev: Option<Digest>,
    kind: &'a str,
    payload: &'a RawValue,
}

/// The line's shape, for reading; fields that a newer version adds are passed over here and kept in the line.
#[derive(Deserialize)]
struct Read<'a> {
    format: u32,
    id: EntryId,
    survey: SurveyId,
    author: String,
    device: String,
    time: Stamp,
    prev: Option<Digest>,
    kind: String,
    #[serde(borrow)]
    payload: &'a RawValue,
}

impl Entry {
    /// Reads an entry from its line, with or without a line's end.
    pub fn read(line: &str) -> Result<Self, EntryFault> {
        let line = line.strip_suffix('\n').unwrap_or(line);
        if line.len() > LONGEST_LINE {
            return Err(EntryFault::TooLong { bytes: line.len() });
        }
        if line.contains(['\n', '\r']) {
            return Err(EntryFault::Shape("it is broken over several lines".to_owned()));
        }
        let read: Read = serde_json::from_str(line).map_err(|fault| EntryFault::Shape(fault.to_string()))?;
        if read.format > FORMAT {
            return Err(EntryFault::Newer { id: read.id, format: read.format });
        }
        Ok(Self {
            id: read.id,
            survey: read.survey,
            author: read.author,
            device: read.device,
            time: read.time,
            prev: read.prev,
            payload: Payload::read_lenient(&read.kind, read.payload.get()),
            hash: Digest::of(line.as_bytes()),
            line: line.into(),
        })
    }

    /// Returns its line, without a line's end.
    pub fn line(&self) -> &str {
        &self.line
    }

    /// Returns SHA-256 of its line.
    pub fn hash(&self) -> Digest {
        self.hash
    }

    /// Returns the kind's name as written.
    pub fn kind(&self) -> &str {
        self.payload.kind()
    }

    /// Returns the payload as the JSON text it was written in.
    pub fn payload_json(&self) -> String {
        serde_json::from_str::<Read>(&self.line)
            .map_or_else(|_| "null".to_owned(), |read| read.payload.get().to_owned())
    }

    /// Returns its place in the order of all entries: by time, ties by name.
    pub fn order(&self) -> (Stamp, EntryId) {
        (self.time, self.id)
    }
}

/// Writes one device's entries in one survey: keeps the clock and the hash of the entry before.
#[derive(Clone, Debug)]
pub struct Pen {
    survey: SurveyId,
    author: String,
    device: String,
    clock: Clock,
    prev: Option<Digest>,
}

impl Pen {
    /// Returns the pen of a device that has not written in this survey yet.
    pub fn new(survey: SurveyId, author: impl Into<String>, device: impl Into<String>) -> Self {
        Self { survey, author: author.into(), device: device.into(), clock: Clock::default(), prev: None }
    }

    /// Returns the pen of a device that goes on after its last entry, having seen entries up to `latest`.
    pub fn after(mut self, prev: Option<Digest>, latest: Stamp) -> Self {
        self.prev = prev;
        self.clock = Clock::after(latest);
        self
    }

    /// Takes note of an entry by another device, so that what is written next is later.
    pub fn see(&mut self, stamp: Stamp) {
        self.clock.see(stamp);
    }

    /// Writes an entry. `id` is a UUID of version 7 that the caller drew; `wall_ms` the time of day in
    /// milliseconds since 1970-01-01 UTC.
    pub fn write(&mut self, id: EntryId, wall_ms: u64, payload: &Payload) -> Entry {
        let json = RawValue::from_string(payload.to_json()).unwrap_or_else(|_| RawValue::NULL.to_owned());
        let time = self.clock.tick(wall_ms);
        let written = Written {
            format: FORMAT,
            id,
            survey: self.survey,
            author: &self.author,
            device: &self.device,
            time,
            prev: self.prev,
            kind: payload.kind(),
            payload: &json,
        };
        // A struct of strings and numbers always serialises; an empty line would be refused by every reader.
        let line = serde_json::to_string(&written).unwrap_or_default();
        let hash = Digest::of(line.as_bytes());
        self.prev = Some(hash);
        Entry {
            id,
            survey: self.survey,
            author: self.author.clone(),
            device: self.device.clone(),
            time,
            prev: written.prev,
            payload: payload.clone(),
            hash,
            line: line.into(),
        }
    }
}
