//! A store that keeps everything in memory, for tests and try-outs. Nothing in it outlives the program.

use crate::checked::copy_attachment_bytes;
use crate::{
    AttachmentRead, Head, Incoming, KeptAttachment, KeptEntry, Position, Store, StoreFault, SurveyKept, Taken, Writer,
    admission,
};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use survey::{Digest, Entry, EntryId, Stamp, SurveyId};

/// Keeps entries and attachments in memory.
#[derive(Debug, Default)]
pub struct MemoryStore {
    // Writing holds this lock from reading the head to the last entry, reading the other one only.
    writing: Mutex<()>,
    book: Mutex<Book>,
}

#[derive(Debug, Default)]
struct Book {
    entries: Vec<KeptEntry>,
    by_hash: BTreeMap<Digest, usize>,
    names: BTreeSet<(SurveyId, EntryId)>,
    heads: BTreeMap<(SurveyId, String), ((Stamp, EntryId), Digest)>,
    surveys: BTreeMap<SurveyId, SurveyKept>,
    attachments: BTreeMap<Digest, Arc<[u8]>>,
}

impl Book {
    fn head(&self, survey: SurveyId, device: &str) -> Head {
        Head {
            prev: self.heads.get(&(survey, device.to_owned())).map(|(_, hash)| *hash),
            latest: self.surveys.get(&survey).map_or(Stamp::default(), |kept| kept.latest),
        }
    }

    fn put(&mut self, entry: &Entry) {
        let position = Position(self.entries.len() as u64 + 1);
        self.by_hash.insert(entry.hash(), self.entries.len());
        self.names.insert((entry.survey, entry.id));
        let head = (entry.order(), entry.hash());
        let last = self.heads.entry((entry.survey, entry.device.clone())).or_insert(head);
        *last = (*last).max(head);
        let kept = SurveyKept { survey: entry.survey, entries: 0, last: position, latest: entry.time };
        let kept = self.surveys.entry(entry.survey).or_insert(kept);
        kept.entries += 1;
        kept.last = position;
        kept.latest = kept.latest.max(entry.time);
        self.entries.push(KeptEntry::of(entry, position));
    }
}

impl MemoryStore {
    fn book(&self) -> MutexGuard<'_, Book> {
        self.book.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn writing(&self) -> MutexGuard<'_, ()> {
        self.writing.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Store for MemoryStore {
    fn append_with(&self, survey: SurveyId, device: &str, write: &mut Writer<'_>) -> Result<Vec<Entry>, StoreFault> {
        let _writing = self.writing();
        let head = self.book().head(survey, device);
        let entries = write(&head).map_err(StoreFault::Declined)?;
        let mut book = self.book();
        admission::check_written(
            &entries,
            survey,
            device,
            &head,
            |id| Ok(book.names.contains(&(survey, id))),
            |named| Ok(book.attachments.get(&named.sha256).map(|bytes| bytes.len() as u64)),
        )?;
        entries.iter().for_each(|entry| book.put(entry));
        Ok(entries)
    }

    fn take(&self, entries: &mut Incoming<'_>) -> Result<Taken, StoreFault> {
        let _writing = self.writing();
        let entries: Vec<Entry> = entries.collect::<Result<_, _>>()?;
        entries.iter().try_for_each(admission::check_any)?;
        let mut book = self.book();
        let mut taken = Taken::default();
        for entry in &entries {
            if book.by_hash.contains_key(&entry.hash()) {
                taken.known += 1;
                continue;
            }
            if book.names.contains(&(entry.survey, entry.id)) {
                taken.clashes.push(entry.id);
            }
            book.put(entry);
            taken.new += 1;
        }
        Ok(taken)
    }

    fn kept_since(&self, survey: Option<SurveyId>, after: Position, most: usize) -> Result<Vec<KeptEntry>, StoreFault> {
        let book = self.book();
        let after = usize::try_from(after.0).unwrap_or(usize::MAX).min(book.entries.len());
        let wanted = |kept: &&KeptEntry| survey.is_none_or(|survey| kept.survey == survey);
        Ok(book.entries[after..].iter().filter(wanted).take(most).cloned().collect())
    }

    fn kept(&self, hash: &Digest) -> Result<Option<KeptEntry>, StoreFault> {
        let book = self.book();
        Ok(book.by_hash.get(hash).and_then(|index| book.entries.get(*index)).cloned())
    }

    fn lacks(&self, hashes: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        let book = self.book();
        Ok(hashes.iter().filter(|hash| !book.by_hash.contains_key(hash)).copied().collect())
    }

    fn head(&self, survey: SurveyId, device: &str) -> Result<Head, StoreFault> {
        Ok(self.book().head(survey, device))
    }

    fn surveys(&self) -> Result<Vec<SurveyKept>, StoreFault> {
        Ok(self.book().surveys.values().copied().collect())
    }

    fn put_attachment(&self, from: &mut dyn Read, wanted: Option<&Digest>) -> Result<KeptAttachment, StoreFault> {
        let mut whole = Vec::new();
        let (sha256, bytes) = copy_attachment_bytes(from, &mut whole, wanted)?;
        let new = self.book().attachments.insert(sha256, whole.into()).is_none();
        Ok(KeptAttachment { sha256, bytes, new })
    }

    fn open_attachment(&self, sha256: &Digest) -> Result<(u64, Box<dyn AttachmentRead>), StoreFault> {
        match self.book().attachments.get(sha256) {
            Some(bytes) => Ok((bytes.len() as u64, Box::new(Cursor::new(Arc::clone(bytes))))),
            None => Err(StoreFault::NoAttachment { sha256: *sha256 }),
        }
    }

    fn lacks_attachments(&self, wanted: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        let book = self.book();
        Ok(wanted.iter().filter(|sha256| !book.attachments.contains_key(sha256)).copied().collect())
    }

    fn attachments_after(&self, after: Option<&Digest>, most: usize) -> Result<Vec<Digest>, StoreFault> {
        let book = self.book();
        let all = book.attachments.keys();
        Ok(all.filter(|sha256| after.is_none_or(|after| *sha256 > after)).take(most).copied().collect())
    }

    fn check_itself(&self) -> Result<Vec<String>, StoreFault> {
        Ok(Vec::new())
    }

    fn cache_dir(&self) -> Option<&Path> {
        None
    }
}
