//! The record holds: admitted, chained, the same every time, every kind in it.

use crate::{demo, state};
use std::collections::BTreeSet;
use survey::payload::{KINDS, Payload};
use survey::{Digest, Entry, Method, State, check_chains};

#[test]
fn it_is_written_the_same_every_time() {
    let again = demo::marram().expect("in order");
    assert_eq!(again.survey, demo().survey);
    let lines = |d: &demo::Demo| d.entries.iter().map(|e| e.line().to_owned()).collect::<Vec<_>>();
    assert_eq!(lines(&again), lines(demo()));
    assert_eq!(again.attachments, demo().attachments);
}

#[test]
fn every_payload_is_read_strictly_and_back_from_its_line() {
    for entry in &demo().entries {
        let json = serde_json::from_str(&entry.payload_json()).expect("a payload is JSON");
        let read = Payload::read_strict(entry.kind(), &json);
        assert_eq!(read.as_ref().ok(), Some(&entry.payload), "{}", entry.line());
        let back = Entry::read(entry.line()).expect("its own line is an entry");
        assert_eq!((back.hash(), back.id), (entry.hash(), entry.id));
    }
}

#[test]
fn the_chains_of_both_devices_hold() {
    assert_eq!(check_chains(&demo().entries), vec![]);
    let devices: BTreeSet<&str> = demo().entries.iter().map(|e| e.device.as_str()).collect();
    assert_eq!(devices, BTreeSet::from(["phone", "tablet"]));
}

#[test]
fn a_changed_letter_breaks_a_chain() {
    let mut entries = demo().entries.clone();
    let changed = entries[3].line().replacen("Hedda", "Helga", 1);
    entries[3] = Entry::read(&changed).expect("still an entry");
    assert!(!check_chains(&entries).is_empty());
}

#[test]
fn identifiers_are_of_version_7_and_begin_with_their_moment() {
    for entry in &demo().entries {
        let uuid = entry.id.uuid();
        assert_eq!(uuid.get_version_num(), 7);
        let (seconds, nanos) = uuid.get_timestamp().expect("version 7 has a moment").to_unix();
        assert!(entry.time.ms >= seconds * 1000 + u64::from(nanos / 1_000_000), "{}", entry.id);
    }
}

#[test]
fn the_fold_knows_everything_and_nothing_waits() {
    let state = state();
    assert_eq!(state.len(), demo().entries.len());
    assert_eq!(state.unread().len(), 0);
    assert_eq!(state.waiting().count(), 0);
    assert_eq!(state.clashes().count(), 0);
    let backwards = State::fold(demo().survey, demo().entries.iter().rev().cloned());
    assert_eq!(backwards.digest(), state.digest());
}

#[test]
fn every_kind_of_entry_and_every_method_occurs() {
    let kinds: BTreeSet<&str> = demo().entries.iter().map(Entry::kind).collect();
    assert_eq!(kinds, KINDS.iter().copied().collect());
    let methods: BTreeSet<Method> = state().observations().map(|o| o.payload.reading.method()).collect();
    assert_eq!(methods, BTreeSet::from(Method::ALL));
}

#[test]
fn exactly_one_record_is_disputed_and_one_is_withdrawn() {
    let state = state();
    let disputed: Vec<_> = state.disputed().collect();
    assert_eq!(disputed.len(), 1);
    let rivals = disputed[0].rivals();
    assert_eq!(rivals.len(), 1);
    assert_ne!(rivals[0].device, disputed[0].shown().device);
    assert_eq!(state.records().iter().filter(|record| record.is_withdrawn()).count(), 1);
}

#[test]
fn the_letter_went_out_as_the_record_names_it() {
    let state = state();
    let issued = state.reports_issued().next().expect("a letter went out");
    assert_eq!(issued.payload.sha256, Digest::of(demo::LETTER.as_bytes()));
    let before: Vec<Entry> = demo().entries.iter().take_while(|e| e.id != issued.id()).cloned().collect();
    assert_eq!(issued.payload.field_book, State::fold(demo().survey, before).digest());
}
