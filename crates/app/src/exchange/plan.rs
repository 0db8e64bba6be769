//! What to send next, and what an answer means; nothing of the browser is in here.
//!
//! The order is that of writing, and an attachment goes before the entry that names it. What the server refuses is
//! held back, by itself, so that it does not keep the rest from being sent; it stays queued and is told to the person.

use std::collections::{BTreeMap, BTreeSet};
use survey::payload::Payload;
use survey::{Digest, Entry};

/// Most entries sent at a time.
pub const MOST_ENTRIES: usize = 500;

/// Most bytes of lines sent at a time; a longer line goes alone.
pub const MOST_BYTES: usize = 1 << 20;

/// A queued entry, as far as sending needs to know it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// Its number.
    pub number: u64,
    /// Length of its line.
    pub bytes: usize,
    /// The attachment it names and that is kept here.
    pub attachment: Option<Digest>,
}

/// What to do next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// Make sure that the server has this attachment.
    Attachment(Digest),
    /// Send the entries of these numbers.
    Entries(Vec<u64>),
    /// Fetch, to hear back what was sent.
    HearBack,
    /// Nothing; whatever is still queued was refused.
    Rest,
}

/// What hearing back told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heard {
    /// All that was sent has come back.
    All,
    /// The server took entries and did not hand them back. They lie before the position up to which was fetched, as
    /// after the loss of part of its store: fetching must start over.
    NotAll,
    /// The same again after fetching had started over; there is no use in trying further.
    Never,
}

/// Where sending stands, for as long as a window does the sending.
#[derive(Clone, Debug, Default)]
pub struct Sending {
    sent: BTreeSet<u64>,
    held: BTreeMap<u64, String>,
    there: BTreeSet<Digest>,
    refused: BTreeMap<Digest, String>,
    narrowed: Option<usize>,
    started_over: bool,
}

impl Sending {
    /// Tells whether an entry of the queue is still to be sent.
    pub fn is_open(&self, number: u64) -> bool {
        !self.sent.contains(&number) && !self.held.contains_key(&number)
    }

    /// Returns the next step, given the first entries of the queue that are open.
    pub fn next(&self, open: &[Waiting]) -> Step {
        let mut numbers = Vec::new();
        let mut bytes = 0;
        for waiting in open {
            if let Some(sha256) = waiting.attachment.filter(|sha256| !self.there.contains(sha256)) {
                if self.refused.contains_key(&sha256) {
                    continue;
                }
                if numbers.is_empty() {
                    return Step::Attachment(sha256);
                }
                break;
            }
            bytes += waiting.bytes;
            let full = numbers.len() >= self.narrowed.unwrap_or(MOST_ENTRIES) || bytes > MOST_BYTES;
            if full && !numbers.is_empty() {
                break;
            }
            numbers.push(waiting.number);
        }
        match (numbers.is_empty(), self.sent.is_empty()) {
            (false, _) => Step::Entries(numbers),
            (true, false) => Step::HearBack,
            (true, true) => Step::Rest,
        }
    }

    /// Takes note that the server has an attachment.
    pub fn attachment_is_there(&mut self, sha256: Digest) {
        self.there.insert(sha256);
    }

    /// Takes note that the server refused an attachment. The entries that name it are held back, so that they stay
    /// queued and the attachment is not forgotten here.
    pub fn attachment_refused(&mut self, sha256: Digest, why: String, open: &[Waiting]) {
        let naming = open.iter().filter(|waiting| waiting.attachment == Some(sha256));
        self.held.extend(naming.map(|waiting| (waiting.number, why.clone())));
        self.refused.insert(sha256, why);
    }

    /// Takes note that the server took entries.
    pub fn entries_sent(&mut self, numbers: &[u64]) {
        self.sent.extend(numbers);
        self.narrowed = self.narrowed.map(|most| most * 2).filter(|most| *most < MOST_ENTRIES);
    }

