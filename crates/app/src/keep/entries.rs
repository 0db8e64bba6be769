//! Entries: writing them, taking them in, reading them.

use super::book::{Answered, Asked, Book, CameIn};
use super::database::{
    ATTACHMENTS, BOOKS, ENTRIES, NUMBERS, QUEUE, SETTINGS, Transaction, after, get_each, hashed, numbered,
};
use super::{DEVICE, Keep, KeepFault, draw_name, text};
use futures_util::future::join;
use idb::ObjectStore;
use std::collections::BTreeMap;
use survey::payload::Payload;
use survey::{ChainFault, Digest, Entry, EntryId, SurveyId, check_chains};
use wasm_bindgen::{JsCast as _, JsValue};

/// All that an entry coming or going touches.
const FILED: [&str; 5] = [SETTINGS, BOOKS, ENTRIES, NUMBERS, QUEUE];

impl Keep {
    /// Writes payloads down as this device's next entries in a survey and queues them for sending: all of them or
    /// none. When this returns, they are on the disk. Names are UUIDs of version 7.
    ///
    /// # Errors
    /// [`KeepFault::Full`]; [`KeepFault::NoAttachment`] when a new attachment's file was not kept before.
    pub async fn write(
        &self,
        survey: SurveyId,
        author: &str,
        payloads: Vec<(EntryId, Payload)>,
    ) -> Result<Vec<Entry>, KeepFault> {
        if payloads.is_empty() {
            return Ok(Vec::new());
        }
        let transaction = self.writing(&[SETTINGS, BOOKS, ENTRIES, NUMBERS, QUEUE, ATTACHMENTS]).await?;
        attachments_are_here(&transaction.store(ATTACHMENTS)?, &payloads).await?;
        // Asked together: each answer is a wait, and somebody is waiting.
        let (settings, books) = (transaction.store(SETTINGS)?, transaction.store(BOOKS)?);
        let (device, book) = join(self.present_device(&settings), book(&books, survey)).await;
        let (device, mut book) = (device?, book?);
        let written = book.write(survey, author, &device, js_sys::Date::now() as u64, &payloads);
        put(&transaction, survey, &book, &written, true)?;
        transaction.done().await?;
        self.inner.teller.tell_others(survey);
        self.inner.teller.tell_own(survey);
        Ok(written.into_iter().map(|(_, entry)| entry).collect())
    }

    /// Takes entries from elsewhere than the server, as from a package; returns those that were new. They are queued
    /// for sending.
    pub async fn bring_in(&self, survey: SurveyId, entries: Vec<Entry>) -> Result<Vec<Entry>, KeepFault> {
        let came = self.file(survey, entries, |book, device, entries, numbers| {
            Answered::Entries(book.bring_in(device, entries, |hash| numbers.get(hash).copied()))
        });
        let new = came.await?.unwrap_or_default();
        self.inner.teller.tell_own(survey);
        Ok(new)
    }

    /// Returns what to ask the server for.
    pub(crate) async fn ask(&self, survey: SurveyId) -> Result<Asked, KeepFault> {
        let transaction = self.reading(&[BOOKS]).await?;
        let book = book(&transaction.store(BOOKS)?, survey).await?;
        transaction.done().await?;
        Ok(book.ask())
    }

    /// Takes the server's answer to what was asked; returns the entries that were new, or none at all when the
    /// server's store is another one and fetching starts over.
    pub(crate) async fn answered(
        &self,
        survey: SurveyId,
        asked: &Asked,
        entries: Vec<Entry>,
        cursor: u64,
    ) -> Result<Option<Vec<Entry>>, KeepFault> {
        self.file(survey, entries, |book, device, entries, numbers| {
            book.answered(device, asked, entries, cursor, |hash| numbers.get(hash).copied())
        })
        .await
    }

    async fn file(
        &self,
        survey: SurveyId,
        entries: Vec<Entry>,
        sort: impl FnOnce(&mut Book, &str, Vec<Entry>, &BTreeMap<Digest, u64>) -> Answered,
    ) -> Result<Option<Vec<Entry>>, KeepFault> {
        if let Some(stray) = entries.iter().find(|entry| entry.survey != survey || entry.time.utc().is_none()) {
            return Err(KeepFault::OutOfPlace(stray.id));
        }
        let transaction = self.writing(&FILED).await?;
        let settings = transaction.store(SETTINGS)?;
        let device = self.present_device(&settings).await?;
        let mut book = book(&transaction.store(BOOKS)?, survey).await?;
        let before = book.clone();
        let keys = entries.iter().map(|entry| hashed(survey, &entry.hash()));
        let numbers = get_each(&transaction.store(NUMBERS)?, keys).await?;
        let numbers: BTreeMap<Digest, u64> = entries
            .iter()
            .zip(numbers)
            .filter_map(|(entry, number)| Some((entry.hash(), number?.as_f64()? as u64)))
            .collect();
        let new = match sort(&mut book, &device, entries, &numbers) {
            Answered::OtherStore => {
                queue_all(&transaction, survey, &book).await?;
                None
            }
            Answered::Entries(CameIn { fresh, there, queue, name_is_shared }) => {
                let queued = transaction.store(QUEUE)?;
                for number in there {
                    queued.delete(numbered(survey, number))?;
                }
                if name_is_shared {
                    settings.put(&draw_name().into(), Some(&DEVICE.into()))?;
                }
                if book != before {
                    put(&transaction, survey, &book, &fresh, queue)?;
                }
                Some(fresh.into_iter().map(|(_, entry)| entry).collect::<Vec<_>>())
            }
        };
        transaction.done().await?;
        if new.as_ref().is_some_and(|new| !new.is_empty()) {
            self.inner.teller.tell_others(survey);
        }
        Ok(new)
    }

