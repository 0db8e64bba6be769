//! Opening a field book's folder, and refusing what is not one or no longer whole.

use super::{SqliteStore, schema, sorted};
use crate::StoreFault;
use crate::folder::{AttachmentFolder, sync_folder};
use rusqlite::{Connection, OpenFlags};
use std::fmt::Write as _;
use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// How a field book is opened.
#[derive(Clone, Debug)]
pub struct SqliteOptions {
    /// How long to wait for another program that is writing.
    pub wait: Duration,
}

impl Default for SqliteOptions {
    fn default() -> Self {
        Self { wait: Duration::from_secs(5) }
    }
}

const DATABASE: &str = "field-book.sqlite";
const ABOUT: &str = "about.txt";
const ABOUT_TEXT: &str = "\
This folder is the field book of one or more surveys of boats, kept by the program Ribband.

field-book.sqlite  the entries, in an SQLite database: table `entry`, one row an entry, its text in column `line`;
                   column `hash` is the SHA-256 of that text
attachments        photographs, recordings and papers, each named by the SHA-256 of its content
incoming, cache    nothing that is part of the record

Copy the whole folder, while no program has it open, to keep a copy. Change nothing in it: `ribband verify` shows
every change.
";

pub(super) fn open(folder: &Path, options: &SqliteOptions) -> Result<SqliteStore, StoreFault> {
    let path = folder.join(DATABASE);
    fs::create_dir_all(folder).map_err(|fault| StoreFault::io(folder, fault))?;
    let attachments = AttachmentFolder::open(folder)?;
    let cache = folder.join("cache");
    fs::create_dir_all(&cache).map_err(|fault| StoreFault::io(&cache, fault))?;
    refuse_what_was_lost(folder, &path, &attachments)?;
    refuse_what_was_cut_short(&path)?;

    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut writer = connect(&path, flags, options)?;
    // SQLite opens for reading what it may not write, and says so only when asked.
    if writer.is_readonly("main").map_err(|fault| sorted(&path, fault))? {
        return Err(StoreFault::ReadOnly { path });
    }
    schema::check(&writer, &path, schema::STEPS)?;
    keep_a_log_ahead(&writer, &path, options)?;
    schema::bring_forward(&mut writer, &path, schema::STEPS)?;
    let reader = connect(&path, flags, options)?;
    reader.execute_batch("PRAGMA query_only = ON;").map_err(|fault| sorted(&path, fault))?;
    leave_word(folder)?;
    Ok(SqliteStore { path, cache, attachments, writer: Mutex::new(writer), reader: Mutex::new(reader) })
}

