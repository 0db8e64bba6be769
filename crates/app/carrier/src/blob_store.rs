//! A store for as long as a package is made or read: entries in memory, attachments as blobs.

use crate::blob::{BlobRead, BlobWrite, fault};
use js_sys::Map;
use send_wrapper::SendWrapper;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};
use store::{
    AttachmentRead, Head, Incoming, KeptAttachment, KeptEntry, MemoryStore, Position, Store, StoreFault, SurveyKept,
    Taken, Writer,
};
use survey::{Digest, Entry, SurveyId};
use web_sys::Blob;

#[derive(Default)]
pub struct BlobStore {
    entries: MemoryStore,
    // A worker has one thread; the store's interface is for many.
    files: Mutex<BTreeMap<Digest, SendWrapper<Blob>>>,
}

impl BlobStore {
    fn held(&self) -> MutexGuard<'_, BTreeMap<Digest, SendWrapper<Blob>>> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Holds a file under its digest, which is made sure of when it is copied.
    pub fn has(&self, sha256: Digest, file: Blob) {
        self.held().insert(sha256, SendWrapper::new(file));
    }

    /// Returns the files by digest.
    pub fn files(&self) -> Map {
        let map = Map::new();
        for (sha256, file) in self.held().iter() {
            let file: &Blob = file;
            map.set(&sha256.to_string().into(), file);
        }
        map
    }
}

impl Store for BlobStore {
    fn append_with(&self, survey: SurveyId, device: &str, write: &mut Writer<'_>) -> Result<Vec<Entry>, StoreFault> {
        self.entries.append_with(survey, device, write)
    }

    fn take(&self, entries: &mut Incoming<'_>) -> Result<Taken, StoreFault> {
        self.entries.take(entries)
    }

    fn kept_since(&self, survey: Option<SurveyId>, after: Position, most: usize) -> Result<Vec<KeptEntry>, StoreFault> {
        self.entries.kept_since(survey, after, most)
    }

    fn kept(&self, hash: &Digest) -> Result<Option<KeptEntry>, StoreFault> {
        self.entries.kept(hash)
    }

    fn lacks(&self, hashes: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        self.entries.lacks(hashes)
    }

    fn head(&self, survey: SurveyId, device: &str) -> Result<Head, StoreFault> {
        self.entries.head(survey, device)
    }

    fn surveys(&self) -> Result<Vec<SurveyKept>, StoreFault> {
        self.entries.surveys()
    }

    fn put_attachment(&self, from: &mut dyn Read, wanted: Option<&Digest>) -> Result<KeptAttachment, StoreFault> {
        let mut to = BlobWrite::default();
        let (sha256, bytes) = store::copy_attachment_bytes(from, &mut to, wanted)?;
        let failed = |thrown| StoreFault::Failed { path: "memory".into(), why: fault(thrown).to_string() };
        let file = to.finish("").map_err(failed)?;
        let new = self.held().insert(sha256, SendWrapper::new(file)).is_none();
        Ok(KeptAttachment { sha256, bytes, new })
    }

    fn open_attachment(&self, sha256: &Digest) -> Result<(u64, Box<dyn AttachmentRead>), StoreFault> {
        let held = self.held();
        let file: &Blob = held.get(sha256).ok_or(StoreFault::NoAttachment { sha256: *sha256 })?;
        let read = BlobRead::new(file.clone());
        Ok((read.length(), Box::new(read)))
    }

    fn lacks_attachments(&self, wanted: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        let held = self.held();
        Ok(wanted.iter().filter(|sha256| !held.contains_key(sha256)).copied().collect())
    }

    fn attachments_after(&self, after: Option<&Digest>, most: usize) -> Result<Vec<Digest>, StoreFault> {
        let held = self.held();
        Ok(held.keys().filter(|sha256| after.is_none_or(|after| *sha256 > after)).take(most).copied().collect())
    }

    fn check_itself(&self) -> Result<Vec<String>, StoreFault> {
        Ok(Vec::new())
    }

    fn cache_dir(&self) -> Option<&Path> {
        None
    }
}