    /// Forgets how far was fetched from the server, and queues all that is kept.
    pub(crate) async fn start_over(&self, survey: SurveyId) -> Result<(), KeepFault> {
        let transaction = self.writing(&[BOOKS, QUEUE]).await?;
        let mut book = book(&transaction.store(BOOKS)?, survey).await?;
        book.start_over();
        queue_all(&transaction, survey, &book).await?;
        transaction.done().await
    }

    /// Returns all entries of a survey, in the order in which they came here.
    pub async fn entries(&self, survey: SurveyId) -> Result<Vec<Entry>, KeepFault> {
        Ok(self.entries_after(survey, 0).await?.0)
    }

    /// Returns the entries of a survey that came here after so many, and how many there are now: what a window that
    /// has read so many needs to read when it is told of news.
    pub async fn entries_after(&self, survey: SurveyId, number: u64) -> Result<(Vec<Entry>, u64), KeepFault> {
        let transaction = self.reading(&[BOOKS, ENTRIES]).await?;
        let lines = transaction.store(ENTRIES)?.get_all(Some(after(survey, number)?), None)?.await?;
        let kept = book(&transaction.store(BOOKS)?, survey).await?.kept();
        transaction.done().await?;
        Ok((lines.into_iter().map(|line| read(Some(line))).collect::<Result<_, _>>()?, kept))
    }

    /// Returns what does not fit in the devices' runs of entries, as far as they are kept here.
    #[allow(dead_code, reason = "the browser tests call it; the page does not offer it yet")]
    pub async fn chain_faults(&self, survey: SurveyId) -> Result<Vec<ChainFault>, KeepFault> {
        Ok(check_chains(&self.entries(survey).await?))
    }

    async fn present_device(&self, settings: &ObjectStore) -> Result<String, KeepFault> {
        let device = settings.get(JsValue::from(DEVICE))?.await?;
        text(device).ok_or_else(|| KeepFault::Damaged("this browser's device name is gone".to_owned()))
    }
}

/// Reads where this browser stands in a survey.
pub(super) async fn book(books: &ObjectStore, survey: SurveyId) -> Result<Book, KeepFault> {
    let json = books.get(JsValue::from(survey.to_string()))?.await?;
    match json.and_then(|json| json.as_string()) {
        None => Ok(Book::default()),
        Some(json) => serde_json::from_str(&json).map_err(|fault| KeepFault::Damaged(fault.to_string())),
    }
}

/// Reads an entry from its line.
pub(super) fn read(line: Option<JsValue>) -> Result<Entry, KeepFault> {
    let line = text(line).ok_or_else(|| KeepFault::Damaged("a line is gone".to_owned()))?;
    Entry::read(&line).map_err(|fault| KeepFault::Damaged(fault.to_string()))
}

fn put(
    transaction: &Transaction,
    survey: SurveyId,
    book: &Book,
    fresh: &[(u64, Entry)],
    queue: bool,
) -> Result<(), KeepFault> {
    let (entries, numbers) = (transaction.store(ENTRIES)?, transaction.store(NUMBERS)?);
    let queued = transaction.store(QUEUE)?;
    for (number, entry) in fresh {
        let key = numbered(survey, *number);
        entries.add(&entry.line().into(), Some(&key))?;
        numbers.add(&(*number as f64).into(), Some(&hashed(survey, &entry.hash())))?;
        if queue {
            queued.put(&JsValue::NULL, Some(&key))?;
        }
    }
    put_book(&transaction.store(BOOKS)?, survey, book)
}

fn put_book(books: &ObjectStore, survey: SurveyId, book: &Book) -> Result<(), KeepFault> {
    let json = serde_json::to_string(book).map_err(|fault| KeepFault::Other(fault.to_string()))?;
    books.put(&json.into(), Some(&survey.to_string().into()))?;
    Ok(())
}

async fn queue_all(transaction: &Transaction, survey: SurveyId, book: &Book) -> Result<(), KeepFault> {
    let queued = transaction.store(QUEUE)?;
    for number in 1..=book.kept() {
        queued.put(&JsValue::NULL, Some(&numbered(survey, number)))?;
    }
    put_book(&transaction.store(BOOKS)?, survey, book)
}

/// Makes sure that the files of new attachments are kept, with the length that is said of them.
async fn attachments_are_here(files: &ObjectStore, payloads: &[(EntryId, Payload)]) -> Result<(), KeepFault> {
    for (entry, payload) in payloads {
        let Payload::Attachment(attachment) = payload else { continue };
        let file = files.get(JsValue::from(attachment.sha256.to_string()))?.await?;
        let file = file.and_then(|file| file.dyn_into::<web_sys::Blob>().ok());
        if file.is_none_or(|file| file.size() as u64 != attachment.bytes) {
            return Err(KeepFault::NoAttachment { entry: *entry, sha256: attachment.sha256 });
        }
    }
    Ok(())
}
