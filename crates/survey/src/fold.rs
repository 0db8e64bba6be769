//! The fold: from a set of entries to what the survey says now.

use crate::payload::{
    Attachment, Beforehand, Brief, ClientLink, Comparable, Conditions, EstimateLine, Finding, FollowUp, HullForm,
    Instrument, Kind, MemberHad, NotSeen, Observation, OpinionOfValue, Payload, Reckoning, Recommendation,
    ReportIssued, Vessel,
};
use crate::{Digest, Entry, EntryId, Record, Stamp, SurveyId, View};
use sha2::{Digest as _, Sha256};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::Arc;

/// What came of handing an entry to the fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It is new and counts.
    New,
    /// It was there already.
    Known,
    /// It belongs to another survey and was left out.
    OtherSurvey,
    /// An entry of the same name but other content is there; the one with the lesser hash counts, and the name is
    /// among [`State::clashes`].
    Clash,
}

/// What a survey says now: a pure function of the set of its entries, whatever order they came in.
#[derive(Clone, Debug)]
pub struct State {
    survey: SurveyId,
    entries: HashMap<EntryId, Arc<Entry>>,
    records: HashMap<EntryId, Record>,
    by_kind: BTreeMap<String, BTreeSet<(Stamp, EntryId)>>,
    /// The record to which each amendment that has found its entry belongs.
    root_of: HashMap<EntryId, EntryId>,
    /// Amendments whose entry has not arrived, by the entry they name.
    waiting: BTreeMap<EntryId, Vec<Arc<Entry>>>,
    clashes: BTreeSet<EntryId>,
    latest: Stamp,
}

impl State {
    /// Returns the state of a survey with no entries.
    pub fn new(survey: SurveyId) -> Self {
        Self {
            survey,
            entries: HashMap::new(),
            records: HashMap::new(),
            by_kind: BTreeMap::new(),
            root_of: HashMap::new(),
            waiting: BTreeMap::new(),
            clashes: BTreeSet::new(),
            latest: Stamp::default(),
        }
    }

    /// Folds entries into a state.
    pub fn fold(survey: SurveyId, entries: impl IntoIterator<Item = Entry>) -> Self {
        let entries = entries.into_iter();
        let mut state = Self::new(survey);
        state.entries.reserve(entries.size_hint().0);
        state.records.reserve(entries.size_hint().0);
        for entry in entries {
            state.take(entry);
        }
        state
    }

    /// Takes one more entry.
    pub fn take(&mut self, entry: Entry) -> Taken {
        if entry.survey != self.survey {
            return Taken::OtherSurvey;
        }
        if let Some(known) = self.entries.get(&entry.id) {
            if known.hash() == entry.hash() {
                return Taken::Known;
            }
            self.clashes.insert(entry.id);
            if entry.hash() < known.hash() {
                self.replace(entry);
            }
            return Taken::Clash;
        }
        self.put(Arc::new(entry));
        Taken::New
    }

    /// Puts an entry in place of one of the same name, and folds anew. Rare: it takes a broken device or a forgery.
    fn replace(&mut self, entry: Entry) {
        let clashes = std::mem::take(&mut self.clashes);
        let mut entries = std::mem::take(&mut self.entries);
        entries.insert(entry.id, Arc::new(entry));
        let mut all: Vec<_> = entries.into_values().collect();
        all.sort_by_key(|entry| entry.order());
        *self = Self::new(self.survey);
        self.clashes = clashes;
        for entry in all {
            self.put(entry);
        }
    }