/// Opens a field book to read only: nothing is made, swept, brought forward or written in its folder, so that it may lie
/// on a disk that cannot be written to.
pub(super) fn open_to_read(folder: &Path, options: &SqliteOptions) -> Result<SqliteStore, StoreFault> {
    let path = folder.join(DATABASE);
    let attachments = AttachmentFolder::to_read(folder);
    fs::metadata(&path).map_err(|fault| StoreFault::io(&path, fault))?;
    refuse_what_was_lost(folder, &path, &attachments)?;
    refuse_what_was_cut_short(&path)?;
    // Without the right to write, SQLite can only take the file as it stands, and would pass over what is still in the
    // log beside it.
    if fs::metadata(log_of(&path)).is_ok_and(|log| log.len() > 0) {
        let why = "its last entries are still in the log beside it, which only a disk that can be written to lets in; \
                   copy the whole folder to one"
            .to_owned();
        return Err(StoreFault::Failed { path, why });
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX | OpenFlags::SQLITE_OPEN_URI;
    let name = PathBuf::from(format!("file:{}?immutable=1", as_uri(&path)));
    let connect = || connect(&name, flags, options).map_err(|fault| at(fault, &path));
    let (writer, reader) = (connect()?, connect()?);
    schema::check(&reader, &path, schema::STEPS)?;
    if !schema::is_present(&reader, &path, schema::STEPS)? {
        // An older form must first be brought forward, which is writing.
        return Err(StoreFault::ReadOnly { path });
    }
    let cache = folder.join("cache");
    Ok(SqliteStore { path, cache, attachments, writer: Mutex::new(writer), reader: Mutex::new(reader) })
}

/// Writes a path as part of a `file:` name (RFC 3986, 2.1: what is not plain is written as `%` and two digits).
fn as_uri(path: &Path) -> String {
    let text = path.to_string_lossy().replace('\\', if cfg!(windows) { "/" } else { "\\" });
    let mut out = String::with_capacity(text.len() + 1);
    if cfg!(windows) && !text.starts_with('/') {
        out.push('/');
    }
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'-' | b'_' | b'.' | b'~' | b':' => {
                out.push(char::from(byte))
            }
            _ => {
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
    out
}

/// Returns the fault with the path that a person knows.
fn at(fault: StoreFault, path: &Path) -> StoreFault {
    match fault {
        StoreFault::Failed { why, .. } => StoreFault::Failed { path: path.to_owned(), why },
        StoreFault::Damaged { why, .. } => StoreFault::Damaged { path: path.to_owned(), why },
        StoreFault::ReadOnly { .. } => StoreFault::ReadOnly { path: path.to_owned() },
        other => other,
    }
}

fn connect(path: &Path, flags: OpenFlags, options: &SqliteOptions) -> Result<Connection, StoreFault> {
    let connection = Connection::open_with_flags(path, flags).map_err(|fault| sorted(path, fault))?;
    connection.busy_timeout(options.wait).map_err(|fault| sorted(path, fault))?;
    // fullfsync matters where fsync alone leaves data in the drive's own memory (macOS).
    let settings = "PRAGMA synchronous = FULL; PRAGMA fullfsync = ON; PRAGMA checkpoint_fullfsync = ON; \
                    PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA trusted_schema = OFF; \
                    PRAGMA cell_size_check = ON;";
    connection.execute_batch(settings).map_err(|fault| sorted(path, fault))?;
    Ok(connection)
}

/// Turns the write-ahead log on. SQLite does not wait for others while it changes over, so this does.
fn keep_a_log_ahead(connection: &Connection, path: &Path, options: &SqliteOptions) -> Result<(), StoreFault> {
    let begun = Instant::now();
    loop {
        let mode = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get::<_, String>(0));
        match mode.map_err(|fault| sorted(path, fault)) {
            Ok(mode) if mode.eq_ignore_ascii_case("wal") => return Ok(()),
            Ok(mode) => {
                let why = format!("the disk does not allow a write-ahead log (journal mode is {mode})");
                return Err(StoreFault::Failed { path: path.to_owned(), why });
            }
            Err(StoreFault::Busy { .. }) if begun.elapsed() < options.wait => {
                std::thread::sleep(Duration::from_millis(5));
            }
            Err(fault) => return Err(fault),
        }
    }
}

/// Refuses to begin an empty field book where there has been one before.
fn refuse_what_was_lost(folder: &Path, path: &Path, attachments: &AttachmentFolder) -> Result<(), StoreFault> {
    let is_empty = |path: &Path| fs::metadata(path).map_or(true, |about| about.len() == 0);
    if !is_empty(path) || !is_empty(&log_of(path)) {
        return Ok(());
    }
    if folder.join(ABOUT).exists() || !attachments.is_empty()? {
        let why = "its database is missing or empty, though there has been one".to_owned();
        return Err(StoreFault::Damaged { path: path.to_owned(), why });
    }
    Ok(())
}

/// Refuses a database that is shorter than its own first page says. While a log lies beside it, SQLite itself has
/// pages to put back, and the length says nothing.
fn refuse_what_was_cut_short(path: &Path) -> Result<(), StoreFault> {
    let Ok(about) = fs::metadata(path) else { return Ok(()) };
    if about.len() == 0 || fs::metadata(log_of(path)).is_ok_and(|log| log.len() > 0) {
        return Ok(());
    }
    let damaged = |why: &str| Err(StoreFault::Damaged { path: path.to_owned(), why: why.to_owned() });
    let mut head = [0; 100];
    let read = File::open(path).and_then(|mut file| file.read_exact(&mut head));
    match read {
        Err(fault) if fault.kind() == std::io::ErrorKind::UnexpectedEof => return damaged("its database is cut short"),
        Err(fault) => return Err(StoreFault::io(path, fault)),
        Ok(()) => {}
    }
    // SQLite database file format, 1.3: the magic words; page size at 16; count of pages at 28, which holds when the
    // change counter at 24 equals the one at 92.
    if &head[..16] != b"SQLite format 3\0" {
        return damaged("its database does not begin as a database does");
    }
    let number = |at: usize| u64::from(u32::from_be_bytes([head[at], head[at + 1], head[at + 2], head[at + 3]]));
    let page = match u64::from(u16::from_be_bytes([head[16], head[17]])) {
        1 => 65_536,
        bytes => bytes,
    };
    if number(24) == number(92) && about.len() < number(28) * page {
        return damaged("its database is cut short");
    }
    Ok(())
}

/// Says in plain text what the folder is. Written once the database is there, so that it also tells later on that
/// there has been one.
fn leave_word(folder: &Path) -> Result<(), StoreFault> {
    let path = folder.join(ABOUT);
    if path.exists() {
        return Ok(());
    }
    let write = || {
        let mut file = tempfile::NamedTempFile::new_in(folder)?;
        file.write_all(ABOUT_TEXT.as_bytes())?;
        file.as_file().sync_all()?;
        file.persist(&path).map_err(|fault| fault.error)?;
        std::io::Result::Ok(())
    };
    write().map_err(|fault| StoreFault::io(&path, fault))?;
    sync_folder(folder)
}

fn log_of(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push("-wal");
    name.into()
}
