//! A full disk and one that may not be written to, on a small file system in memory.

use crate::boat::{everything, fits, note, write, write_photograph};
use std::path::Path;
use std::process::Command;
use store::{MemoryStore, SqliteStore, Store, StoreFault, package};

/// A small file system of its own; gone when dropped.
struct SmallDisk {
    folder: tempfile::TempDir,
}

impl SmallDisk {
    /// Mounts one, or says on standard error that the test is skipped: that takes the rights of an administrator.
    fn mounted(size: &str) -> Option<Self> {
        let folder = tempfile::tempdir().unwrap();
        let size = format!("size={size}");
        let done = Command::new("mount").args(["-t", "tmpfs", "-o", &size, "small-disk"]).arg(folder.path()).output();
        if done.is_ok_and(|done| done.status.success()) {
            return Some(Self { folder });
        }
        eprintln!("skipped: no small file system can be mounted here");
        None
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn remount(&self, how: &str) {
        let options = format!("remount,{how}");
        let done = Command::new("mount").args(["-o", &options]).arg(self.path()).status().unwrap();
        assert!(done.success());
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.path()).status();
    }
}

fn is_full(fault: &StoreFault) -> bool {
    matches!(fault, StoreFault::Full { .. }) && fault.to_string().starts_with("The disk is full;")
}

#[test]
fn a_full_disk_loses_nothing_and_writing_goes_on_once_there_is_room() {
    let Some(disk) = SmallDisk::mounted("3m") else { return };
    let ballast = disk.path().join("ballast");
    std::fs::write(&ballast, vec![1; 1 << 20]).unwrap();
    let store = SqliteStore::open(disk.path().join("book")).unwrap();
    let fault = store.put_attachment(&mut &vec![2; 4 << 20][..], None).unwrap_err();
    assert!(is_full(&fault), "{fault}");
    assert!(store.attachments_after(None, 10).unwrap().is_empty());
    assert_eq!(std::fs::read_dir(disk.path().join("book/incoming")).unwrap().count(), 0, "nothing is left behind");

    let mut written = Vec::new();
    let fault = loop {
        match write_photograph(&store, "phone", &[written.len() as u8; 3000])
            .and_then(|_| write(&store, "phone", note(&"a long note ".repeat(200))))
        {
            Ok(entry) => written.push(entry.hash()),
            Err(fault) => break fault,
        }
        assert!(written.len() < 2000, "the disk never filled");
    };
    assert!(is_full(&fault), "{fault}");
    assert!(!written.is_empty(), "something was written before the disk was full");
    // Whether it is the folder or the database that finds no room.
    let fault = loop {
        match write(&store, "phone", note("one more")) {
            Ok(entry) => written.push(entry.hash()),
            Err(fault) => break fault,
        }
    };
    assert!(is_full(&fault), "{fault}");
    assert!(store.lacks(&written).unwrap().is_empty());
    let before = everything(&store);
    fits(&store);

    let elsewhere = MemoryStore::default();
    write_photograph(&elsewhere, "office", &[9; 200_000]).unwrap();
    let mut file = Vec::new();
    package::export(&elsewhere, &[crate::boat::SURVEY], &Default::default(), &mut file).unwrap();
    let fault = package::import(&store, std::io::Cursor::new(&file), &Default::default()).unwrap_err();
    assert!(matches!(&fault, package::PackageFault::Store(fault) if is_full(fault)), "{fault}");
    assert_eq!(everything(&store), before);

    std::fs::remove_file(&ballast).unwrap();
    package::import(&store, std::io::Cursor::new(&file), &Default::default()).unwrap();
    write_photograph(&store, "phone", b"room again").unwrap();
    fits(&store);
    drop(store);
    let store = SqliteStore::open(disk.path().join("book")).unwrap();
    assert!(store.lacks(&written).unwrap().is_empty());
    fits(&store);
}

#[test]
fn a_disk_full_from_the_beginning_is_refused_with_one_sentence() {
    let Some(disk) = SmallDisk::mounted("64k") else { return };
    std::fs::write(disk.path().join("ballast"), vec![1; 48 << 10]).unwrap();
    let fault = SqliteStore::open(disk.path().join("book")).unwrap_err();
    assert!(is_full(&fault), "{fault}");
    std::fs::remove_file(disk.path().join("ballast")).unwrap();
    disk.remount("size=4m");
    let store = SqliteStore::open(disk.path().join("book")).unwrap();
    write(&store, "office", note("at last")).unwrap();
    fits(&store);
}

