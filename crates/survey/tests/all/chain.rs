//! Runs of entries by device.

use crate::story::{Desk, pen, sounding};
use survey::{ChainFault, Entry, check_chains};

#[test]
fn an_altered_or_missing_entry_leaves_a_gap_that_is_named() {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let run: Vec<Entry> = (0..4).map(|n| desk.write(&mut phone, sounding(&format!("blow {n}")))).collect();
    assert_eq!(check_chains(&run), vec![]);

    let missing: Vec<Entry> = run.iter().filter(|e| e.id != run[1].id).cloned().collect();
    let gap = ChainFault::Gap { entry: run[2].id, device: "phone".into(), prev: run[1].hash() };
    assert_eq!(check_chains(&missing), vec![gap.clone()]);

    let mut altered = run.clone();
    altered[1] = Entry::read(&run[1].line().replace("blow 1", "blow 9")).unwrap();
    assert_eq!(check_chains(&altered), vec![gap]);
}

#[test]
fn a_device_restored_from_a_copy_forks_and_is_named() {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let first = desk.write(&mut phone, sounding("one"));
    let mut copy = phone.clone();
    let second = desk.write(&mut phone, sounding("two"));
    let third = desk.write(&mut copy, sounding("two, other"));
    let faults = check_chains([&first, &second, &third]);
    assert_eq!(faults, vec![ChainFault::Fork { first: second.id, second: third.id, device: "phone".into() }]);
}

#[test]
fn a_clock_set_back_does_not_make_time_run_back() {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let first = desk.write(&mut phone, sounding("one"));
    desk.wall_ms -= 172_800_000;
    let second = desk.write(&mut phone, sounding("two"));
    assert!(second.time > first.time);
    assert_eq!(check_chains([&first, &second]), vec![]);
}
