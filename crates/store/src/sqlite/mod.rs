//! The default store: one folder with an SQLite database, the attachments and nothing to set up.

mod check;
mod open;
mod rows;
mod schema;

use crate::folder::AttachmentFolder;
use crate::{
    AttachmentRead, Head, Incoming, KeptAttachment, KeptEntry, Position, Store, StoreFault, SurveyKept, Taken, Writer,
    admission,
};
pub use open::SqliteOptions;
use rows::{KEPT, head, kept, put, stamp, survey_id, unsigned};
use rusqlite::{Connection, ErrorCode, OptionalExtension, Transaction, TransactionBehavior, params};
use std::io::{Read, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use survey::{Digest, Entry, EntryId, SurveyId};

/// Keeps entries in an SQLite database and attachments in a folder beside it:
///
/// ```text
/// about.txt               what this folder is, for whoever finds it
/// field-book.sqlite       the entries (with -wal and -shm beside it while it is open)
/// attachments/ab/abcdef…  the attachments, each named by the SHA-256 of its bytes
/// incoming/               attachments still being written
/// cache/                  what can be made again at any time
/// ```
///
/// The database runs with a write-ahead log, synced at every commit (`synchronous = FULL`). Several programs may have
/// the same folder open; writers take turns. The folder must be on a local disk: SQLite's write-ahead log does not
/// work over network shares.
#[derive(Debug)]
pub struct SqliteStore {
    path: PathBuf,
    cache: PathBuf,
    attachments: AttachmentFolder,
    writer: Mutex<Connection>,
    // A connection of its own, so that reading goes on while a long batch is written.
    reader: Mutex<Connection>,
}

impl SqliteStore {
    /// Opens the field book in a folder, making it when there is none.
    pub fn open(folder: impl AsRef<Path>) -> Result<Self, StoreFault> {
        Self::open_with(folder, &SqliteOptions::default())
    }

    /// Opens the field book in a folder, making it when there is none.
    pub fn open_with(folder: impl AsRef<Path>, options: &SqliteOptions) -> Result<Self, StoreFault> {
        open::open(folder.as_ref(), options)
    }

    /// Opens a field book that is there already, to read it only; writing is refused. Nothing in its folder is touched, so
    /// it may lie on a disk that cannot be written to.
    pub fn open_to_read(folder: impl AsRef<Path>) -> Result<Self, StoreFault> {
        open::open_to_read(folder.as_ref(), &SqliteOptions::default())
    }

    fn reader(&self) -> MutexGuard<'_, Connection> {
        self.reader.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn read<T>(&self, read: impl FnOnce(&Connection) -> rusqlite::Result<T>) -> Result<T, StoreFault> {
        read(&self.reader()).map_err(|fault| sorted(&self.path, fault))
    }

    /// Runs `write` in a transaction that keeps other writers out from its beginning, and commits it.
    fn write<T>(&self, write: impl FnOnce(&Transaction<'_>) -> Result<T, StoreFault>) -> Result<T, StoreFault> {
        let mut writer = self.writer.lock().unwrap_or_else(PoisonError::into_inner);
        let begun = writer.transaction_with_behavior(TransactionBehavior::Immediate);
        let transaction = begun.map_err(|fault| sorted(&self.path, fault))?;
        let done = write(&transaction)?;
        transaction.commit().map_err(|fault| sorted(&self.path, fault))?;
        Ok(done)
    }
}

impl Store for SqliteStore {
    fn append_with(&self, survey: SurveyId, device: &str, write: &mut Writer<'_>) -> Result<Vec<Entry>, StoreFault> {
        self.write(|transaction| {
            let sql = |fault| sorted(&self.path, fault);
            let head = head(transaction, survey, device).map_err(sql)?;
            let entries = write(&head).map_err(StoreFault::Declined)?;
            admission::check_written(
                &entries,
                survey,
                device,
                &head,
                |id| name_is_taken(transaction, survey, id).map_err(sql),
                |named| self.attachments.length(&named.sha256),
            )?;
            entries.iter().try_for_each(|entry| put(transaction, entry)).map_err(sql)?;
            Ok(entries)
        })
    }

    fn take(&self, entries: &mut Incoming<'_>) -> Result<Taken, StoreFault> {
        self.write(|transaction| {
            let sql = |fault| sorted(&self.path, fault);
            let mut taken = Taken::default();
            for entry in entries {
                let entry = entry?;
                admission::check_any(&entry)?;
                if is_kept(transaction, &entry.hash()).map_err(sql)? {
                    taken.known += 1;
                    continue;
                }
                if name_is_taken(transaction, entry.survey, entry.id).map_err(sql)? {
                    taken.clashes.push(entry.id);
                }
                put(transaction, &entry).map_err(sql)?;
                taken.new += 1;
            }
            Ok(taken)
        })
    }

    fn kept_since(&self, survey: Option<SurveyId>, after: Position, most: usize) -> Result<Vec<KeptEntry>, StoreFault> {
        let after = i64::try_from(after.0).unwrap_or(i64::MAX);
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        self.read(|connection| match survey {
            Some(survey) => connection
                .prepare_cached(&format!("{KEPT} WHERE survey = ?1 AND position > ?2 ORDER BY position LIMIT ?3"))?
                .query_map(params![survey.uuid().as_bytes(), after, most], kept)?
                .collect(),
            None => connection
                .prepare_cached(&format!("{KEPT} WHERE position > ?1 ORDER BY position LIMIT ?2"))?
                .query_map(params![after, most], kept)?
                .collect(),
        })
    }

    fn kept(&self, hash: &Digest) -> Result<Option<KeptEntry>, StoreFault> {
        self.read(|connection| {
            let mut statement = connection.prepare_cached(&format!("{KEPT} WHERE hash = ?1"))?;
            statement.query_row(params![hash.bytes()], kept).optional()
        })
    }

    fn lacks(&self, hashes: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        self.read(|connection| {
            let mut lacking = Vec::new();
            for hash in hashes {
                if !is_kept(connection, hash)? {
                    lacking.push(*hash);
                }
            }
            Ok(lacking)
        })
    }

    fn head(&self, survey: SurveyId, device: &str) -> Result<Head, StoreFault> {
        self.read(|connection| head(connection, survey, device))
    }

    fn surveys(&self) -> Result<Vec<SurveyKept>, StoreFault> {
        // With max(), SQLite takes the other columns from the row that has the maximum; hence two queries.
        let counted = "SELECT survey, count(*), max(position) FROM entry GROUP BY survey ORDER BY survey";
        let latest = "SELECT time_ms, time_n FROM entry WHERE survey = ?1 ORDER BY time_ms DESC, time_n DESC LIMIT 1";
        self.read(|connection| {
            let mut latest = connection.prepare_cached(latest)?;
            connection
                .prepare_cached(counted)?
                .query_map([], |row| {
                    let survey = survey_id(row, 0)?;
                    Ok(SurveyKept {
                        survey,
                        entries: unsigned(row, 1)?,
                        last: Position(unsigned(row, 2)?),
                        latest: latest.query_row(params![survey.uuid().as_bytes()], |row| stamp(row, 0))?,
                    })
                })?
                .collect()
        })
    }

    fn put_attachment(&self, from: &mut dyn Read, wanted: Option<&Digest>) -> Result<KeptAttachment, StoreFault> {
        self.attachments.put(from, wanted)
    }

    fn open_attachment(&self, sha256: &Digest) -> Result<(u64, Box<dyn AttachmentRead>), StoreFault> {
        let (bytes, file) = self.attachments.open_file(sha256)?;
        Ok((bytes, Box::new(file)))
    }

    fn lacks_attachments(&self, wanted: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        Ok(wanted.iter().filter(|sha256| !self.attachments.has(sha256)).copied().collect())
    }

    fn attachments_after(&self, after: Option<&Digest>, most: usize) -> Result<Vec<Digest>, StoreFault> {
        self.attachments.after(after, most)
    }

    fn check_itself(&self) -> Result<Vec<String>, StoreFault> {
        let mut faults = self.read(check::faults)?;
        faults.extend(self.attachments.strays()?.iter().map(|path| {
            format!("This is no attachment and does not belong in the folder of attachments: {}.", path.display())
        }));
        Ok(faults)
    }

    fn cache_dir(&self) -> Option<&Path> {
        Some(&self.cache)
    }
}

fn is_kept(connection: &Connection, hash: &Digest) -> rusqlite::Result<bool> {
    connection.prepare_cached("SELECT 1 FROM entry WHERE hash = ?1")?.exists(params![hash.bytes()])
}

fn name_is_taken(connection: &Connection, survey: SurveyId, id: EntryId) -> rusqlite::Result<bool> {
    connection
        .prepare_cached("SELECT 1 FROM entry WHERE survey = ?1 AND id = ?2")?
        .exists(params![survey.uuid().as_bytes(), id.uuid().as_bytes()])
}

/// Sorts the database engine's faults by what a person can do about them.
fn sorted(path: &Path, fault: rusqlite::Error) -> StoreFault {
    let path = path.to_owned();
    let damaged = |path, why: &str| StoreFault::Damaged { path, why: why.to_owned() };
    match &fault {
        rusqlite::Error::SqliteFailure(engine, said) => match engine.code {
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => StoreFault::Busy { path },
            ErrorCode::DiskFull => StoreFault::Full { path },
            ErrorCode::ReadOnly | ErrorCode::PermissionDenied => StoreFault::ReadOnly { path },
            ErrorCode::DatabaseCorrupt => damaged(path, "its database cannot be read through"),
            ErrorCode::NotADatabase => damaged(path, "its database does not begin as a database does"),
            // The engine does not say why it could not open or write a file; the file system does.
            ErrorCode::CannotOpen | ErrorCode::SystemIoFailure => match probe(&path) {
                Err(cause) => cause,
                Ok(()) => StoreFault::Failed { path, why: said.clone().unwrap_or_else(|| fault.to_string()) },
            },
            _ => StoreFault::Failed { path, why: said.clone().unwrap_or_else(|| fault.to_string()) },
        },
        rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::InvalidColumnType(..) => damaged(path, "a row does not have the form of an entry"),
        _ => StoreFault::Failed { path, why: fault.to_string() },
    }
}

/// Writes and removes a small file beside the database, to learn what the file system has against it.
fn probe(path: &Path) -> Result<(), StoreFault> {
    let folder = path.parent().unwrap_or(path);
    let write = || {
        let mut file = tempfile::tempfile_in(folder)?;
        file.write_all(&[0; 1 << 16])?;
        file.sync_all()
    };
    write().map_err(|fault| StoreFault::io(path, fault))
}
