//! One entry with all that amends it.

use crate::payload::{Kind, Payload};
use crate::{Entry, EntryId, Stamp};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// An entry, its amendments, and what it says now.
///
/// What shows is the latest version that nobody has amended. A version is amended when another names it, or when
/// the same device, which had it before it, writes another. Two versions left over are rivals: both stay, the
/// later shows, and the surveyor is asked.
#[derive(Clone, Debug)]
pub struct Record {
    first: Arc<Entry>,
    versions: BTreeMap<(Stamp, EntryId), Arc<Entry>>,
    amended: BTreeSet<EntryId>,
    unamended: BTreeSet<(Stamp, EntryId)>,
    latest_of_device: BTreeMap<String, (Stamp, EntryId)>,
    shown: (Stamp, EntryId),
    payload: Option<Payload>,
}

impl Record {
    pub(crate) fn new(first: Arc<Entry>) -> Self {
        let order = first.order();
        let mut record = Self {
            payload: None,
            shown: order,
            versions: BTreeMap::new(),
            amended: BTreeSet::new(),
            unamended: BTreeSet::new(),
            latest_of_device: BTreeMap::new(),
            first: Arc::clone(&first),
        };
        record.put(first);
        record
    }

    /// Adds a version. The outcome does not depend on the order of the additions.
    pub(crate) fn put(&mut self, version: Arc<Entry>) {
        let order = version.order();
        if let Payload::Amendment(amendment) = &version.payload {
            for parent in std::iter::once(amendment.amends).chain(amendment.settles.iter().copied()) {
                if parent != version.id {
                    self.amended.insert(parent);
                }
            }
        }
        match self.latest_of_device.get_mut(&version.device) {
            Some(latest) if *latest < order => {
                self.amended.insert(latest.1);
                *latest = order;
            }
            Some(_) => {
                self.amended.insert(version.id);
            }
            None => {
                self.latest_of_device.insert(version.device.clone(), order);
            }
        }
        self.versions.insert(order, version);
        self.unamended.insert(order);
        let amended = &self.amended;
        self.unamended.retain(|(_, id)| !amended.contains(id));
        // Amendments that name each other in a ring leave none; then the latest of all shows.
        let shown = self.unamended.last().or(self.versions.keys().next_back()).copied().unwrap_or(order);
        self.shown = shown;
        self.payload = self.versions.get(&shown).and_then(|entry| self.said_by(entry));
    }

    /// Returns what a version says, when it is not what its own entry holds.
    fn said_by(&self, version: &Entry) -> Option<Payload> {
        match &version.payload {
            Payload::Amendment(amendment) if version.id != self.first.id => {
                let text = amendment.payload.as_ref()?.to_string();
                Some(Payload::read_lenient(self.first.kind(), &text))
            }
            _ => None,
        }
    }

    /// Returns the entry that began it.
    pub fn first(&self) -> &Entry {
        &self.first
    }

    /// Returns the entry whose version shows.
    pub fn shown(&self) -> &Entry {
        self.versions.get(&self.shown).unwrap_or(&self.first)
    }

    /// Returns what the record says now; what it last said, when it is withdrawn.
    pub fn payload(&self) -> &Payload {
        if let Some(payload) = &self.payload {
            return payload;
        }
        &self.first.payload
    }

    /// Tells whether the record has been withdrawn.
    pub fn is_withdrawn(&self) -> bool {
        matches!(&self.shown().payload, Payload::Amendment(a) if self.shown().id != self.first.id && a.withdraws())
    }

    /// Returns all versions from the first to the last, in order of time.
    pub fn versions(&self) -> impl Iterator<Item = &Entry> {
        self.versions.values().map(Arc::as_ref)
    }

    /// Returns what the record said at one of its versions; `None` when that version withdrew it.
    pub fn payload_at(&self, version: &Entry) -> Option<Payload> {
        match &version.payload {
            Payload::Amendment(_) if version.id != self.first.id => self.said_by(version),
            payload => Some(payload.clone()),
        }
    }

    /// Returns the versions that stand against the one that shows: amended at the same time by someone who had not
    /// seen the other. Empty when there is no disagreement.
    pub fn rivals(&self) -> impl Iterator<Item = &Entry> {
        self.unamended
            .iter()
            .filter(|order| **order != self.shown)
            .filter_map(|order| self.versions.get(order).map(Arc::as_ref))
    }

    /// Tells whether there are rival versions.
    pub fn is_disputed(&self) -> bool {
        self.unamended.len() > 1
    }

    /// Returns why the record has been amended, latest last, with who and when.
    pub fn amendments(&self) -> impl Iterator<Item = &Entry> {
        let first = self.first.id;
        self.versions().filter(move |entry| entry.id != first)
    }
}

/// A record of one kind, with what it says.
#[derive(Clone, Copy, Debug)]
pub struct View<'a, K> {
    /// The record.
    pub record: &'a Record,
    /// What it says now.
    pub payload: &'a K,
}

impl<'a, K: Kind> View<'a, K> {
    /// Returns the record as one of this kind.
    pub fn of(record: &'a Record) -> Option<Self> {
        K::of(record.payload()).map(|payload| Self { record, payload })
    }

    /// Returns the record's name: that of the entry that began it.
    pub fn id(&self) -> EntryId {
        self.record.first().id
    }
}
