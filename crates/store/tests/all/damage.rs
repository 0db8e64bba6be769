//! What happens to a record from outside, and what `verify` says of it.

use crate::boat::{SURVEY, everything, fill, fits, note, write};
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use store::{Misfit, Position, SqliteStore, Store, StoreFault, verify};
use survey::Digest;
use tempfile::TempDir;

const BESIDE_THE_GUARDS: &str =
    "DROP TRIGGER entry_is_not_changed; DROP TRIGGER entry_is_not_removed; DROP TRIGGER entry_is_not_replaced;";
const GUARDS: &str = include_str!("../../src/sqlite/migrations/0001_entries.sql");

fn filled() -> (TempDir, SqliteStore) {
    let folder = tempfile::tempdir().unwrap();
    let store = SqliteStore::open(folder.path()).unwrap();
    fill(&store);
    (folder, store)
}

/// Does to the database what someone does who knows how to get past the guards and puts them back.
fn tamper(folder: &TempDir, sql: &str) {
    let connection = Connection::open(folder.path().join("field-book.sqlite")).unwrap();
    connection.execute_batch(BESIDE_THE_GUARDS).unwrap();
    connection.execute_batch(sql).unwrap();
    let guards = &GUARDS[GUARDS.find("CREATE TRIGGER").unwrap()..];
    connection.execute_batch(guards).unwrap();
}

fn said(store: &SqliteStore) -> Vec<String> {
    verify(store).unwrap().misfits.iter().map(Misfit::to_string).collect()
}

fn path_of(folder: &TempDir, sha256: &Digest) -> PathBuf {
    let name = sha256.to_string();
    folder.path().join("attachments").join(&name[..2]).join(name)
}

#[test]
fn a_changed_entry_is_named() {
    let (folder, store) = filled();
    let kept = &everything(&store).0[2];
    tamper(&folder, "UPDATE entry SET line = replace(line, 'behind', 'before') WHERE position = 3");
    let misfits = verify(&store).unwrap().misfits;
    assert!(
        misfits.iter().any(|m| matches!(m, Misfit::Entry { id, position: Position(3), .. } if *id == kept.id)),
        "{misfits:?}"
    );
    let fault = store.entries_since(SURVEY, Position::START, 100).unwrap_err();
    assert!(matches!(fault, StoreFault::EntryDamaged { id, .. } if id == kept.id), "{fault}");
}

#[test]
fn a_changed_entry_with_its_hash_changed_to_match_breaks_the_chain() {
    let (folder, store) = filled();
    let kept = everything(&store).0[2].clone();
    let next = everything(&store).0[4].clone();
    let line = String::from_utf8(kept.line).unwrap().replace("behind", "before");
    let hash = Digest::of(line.as_bytes());
    tamper(&folder, &format!("UPDATE entry SET line = '{line}', hash = x'{hash}' WHERE position = 3"));
    let misfits = said(&store);
    assert_eq!(misfits.len(), 1, "{misfits:?}");
    assert!(misfits[0].contains(&format!("entry {} of device `office` follows", next.id)), "{misfits:?}");
}

#[test]
fn an_entry_taken_out_is_missed_wherever_it_was() {
    // Number 5 is the last of the office's run and 8 the last of all: no chain misses those.
    for (position, at_the_end) in [(1, false), (3, false), (5, true), (8, true)] {
        let (folder, store) = filled();
        tamper(&folder, &format!("DELETE FROM entry WHERE position = {position}"));
        let misfits = said(&store);
        let wanted = format!("Entry number {position} of this store has been taken out.");
        assert!(misfits.contains(&wanted), "{misfits:?}");
        if !at_the_end {
            assert!(misfits.iter().any(|m| m.contains("follows an entry that is missing")), "{misfits:?}");
        }
    }
}

#[test]
fn an_entry_filed_elsewhere_is_named() {
    for change in ["survey = x'00000000000000000000000000000001'", "device = 'x'", "time_ms = 5"] {
        let (folder, store) = filled();
        let id = everything(&store).0[3].id;
        tamper(&folder, &format!("UPDATE entry SET {change} WHERE position = 4"));
        let misfits = said(&store);
        assert!(misfits.iter().any(|m| m.contains(&id.to_string()) && m.contains("filed under")), "{misfits:?}");
    }
}

#[test]
fn guards_taken_away_are_missed() {
    let (folder, store) = filled();
    let connection = Connection::open(folder.path().join("field-book.sqlite")).unwrap();
    connection.execute_batch(BESIDE_THE_GUARDS).unwrap();
    assert_eq!(said(&store).iter().filter(|m| m.contains("has been taken out of the database")).count(), 3);
}