    fn put(&mut self, entry: Arc<Entry>) {
        self.latest = self.latest.max(entry.time);
        self.entries.insert(entry.id, Arc::clone(&entry));
        let mut arrived = vec![entry];
        while let Some(entry) = arrived.pop() {
            let id = entry.id;
            match &entry.payload {
                Payload::Amendment(amendment) => {
                    let target = amendment.amends;
                    let root = self.root(target);
                    match self.records.get_mut(&root).map(|record| (root, record)) {
                        Some((root, record)) => {
                            record.put(entry);
                            self.root_of.insert(id, root);
                        }
                        None => {
                            self.waiting.entry(target).or_default().push(entry);
                            continue;
                        }
                    }
                }
                payload => {
                    match self.by_kind.get_mut(payload.kind()) {
                        Some(set) => {
                            set.insert(entry.order());
                        }
                        None => {
                            self.by_kind.insert(payload.kind().to_owned(), BTreeSet::from([entry.order()]));
                        }
                    }
                    self.records.insert(id, Record::new(entry));
                }
            }
            if let Some(waiting) = self.waiting.remove(&id) {
                arrived.extend(waiting);
            }
        }
    }

    /// Returns the survey.
    pub fn survey(&self) -> SurveyId {
        self.survey
    }

    /// Returns the number of entries.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Tells whether there are no entries.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Returns the latest moment of any entry.
    pub fn latest(&self) -> Stamp {
        self.latest
    }

    /// Returns an entry by name.
    pub fn entry(&self, id: EntryId) -> Option<&Entry> {
        self.entries.get(&id).map(Arc::as_ref)
    }

    /// Returns all entries, in order of time.
    pub fn entries(&self) -> Vec<&Entry> {
        let mut all: Vec<_> = self.entries.values().map(Arc::as_ref).collect();
        all.sort_by_key(|entry| entry.order());
        all
    }

    /// Returns the entry that began the record to which an entry belongs.
    fn root(&self, id: EntryId) -> EntryId {
        self.root_of.get(&id).copied().unwrap_or(id)
    }

    /// Returns the record that an entry began or amends.
    pub fn record(&self, id: EntryId) -> Option<&Record> {
        self.records.get(&self.root(id))
    }

    /// Returns the records that stand (not withdrawn) of one kind, in the order in which they were begun.
    pub fn all<K: Kind + 'static>(&self) -> impl Iterator<Item = View<'_, K>> {
        self.records_of(K::NAME).filter(|record| !record.is_withdrawn()).filter_map(View::of)
    }

    /// Returns all records of a kind by its name, withdrawn ones too, in the order in which they were begun.
    pub fn records_of(&self, kind: &str) -> impl Iterator<Item = &Record> {
        self.by_kind.get(kind).into_iter().flatten().filter_map(|(_, id)| self.records.get(id))
    }

    /// Returns all records, withdrawn ones too, in the order in which they were begun.
    pub fn records(&self) -> Vec<&Record> {
        let mut all: Vec<_> = self.records.values().collect();
        all.sort_by_key(|record| record.first().order());
        all
    }

    /// Returns the record of one kind and name, when it stands.
    pub fn find<K: Kind + 'static>(&self, id: EntryId) -> Option<View<'_, K>> {
        self.record(id).filter(|record| !record.is_withdrawn()).and_then(View::of)
    }

    fn last<K: Kind + 'static>(&self) -> Option<View<'_, K>> {
        self.all::<K>().last()
    }

