//! How long keeping takes: `cargo bench -p store --profile dev`. Prints figures; judges nothing.

use std::error::Error;
use std::io::Cursor;
use std::time::Instant;
use store::{SqliteStore, Store, package, verify, write_down};
use survey::payload::{NotSeen, Payload};
use survey::{EntryId, Place, SurveyId};

const SURVEY: SurveyId = SurveyId::from_bits(7);

fn main() -> Result<(), Box<dyn Error>> {
    let (office, yard) = (tempfile::tempdir()?, tempfile::tempdir()?);
    let store = SqliteStore::open(office.path())?;
    let notes = |from: u64, count: u64| -> Vec<(EntryId, Payload)> {
        (from..from + count).map(|n| (EntryId::from_bits(u128::from(n)), note())).collect()
    };
    let append = |notes: &[(EntryId, Payload)]| write_down(&store, SURVEY, "A. Surveyor", "office", 1, notes);

    timed("500 entries, one at a time", || {
        notes(1, 500).iter().try_for_each(|note| append(std::slice::from_ref(note)).map(drop))
    })?;
    timed("9,500 entries in one go", || append(&notes(1000, 9500)))?;
    let photograph: Vec<u8> = (0..4_000_000u32).map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    timed("20 attachments of 4 MB", || {
        (0..20).try_for_each(|n| {
            let mut one = photograph.clone();
            one[0] = n;
            store.put_attachment(&mut one.as_slice(), None).map(drop)
        })
    })?;
    timed("the present state of 10,000 entries", || store.state(SURVEY))?;
    timed("verifying all", || verify(&store))?;
    let mut file = Vec::new();
    timed("a package of 10,000 entries written", || {
        package::export(&store, &[SURVEY], &Default::default(), &mut file)
    })?;
    println!("{:>50}  {:.1} MB", "its size", file.len() as f64 / 1e6);
    let other = SqliteStore::open(yard.path())?;
    timed("the package read", || package::import(&other, Cursor::new(&file), &Default::default()))?;
    timed("the package read again", || package::import(&other, Cursor::new(&file), &Default::default()))?;
    Ok(())
}

fn timed<T, E>(what: &str, work: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
    let begun = Instant::now();
    let done = work()?;
    println!("{what:>50}  {:.1} ms", begun.elapsed().as_secs_f64() * 1000.0);
    Ok(done)
}

fn note() -> Payload {
    let why = "covered by the ceiling, which is fastened and was not to be lifted".to_owned();
    Payload::from(NotSeen { member: "frame".into(), place: Place::default(), why, needs: "lifting it".into() })
}