#[test]
fn a_missing_attachment_is_named_with_its_entry() {
    let (folder, store) = filled();
    let named = store.attachments_named(SURVEY).unwrap();
    fs::remove_file(path_of(&folder, &named[0].sha256)).unwrap();
    let wanted = Misfit::AttachmentMissing { sha256: named[0].sha256, entry: named[0].entry };
    assert_eq!(verify(&store).unwrap().misfits, [wanted]);
    assert_eq!(store.attachments_lacking(SURVEY).unwrap(), named[..1]);
}

#[test]
fn a_disguised_attachment_is_named_never_handed_out_and_mended_by_the_true_one() {
    let (folder, store) = filled();
    let content = b"a picture of the garboard";
    let sha256 = Digest::of(content);
    let path = path_of(&folder, &sha256);
    let disguises: [&dyn Fn(&Path); 4] = [
        &|path| fs::write(path, b"a picture of the transom!").unwrap(),
        &|path| fs::write(path, b"a picture").unwrap(),
        &|path| fs::write(path, b"a picture of the garboard, and more").unwrap(),
        &|path| {
            let elsewhere = folder.path().join("elsewhere");
            fs::write(&elsewhere, content).unwrap();
            fs::remove_file(path).unwrap();
            #[cfg(unix)]
            std::os::unix::fs::symlink(&elsewhere, path).unwrap();
        },
    ];
    for disguise in disguises {
        disguise(&path);
        let fault = store.attachment(&sha256, 1 << 20).unwrap_err();
        assert!(matches!(fault, StoreFault::AttachmentWrong { .. }), "{fault}");
        let misfits = said(&store);
        assert!(misfits.iter().any(|m| m.contains(&sha256.to_string())), "{misfits:?}");
        store.put_attachment(&mut &content[..], None).unwrap();
        assert!(fs::symlink_metadata(&path).unwrap().is_file());
        fits(&store);
    }
}

#[test]
fn what_does_not_belong_among_the_attachments_is_shown() {
    let (folder, store) = filled();
    fs::write(folder.path().join("attachments/holiday.jpg"), "sunset").unwrap();
    let misfits = said(&store);
    assert!(misfits.len() == 1 && misfits[0].contains("holiday.jpg"), "{misfits:?}");
}

#[test]
fn a_database_cut_short_is_refused_with_one_sentence_and_left_as_it_is() {
    let (folder, store) = filled();
    for n in 0..300 {
        write(&store, "office", note(&format!("to fill some pages, {n}"))).unwrap();
    }
    drop(store);
    let path = folder.path().join("field-book.sqlite");
    let whole = fs::read(&path).unwrap();
    assert!(!folder.path().join("field-book.sqlite-wal").exists());
    for length in [0, 1, 50, 99, 100, 4096, 5000, 8192, whole.len() / 2, whole.len() - 4096, whole.len() - 1] {
        fs::write(&path, &whole[..length]).unwrap();
        let fault = SqliteStore::open(folder.path()).unwrap_err();
        assert!(matches!(fault, StoreFault::Damaged { .. }), "{length}: {fault}");
        assert!(fault.to_string().contains("restore it from a package or a copy"), "{fault}");
        assert_eq!(fs::read(&path).unwrap(), whole[..length]);
    }
    fs::remove_file(&path).unwrap();
    let fault = SqliteStore::open(folder.path()).unwrap_err();
    assert!(fault.to_string().contains("its database is missing or empty"), "{fault}");
    assert!(!path.exists(), "no empty field book takes the place of the lost one");
    fs::write(&path, &whole).unwrap();
    fits(&SqliteStore::open(folder.path()).unwrap());
}

#[test]
fn pages_overwritten_are_found_by_verify() {
    let (folder, store) = filled();
    for n in 0..300 {
        write(&store, "office", note(&format!("to fill some pages, {n}"))).unwrap();
    }
    drop(store);
    let path = folder.path().join("field-book.sqlite");
    let mut bytes = fs::read(&path).unwrap();
    let from = bytes.len() / 4096 / 2 * 4096;
    bytes[from..from + 4096].fill(0x5a);
    fs::write(&path, bytes).unwrap();
    match SqliteStore::open(folder.path()) {
        Ok(store) => assert!(!verify(&store).unwrap().fits()),
        Err(fault) => assert!(matches!(fault, StoreFault::Damaged { .. }), "{fault}"),
    }
}
