//! The SQLite store's folder: what is in it, what is refused, what cannot be done to it.

use crate::boat::{everything, fill, fits, note, write};
use rusqlite::Connection;
use store::{SqliteStore, Store, StoreFault};

#[test]
fn what_was_written_is_there_when_the_folder_is_opened_again() {
    let folder = tempfile::tempdir().unwrap();
    let store = SqliteStore::open(folder.path().join("survey/of/a/boat")).unwrap();
    fill(&store);
    let before = everything(&store);
    drop(store);
    let store = SqliteStore::open(folder.path().join("survey/of/a/boat")).unwrap();
    assert_eq!(everything(&store), before);
    fits(&store);
    let cache = store.cache_dir().unwrap();
    assert!(cache.is_dir());
    std::fs::write(cache.join("small.jpg"), "can be made again").unwrap();
    fits(&store);
    assert!(folder.path().join("survey/of/a/boat/about.txt").is_file());
}

#[test]
fn the_database_itself_refuses_to_change_or_remove_an_entry() {
    let folder = tempfile::tempdir().unwrap();
    let store = SqliteStore::open(folder.path()).unwrap();
    fill(&store);
    let before = everything(&store);
    let connection = Connection::open(folder.path().join("field-book.sqlite")).unwrap();
    for sql in [
        "UPDATE entry SET line = 'x' WHERE position = 1",
        "DELETE FROM entry",
        "DELETE FROM entry WHERE position = 8",
        "INSERT OR REPLACE INTO entry SELECT position, hash, id, survey, device, time_ms, time_n, 'x' FROM entry",
    ] {
        let fault = connection.execute(sql, []).unwrap_err().to_string();
        assert!(fault.contains("entries are append-only"), "{sql}: {fault}");
    }
    drop(connection);
    assert_eq!(everything(&store), before);
    fits(&store);
}

#[test]
fn commits_are_synced_and_logged_ahead() {
    let folder = tempfile::tempdir().unwrap();
    let store = SqliteStore::open(folder.path()).unwrap();
    write(&store, "office", note("one")).unwrap();
    assert!(folder.path().join("field-book.sqlite-wal").is_file());
    let connection = Connection::open(folder.path().join("field-book.sqlite")).unwrap();
    let mode: String = connection.query_row("PRAGMA journal_mode", [], |row| row.get(0)).unwrap();
    assert_eq!(mode, "wal");
}

#[test]
fn a_newer_or_foreign_database_is_refused_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("field-book.sqlite");
    drop(SqliteStore::open(folder.path()).unwrap());
    Connection::open(&path).unwrap().execute_batch("PRAGMA user_version = 99").unwrap();
    let before = std::fs::read(&path).unwrap();
    let fault = SqliteStore::open(folder.path()).unwrap_err();
    assert!(matches!(fault, StoreFault::Newer { found: 99, .. }), "{fault}");
    assert!(fault.to_string().starts_with("This field book was written by a newer version (form 99;"), "{fault}");
    assert_eq!(std::fs::read(&path).unwrap(), before);

    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("field-book.sqlite");
    Connection::open(&path).unwrap().execute_batch("CREATE TABLE recipes (soup TEXT)").unwrap();
    let fault = SqliteStore::open(folder.path()).unwrap_err();
    assert!(matches!(fault, StoreFault::NotAFieldBook { .. }), "{fault}");

    std::fs::write(&path, "Dear diary, today I looked at a boat. ".repeat(50)).unwrap();
    let fault = SqliteStore::open(folder.path()).unwrap_err();
    assert!(matches!(fault, StoreFault::Damaged { .. }), "{fault}");
}

#[test]
fn a_file_where_the_folder_should_be_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("survey");
    std::fs::write(&path, "not a folder").unwrap();
    let fault = SqliteStore::open(&path).unwrap_err();
    assert!(fault.to_string().contains("survey"), "{fault}");
    assert_eq!(std::fs::read(&path).unwrap(), b"not a folder");
}