    /// Takes note that the server refused entries, all of them for one. Fewer are sent next, until it is found.
    pub fn entries_refused(&mut self, numbers: &[u64], why: String) {
        match numbers {
            [] => {}
            [one] => {
                self.held.insert(*one, why);
            }
            several => self.narrowed = Some(several.len() / 2),
        }
    }

    /// Takes note of what is queued after all was fetched.
    pub fn heard(&mut self, queued: &[u64]) -> Heard {
        let still: BTreeSet<u64> = queued.iter().copied().collect();
        self.held.retain(|number, _| still.contains(number));
        let missing = self.sent.iter().any(|number| still.contains(number));
        self.sent.clear();
        match (missing, self.started_over) {
            (false, _) => {
                self.started_over = false;
                Heard::All
            }
            (true, false) => {
                self.started_over = true;
                Heard::NotAll
            }
            (true, true) => Heard::Never,
        }
    }

    /// Forgets what the server was believed to have, as when its store turns out to be another one.
    pub fn forget_there(&mut self) {
        self.there.clear();
        self.sent.clear();
    }

    /// Returns why something is held back; the first reason.
    pub fn held_for(&self) -> Option<&str> {
        self.held.values().next().map(String::as_str)
    }
}

/// How often all that the server has is compared with all that is kept, in milliseconds: once a day.
///
/// A store that was put back to an older copy is noticed at the next fetching, by the last entry not being where it was.
/// When other browsers have filled it up again meanwhile, that entry can by chance be in its old place with others
/// missing before it. Comparing all finds this too.
const COMPARED_EVERY_MS: u64 = 86_400_000;

/// Tells whether it is time to compare again. A clock that was set back makes for one comparison too many.
pub fn comparison_is_due(last_ms: u64, now_ms: u64) -> bool {
    now_ms.abs_diff(last_ms) >= COMPARED_EVERY_MS
}

/// Tells whether server and browser agree: the server has (`theirs`) all that it was known to have (`settled`), and all
/// that it has is kept here (`kept`).
pub fn agree(settled: &BTreeSet<Digest>, theirs: &BTreeSet<Digest>, kept: &BTreeSet<Digest>) -> bool {
    settled.is_subset(theirs) && theirs.is_subset(kept)
}

/// What the status of an answer means for going on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Done.
    Done,
    /// Not now; to be tried again later.
    Later,
    /// Not these; trying again is no use until something changes.
    Never,
}

/// Returns what a status means (RFC 9110, section 15; 408 and 429 ask for another try, 413 and 422 are about content).
/// Not being known or let in (401, 403, 404, 407, 421) comes from where the server is reached, also from a network's
/// own sign-in page: it is not about these entries and may change at any time.
pub fn meaning(status: u16) -> Meaning {
    match status {
        200..=299 => Meaning::Done,
        400 | 409 | 413 | 414 | 415 | 422 => Meaning::Never,
        _ => Meaning::Later,
    }
}

/// Returns how long to wait before the next try, in milliseconds, after so many failures in a row: a second, doubled
/// each time up to a minute. `chance` in 0..1 spreads the tries of many browsers over a quarter of that.
pub fn pause_ms(failures: u32, chance: f64) -> u32 {
    let base = 1000_u32 << failures.saturating_sub(1).min(6);
    let base = f64::from(base.min(60_000));
    (base * (0.875 + 0.25 * chance.clamp(0.0, 1.0))) as u32
}

/// Returns the attachment that an entry names.
pub fn attachment_named(entry: &Entry) -> Option<Digest> {
    let by = |value: serde_json::Value| value.get("sha256")?.as_str()?.parse().ok();
    match &entry.payload {
        Payload::Attachment(attachment) => Some(attachment.sha256),
        Payload::ReportIssued(report) => Some(report.sha256),
        Payload::Amendment(amendment) => by(serde_json::to_value(amendment.payload.as_ref()?).ok()?),
        Payload::Unknown { .. } => by(serde_json::from_str(&entry.payload_json()).ok()?),
        _ => None,
    }
}