    /// Returns the brief: the latest one that stands.
    pub fn brief(&self) -> Option<View<'_, Brief>> {
        self.last()
    }

    /// Returns the boat's particulars: the latest that stand.
    pub fn vessel(&self) -> Option<View<'_, Vessel>> {
        self.last()
    }

    /// Returns her shape: the latest that stands.
    pub fn hull_form(&self) -> Option<View<'_, HullForm>> {
        self.last()
    }

    /// Returns what is known of her before a reading is weighed: the latest that stands.
    pub fn beforehand(&self) -> Option<View<'_, Beforehand>> {
        self.last()
    }

    /// Returns the days' conditions.
    pub fn conditions(&self) -> impl Iterator<Item = View<'_, Conditions>> {
        self.all()
    }

    /// Returns the members that the surveyor added or struck off.
    pub fn members_had(&self) -> impl Iterator<Item = View<'_, MemberHad>> {
        self.all()
    }

    /// Returns the instruments.
    pub fn instruments(&self) -> impl Iterator<Item = View<'_, Instrument>> {
        self.all()
    }

    /// Returns the observations.
    pub fn observations(&self) -> impl Iterator<Item = View<'_, Observation>> {
        self.all()
    }

    /// Returns the attachments.
    pub fn attachments(&self) -> impl Iterator<Item = View<'_, Attachment>> {
        self.all()
    }

    /// Returns the attachments that belong to a record.
    pub fn attachments_of(&self, id: EntryId) -> impl Iterator<Item = View<'_, Attachment>> {
        self.attachments().filter(move |attachment| attachment.payload.of.is_some_and(|of| self.root(of) == id))
    }

    /// Returns a figure that changes whenever an attachment is added or an entry amended: what shows attachments need look
    /// again only then.
    pub fn attachment_changes(&self) -> (usize, usize) {
        (self.by_kind.get(Attachment::NAME).map_or(0, BTreeSet::len), self.root_of.len())
    }

    /// Returns what was not seen.
    pub fn not_seen(&self) -> impl Iterator<Item = View<'_, NotSeen>> {
        self.all()
    }

    /// Returns the reckonings.
    pub fn reckonings(&self) -> impl Iterator<Item = View<'_, Reckoning>> {
        self.all()
    }

    /// Returns the findings.
    pub fn findings(&self) -> impl Iterator<Item = View<'_, Finding>> {
        self.all()
    }

    /// Returns the recommendations.
    pub fn recommendations(&self) -> impl Iterator<Item = View<'_, Recommendation>> {
        self.all()
    }

    /// Returns the lines of the estimate.
    pub fn estimate_lines(&self) -> impl Iterator<Item = View<'_, EstimateLine>> {
        self.all()
    }

    /// Returns the comparables.
    pub fn comparables(&self) -> impl Iterator<Item = View<'_, Comparable>> {
        self.all()
    }

    /// Returns the opinion of value: the latest that stands.
    pub fn opinion_of_value(&self) -> Option<View<'_, OpinionOfValue>> {
        self.last()
    }

    /// Returns the reports issued.
    pub fn reports_issued(&self) -> impl Iterator<Item = View<'_, ReportIssued>> {
        self.all()
    }

    /// Returns the clients' links that are not revoked.
    pub fn client_links(&self) -> impl Iterator<Item = View<'_, ClientLink>> {
        self.all()
    }

    /// Returns what became of recommendations.
    pub fn follow_ups(&self) -> impl Iterator<Item = View<'_, FollowUp>> {
        self.all()
    }

    /// Returns the records that two people amended at once.
    pub fn disputed(&self) -> impl Iterator<Item = &Record> {
        self.by_kind.values().flatten().filter_map(|(_, id)| self.records.get(id)).filter(|r| r.is_disputed())
    }

    /// Returns the entries that this version cannot read: of unknown kinds, or of known kinds in an unknown shape.
    pub fn unread(&self) -> Vec<&Entry> {
        self.entries().into_iter().filter(|entry| matches!(entry.payload, Payload::Unknown { .. })).collect()
    }

    /// Returns the amendments whose entry has not arrived.
    pub fn waiting(&self) -> impl Iterator<Item = &Entry> {
        self.waiting.values().flatten().map(Arc::as_ref)
    }

    /// Returns the names under which two entries of different content came.
    pub fn clashes(&self) -> impl Iterator<Item = EntryId> + '_ {
        self.clashes.iter().copied()
    }

    /// Returns the digest of the field book: SHA-256 over the hashes of all entries, sorted, 32 bytes each.
    pub fn digest(&self) -> Digest {
        let mut hashes: Vec<_> = self.entries.values().map(|entry| entry.hash()).collect();
        hashes.sort();
        let mut all = Sha256::new();
        for hash in hashes {
            all.update(hash.bytes());
        }
        Digest::from_bytes(all.finalize().into())
    }
}
