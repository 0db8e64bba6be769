//! What a browser keeps count of in one survey, and what becomes of entries that are written here or come in.
//!
//! Nothing of the browser is in here: IndexedDB carries out what is decided here, and so does the model in the tests.
//!
//! Every entry kept has a number, in the order in which it came to this browser, from 1. Those that the server is not
//! known to have are *queued*. An entry leaves the queue only when the server hands it back: an acknowledgement alone
//! would be forgotten if the server were put back to an older copy of its store.

use serde::{Deserialize, Serialize};
use survey::payload::Payload;
use survey::{Digest, Entry, EntryId, Pen, Stamp, SurveyId};

/// Where a browser stands in a survey.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Book {
    /// The name under which `prev` was written.
    device: String,
    /// Hash of the last entry written here under that name.
    prev: Option<Digest>,
    /// The latest time of any entry kept, by whatever device.
    latest: Stamp,
    /// How many entries are kept; the number of the last one.
    kept: u64,
    /// The server's position up to which everything was fetched.
    cursor: u64,
    /// Hash of the entry at that position, by which the server's store is known again.
    anchor: Option<Digest>,
    /// How often fetching started over.
    era: u32,
}

/// What the server was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    cursor: u64,
    anchor: Option<Digest>,
    era: u32,
}

impl Asked {
    /// Returns the position after which to ask. The last entry fetched is asked for once more: if another one is in
    /// its place, the store is not the one that was fetched from.
    pub fn after(&self) -> u64 {
        if self.anchor.is_some() { self.cursor.saturating_sub(1) } else { 0 }
    }
}

/// Entries that came in, sorted by what is to be done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CameIn {
    /// To be kept, each under its number.
    pub fresh: Vec<(u64, Entry)>,
    /// Numbers that the server has, to be taken off the queue.
    pub there: Vec<u64>,
    /// Whether the fresh ones are to be queued.
    pub queue: bool,
    /// Whether one of them bears this browser's own name and is not of its writing: the browser's store was copied,
    /// or put back to an older state. It needs a new name before it writes again.
    pub name_is_shared: bool,
}

/// What the server's answer means.
#[derive(Clone, Debug, PartialEq)]
pub enum Answered {
    /// These came.
    Entries(CameIn),
    /// The store is another one, or has lost entries. Fetching starts over, and all that is kept is to be queued;
    /// what the server has leaves the queue again as it is fetched.
    OtherStore,
}

impl Book {
    /// Returns how many entries are kept.
    pub fn kept(&self) -> u64 {
        self.kept
    }

    /// Writes payloads down under a device's name: the entries to be kept and queued, each under its number.
    pub fn write(
        &mut self,
        survey: SurveyId,
        author: &str,
        device: &str,
        wall_ms: u64,
        payloads: &[(EntryId, Payload)],
    ) -> Vec<(u64, Entry)> {
        if self.device != device {
            self.device = device.to_owned();
            self.prev = None;
        }
        let mut pen = Pen::new(survey, author, device).after(self.prev, self.latest);
        payloads
            .iter()
            .map(|(id, payload)| {
                let entry = pen.write(*id, wall_ms, payload);
                self.prev = Some(entry.hash());
                self.number(entry)
            })
            .collect()
    }

    /// Returns what to ask the server.
    pub fn ask(&self) -> Asked {
        Asked { cursor: self.cursor, anchor: self.anchor, era: self.era }
    }

    /// Takes the server's answer: entries in the order of its positions, and the position of the last.
    ///
    /// `device` is this browser's name, `number_of` tells under which number an entry is kept. An answer to what was
    /// asked before fetching started over, or that another window has overtaken, brings its entries and nothing else.
    pub fn answered(
        &mut self,
        device: &str,
        asked: &Asked,
        entries: Vec<Entry>,
        cursor: u64,
        number_of: impl Fn(&Digest) -> Option<u64>,
    ) -> Answered {
        if *asked != self.ask() {
            return Answered::Entries(self.bring_in(device, entries, number_of));
        }
        if asked.anchor.is_some() && entries.first().map(Entry::hash) != asked.anchor {
            self.start_over();
            return Answered::OtherStore;
        }
        if let Some(last) = entries.last() {
            self.cursor = cursor;
            self.anchor = Some(last.hash());
        }
        let there = entries.iter().filter_map(|entry| number_of(&entry.hash())).collect();
        let fresh = self.bring_in(device, entries, number_of);
        Answered::Entries(CameIn { there, queue: false, ..fresh })
    }

    /// Takes entries that came otherwise than from the server, in a package say: those not kept yet are to be kept
    /// and queued.
    pub fn bring_in(
        &mut self,
        device: &str,
        entries: Vec<Entry>,
        number_of: impl Fn(&Digest) -> Option<u64>,
    ) -> CameIn {
        let mut came = CameIn { queue: true, ..CameIn::default() };
        let mut seen = std::collections::BTreeSet::new();
        for entry in entries {
            if number_of(&entry.hash()).is_some() || !seen.insert(entry.hash()) {
                continue;
            }
            came.name_is_shared |= entry.device == device;
            came.fresh.push(self.number(entry));
        }
        came
    }

    /// Forgets how far was fetched. The caller queues all that is kept.
    pub fn start_over(&mut self) {
        self.cursor = 0;
        self.anchor = None;
        self.era = self.era.wrapping_add(1);
    }

    fn number(&mut self, entry: Entry) -> (u64, Entry) {
        self.kept += 1;
        self.latest = self.latest.max(entry.time);
        (self.kept, entry)
    }
}
