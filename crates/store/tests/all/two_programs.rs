//! A second program on the same field book.

use crate::boat::{SURVEY, everything, fits, note, write};
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use store::{SqliteOptions, SqliteStore, Store, StoreFault};

fn start(folder: &Path, arguments: &[&str]) -> Child {
    Command::new(env!("CARGO_BIN_EXE_keep-writing")).arg(folder).args(arguments).stdout(Stdio::piped()).spawn().unwrap()
}

#[test]
fn a_program_waits_briefly_for_another_and_then_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let options = SqliteOptions { wait: Duration::from_millis(200) };
    let store = SqliteStore::open_with(folder.path(), &options).unwrap();
    write(&store, "office", note("before")).unwrap();
    let before = everything(&store);

    let mut other = start(folder.path(), &["phone", "hold", "1500"]);
    let mut line = String::new();
    BufReader::new(other.stdout.as_mut().unwrap()).read_line(&mut line).unwrap();
    assert_eq!(line, "holding\n");
    let begun = Instant::now();
    let fault = write(&store, "office", note("meanwhile")).unwrap_err();
    assert!(matches!(fault, StoreFault::Busy { .. }), "{fault}");
    assert!(fault.to_string().starts_with("Another program is writing to this field book;"), "{fault}");
    assert!(begun.elapsed() >= Duration::from_millis(150), "it waited");
    assert_eq!(everything(&store), before, "reading goes on");

    let patient = SqliteStore::open(folder.path()).unwrap();
    write(&patient, "office", note("once the other is done")).unwrap();
    assert!(other.wait().unwrap().success());
    fits(&store);
}

#[test]
fn programs_writing_at_once_for_one_device_never_break_its_chain() {
    let folder = tempfile::tempdir().unwrap();
    // All of them may be the one that makes the field book.
    let others: Vec<Child> = (0..4).map(|_| start(folder.path(), &["office", "60"])).collect();
    for mut other in others {
        assert!(other.wait().unwrap().success());
    }
    let store = SqliteStore::open(folder.path()).unwrap();
    assert_eq!(store.state(SURVEY).unwrap().entries().len(), 240);
    fits(&store);
}