#[test]
fn a_folder_that_may_not_be_written_to_is_refused_with_one_sentence() {
    let Some(disk) = SmallDisk::mounted("4m") else { return };
    let store = SqliteStore::open(disk.path().join("book")).unwrap();
    let entry = write_photograph(&store, "phone", b"before").unwrap();
    drop(store);
    let is_read_only = |fault: &StoreFault| {
        matches!(fault, StoreFault::ReadOnly { .. })
            && fault.to_string().starts_with("The field book's folder cannot be written to;")
    };
    disk.remount("ro");
    for book in ["book", "another book"] {
        let fault = SqliteStore::open(disk.path().join(book)).unwrap_err();
        assert!(is_read_only(&fault), "{fault}");
    }
    disk.remount("rw");
    let store = SqliteStore::open(disk.path().join("book")).unwrap();
    assert!(store.lacks(&[entry.hash()]).unwrap().is_empty());
    fits(&store);
}

#[cfg(unix)]
#[test]
fn a_folder_without_leave_to_write_is_refused_with_one_sentence() {
    use std::fs::{Permissions, create_dir, set_permissions};
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let closed = folder.path().join("closed");
    create_dir(&closed).unwrap();
    set_permissions(&closed, Permissions::from_mode(0o555)).unwrap();
    if std::fs::write(closed.join("may-i"), "").is_ok() {
        eprintln!("skipped: the administrator may write anywhere");
        return;
    }
    let fault = SqliteStore::open(&closed).unwrap_err();
    assert!(matches!(fault, StoreFault::ReadOnly { .. }), "{fault}");
    set_permissions(&closed, Permissions::from_mode(0o755)).unwrap();
    let store = SqliteStore::open(&closed).unwrap();
    let entry = write(&store, "office", note("before")).unwrap();
    drop(store);
    set_permissions(&closed, Permissions::from_mode(0o555)).unwrap();
    let fault = SqliteStore::open(&closed).unwrap_err();
    assert!(matches!(fault, StoreFault::ReadOnly { .. }), "{fault}");
    set_permissions(&closed, Permissions::from_mode(0o755)).unwrap();
    assert!(SqliteStore::open(&closed).unwrap().lacks(&[entry.hash()]).unwrap().is_empty());
}

#[test]
fn a_field_book_on_a_disk_that_cannot_be_written_to_is_read_and_proven_whole() {
    let Some(disk) = SmallDisk::mounted("8m") else { return };
    // A name with what means something in a database's address.
    let folder = disk.path().join("book 100% #1?x");
    {
        let store = SqliteStore::open(&folder).unwrap();
        write(&store, "office", note("before")).unwrap();
        write_photograph(&store, "phone", b"a photograph").unwrap();
    }
    disk.remount("ro");
    assert!(matches!(SqliteStore::open(&folder).map(drop), Err(StoreFault::ReadOnly { .. })));
    let store = SqliteStore::open_to_read(&folder).unwrap();
    fits(&store);
    let (entries, attachments) = everything(&store);
    assert_eq!((entries.len(), attachments.len()), (2, 1));
    // Nothing can be written, and the refusal says so.
    let refused = write(&store, "office", note("after")).unwrap_err();
    assert!(matches!(refused, StoreFault::ReadOnly { .. }), "{refused}");
    disk.remount("rw");
}

#[test]
fn reading_only_leaves_no_trace_and_does_not_pass_over_a_log() {
    let folder = tempfile::tempdir().unwrap();
    let names = || {
        let mut all: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|f| f.unwrap().file_name()).collect();
        all.sort();
        all
    };
    assert!(SqliteStore::open_to_read(folder.path()).is_err(), "there is nothing to read");
    assert!(names().is_empty());
    write(&SqliteStore::open(folder.path()).unwrap(), "office", note("one")).unwrap();
    let before = names();
    fits(&SqliteStore::open_to_read(folder.path()).unwrap());
    assert_eq!(names(), before);
    // While another program has it open its last entries are in the log.
    let open = SqliteStore::open(folder.path()).unwrap();
    write(&open, "office", note("two")).unwrap();
    let refused = SqliteStore::open_to_read(folder.path()).unwrap_err().to_string();
    assert!(refused.contains("still in the log beside it"), "{refused}");
}
