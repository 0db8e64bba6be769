//! Packages that are as they should be.

use crate::boat::{NOON, SURVEY, digest, everything, fill, fits, name, note, write, write_photograph};
use std::io::Cursor;
use store::package::{ExportOptions, PackageFault, export, import};
use store::{MemoryStore, SqliteStore, Store, write_down};
use survey::{Digest, SurveyId};

pub fn packed(store: &dyn Store) -> Vec<u8> {
    let mut file = Vec::new();
    export(store, &[SURVEY], &ExportOptions::default(), &mut file).unwrap();
    file
}

#[test]
fn a_package_carries_a_survey_from_store_to_store() {
    let folder = tempfile::tempdir().unwrap();
    let (office, yard, home) =
        (MemoryStore::default(), SqliteStore::open(folder.path()).unwrap(), MemoryStore::default());
    fill(&office);
    let first = packed(&office);
    let imported = import(&yard, Cursor::new(&first), &Default::default()).unwrap();
    assert_eq!((imported.entries.new, imported.attachments_new), (8, 2));
    assert_eq!(imported.surveys, [SURVEY]);
    assert!(imported.lacking.is_empty());
    fits(&yard);
    let second = packed(&yard);
    assert_eq!(first, second, "the same survey makes the same package");
    import(&home, Cursor::new(&second), &Default::default()).unwrap();
    assert_eq!(digest(&home), digest(&office));
    assert_eq!(everything(&home).1, everything(&office).1);
}

#[test]
fn the_same_package_read_again_changes_nothing() {
    let (office, yard) = (MemoryStore::default(), MemoryStore::default());
    fill(&office);
    let file = packed(&office);
    import(&yard, Cursor::new(&file), &Default::default()).unwrap();
    let before = everything(&yard);
    let imported = import(&yard, Cursor::new(&file), &Default::default()).unwrap();
    assert_eq!((imported.entries.new, imported.entries.known), (0, 8));
    assert_eq!((imported.attachments_new, imported.attachments_known), (0, 2));
    assert_eq!(everything(&yard), before);
}

#[test]
fn packages_go_both_ways_between_two_that_write_meanwhile() {
    let (office, yard) = (MemoryStore::default(), MemoryStore::default());
    fill(&office);
    import(&yard, Cursor::new(packed(&office)), &Default::default()).unwrap();
    write(&office, "office", note("written at the office")).unwrap();
    write_photograph(&yard, "tablet", b"taken in the yard").unwrap();
    import(&office, Cursor::new(packed(&yard)), &Default::default()).unwrap();
    import(&yard, Cursor::new(packed(&office)), &Default::default()).unwrap();
    assert_eq!(digest(&office), digest(&yard));
    fits(&office);
    fits(&yard);
}

#[test]
fn several_surveys_fit_in_one_package_and_only_those_asked_for() {
    let (office, yard) = (MemoryStore::default(), MemoryStore::default());
    fill(&office);
    let [second, third] = [SurveyId::from_bits(2), SurveyId::from_bits(3)];
    for survey in [second, third] {
        write_down(&office, survey, "A. Surveyor", "office", NOON, &[(name(), note("another boat"))]).unwrap();
    }
    let mut file = Vec::new();
    export(&office, &[SURVEY, third], &ExportOptions::default(), &mut file).unwrap();
    let imported = import(&yard, Cursor::new(&file), &Default::default()).unwrap();
    assert_eq!(imported.surveys, [third, SURVEY]);
    assert_eq!(yard.surveys().unwrap().len(), 2);
    fits(&yard);
    let none = SurveyId::from_bits(99);
    let fault = export(&office, &[none], &ExportOptions::default(), &mut Vec::new()).unwrap_err();
    assert!(matches!(fault, PackageFault::NoSurvey(survey) if survey == none), "{fault}");
}

#[test]
fn attachments_left_out_are_named_and_can_follow() {
    let (office, yard) = (MemoryStore::default(), MemoryStore::default());
    fill(&office);
    let film = Digest::of(&[0xa5; 100_000]);
    let options = ExportOptions { leave_out: [film].into() };
    let mut file = Vec::new();
    let exported = export(&office, &[SURVEY], &options, &mut file).unwrap();
    assert_eq!((exported.attachments, &exported.left_out[..]), (1, &[film][..]));
    assert!(file.len() < 50_000);
    let imported = import(&yard, Cursor::new(&file), &Default::default()).unwrap();
    assert_eq!(imported.lacking, [film]);
    assert_eq!(yard.attachments_lacking(SURVEY).unwrap()[0].sha256, film);
    import(&yard, Cursor::new(packed(&office)), &Default::default()).unwrap();
    fits(&yard);
    // What is not at hand can be left out without being asked.
    let imported = import(&office, Cursor::new(&file), &Default::default()).unwrap();
    assert!(imported.lacking.is_empty());
}

#[test]
fn an_empty_record_has_nothing_to_pack_and_an_empty_package_nothing_to_take() {
    let (office, yard) = (MemoryStore::default(), MemoryStore::default());
    let mut file = Vec::new();
    export(&office, &[], &ExportOptions::default(), &mut file).unwrap();
    let imported = import(&yard, Cursor::new(&file), &Default::default()).unwrap();
    assert_eq!(imported.entries.new, 0);
}

/// A package of form 1 as it was written once; every later version must read it to the same field book.
#[test]
fn a_package_written_once_is_read_for_good() {
    let file = include_bytes!("../data/package-form-1.zip");
    let yard = MemoryStore::default();
    let imported = import(&yard, Cursor::new(file), &Default::default()).unwrap();
    assert_eq!((imported.entries.new, imported.attachments_new), (8, 2));
    let wanted = include_str!("../data/package-form-1.digest").trim();
    assert_eq!(digest(&yard).to_string(), wanted);
    fits(&yard);
}

/// The same for a database of form 1.
#[test]
fn a_database_written_once_is_read_for_good() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("field-book.sqlite"), include_bytes!("../data/field-book-form-1.sqlite"))
        .unwrap();
    let store = SqliteStore::open(folder.path()).unwrap();
    let wanted = include_str!("../data/package-form-1.digest").trim();
    assert_eq!(digest(&store).to_string(), wanted);
    // Its two attachments are not beside it.
    assert_eq!(store.attachments_lacking(SURVEY).unwrap().len(), 2);
    import(&store, Cursor::new(include_bytes!("../data/package-form-1.zip")), &Default::default()).unwrap();
    fits(&store);
}
