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
    /// Most records are never amended, so what amendments need is kept apart.
    history: Option<Box<History>>,
}

/// All versions of an amended record, and which of them shows.
#[derive(Clone, Debug, Default)]
struct History {
    versions: BTreeMap<(Stamp, EntryId), Arc<Entry>>,
    amended: BTreeSet<EntryId>,
    unamended: BTreeSet<(Stamp, EntryId)>,
    latest_of_device: BTreeMap<String, (Stamp, EntryId)>,
    shown: Option<Arc<Entry>>,
    /// What the version shown says, when it is not what the first entry holds.
    payload: Option<Payload>,
}

impl History {
    /// Adds a version. The outcome does not depend on the order of the additions.
    fn put(&mut self, version: Arc<Entry>) {
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
        let shown = self.unamended.last().or(self.versions.keys().next_back());
        self.shown = shown.and_then(|order| self.versions.get(order)).map(Arc::clone);
    }
}

impl Record {
    pub(crate) fn new(first: Arc<Entry>) -> Self {
        Self { first, history: None }
    }

    /// Adds an amendment. The outcome does not depend on the order of the additions.
    pub(crate) fn put(&mut self, amendment: Arc<Entry>) {
        let first = &self.first;
        let history = self.history.get_or_insert_with(|| {
            let mut history = Box::new(History::default());
            history.put(Arc::clone(first));
            history
        });
        history.put(amendment);
        history.payload = history.shown.as_ref().and_then(|shown| said_by(first, shown));
    }

    /// Returns the entry that began it.
    pub fn first(&self) -> &Entry {
        &self.first
    }

    /// Returns the entry whose version shows.
    pub fn shown(&self) -> &Entry {
        self.history.as_ref().and_then(|history| history.shown.as_deref()).unwrap_or(&self.first)
    }

    /// Returns what the record says now; what it first said, when it is withdrawn.
    pub fn payload(&self) -> &Payload {
        self.history.as_ref().and_then(|history| history.payload.as_ref()).unwrap_or(&self.first.payload)
    }

    /// Tells whether the record has been withdrawn.
    pub fn is_withdrawn(&self) -> bool {
        let shown = self.shown();
        matches!(&shown.payload, Payload::Amendment(a) if shown.id != self.first.id && a.withdraws())
    }

    /// Returns all versions from the first to the last, in order of time.
    pub fn versions(&self) -> Vec<&Entry> {
        match &self.history {
            Some(history) => history.versions.values().map(Arc::as_ref).collect(),
            None => vec![self.first()],
        }
    }

    /// Returns what the record said at one of its versions; `None` when that version withdrew it.
    pub fn payload_at(&self, version: &Entry) -> Option<Payload> {
        if version.id == self.first.id { Some(version.payload.clone()) } else { said_by(&self.first, version) }
    }

    /// Returns the versions that stand against the one that shows: amended at the same time by someone who had not
    /// seen the other. Empty when there is no disagreement.
    pub fn rivals(&self) -> Vec<&Entry> {
        let Some(history) = &self.history else { return Vec::new() };
        let shown = self.shown().order();
        let others = history.unamended.iter().filter(|order| **order != shown);
        others.filter_map(|order| history.versions.get(order).map(Arc::as_ref)).collect()
    }

    /// Tells whether there are rival versions.
    pub fn is_disputed(&self) -> bool {
        self.history.as_ref().is_some_and(|history| history.unamended.len() > 1)
    }

    /// Returns why the record has been amended, latest last, with who and when.
    pub fn amendments(&self) -> Vec<&Entry> {
        self.versions().into_iter().filter(|entry| entry.id != self.first.id).collect()
    }
}

/// Returns what an amendment puts in its entry's place; `None` when it withdraws it, or is the entry itself.
fn said_by(first: &Entry, version: &Entry) -> Option<Payload> {
    match &version.payload {
        Payload::Amendment(amendment) if version.id != first.id => {
            let text = amendment.payload.as_ref()?.to_string();
            Some(Payload::read_lenient(first.kind(), &text))
        }
        _ => None,
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
