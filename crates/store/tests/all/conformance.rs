//! What every store does, whatever it keeps its record in.

use crate::boat::{NOON, SURVEY, digest, everything, fill, fits, name, note, photograph, write, write_photograph};
use std::io::{self, Read, SeekFrom};
use store::{MemoryStore, Misfit, Position, Refusal, SqliteStore, Store, StoreFault, verify, write_down};
use survey::{ChainFault, Digest, Entry, EntryId, Pen, Stamp, SurveyId};

macro_rules! for_every_store {
    ($($case:ident),+ $(,)?) => {
        mod memory {
            $(#[test] fn $case() { super::$case(&super::MemoryStore::default()); })+
        }
        mod sqlite {
            $(#[test] fn $case() {
                let folder = tempfile::tempdir().unwrap();
                super::$case(&super::SqliteStore::open(folder.path()).unwrap());
            })+
        }
    };
}

for_every_store!(
    entries_come_back_as_they_were_written_in_the_order_they_came,
    a_device_writes_only_what_follows_its_last_entry,
    an_entry_is_refused_while_its_attachment_is_missing,
    entries_written_elsewhere_are_taken_once,
    two_stores_that_exchange_what_the_other_lacks_say_the_same,
    two_entries_of_one_name_both_stay,
    one_bad_entry_among_many_keeps_all_out,
    an_entry_that_comes_before_the_one_it_follows_is_kept_and_shown_as_a_gap,
    what_a_newer_version_wrote_is_passed_on_byte_for_byte,
    attachments_come_back_as_they_were_put,
    an_attachment_that_is_not_the_one_wanted_or_breaks_off_is_not_kept,
    attachments_are_listed_in_batches,
    surveys_are_told_apart,
    devices_writing_at_once_never_break_a_chain,
    a_writer_that_changes_its_mind_or_panics_records_nothing,
);

fn entries_come_back_as_they_were_written_in_the_order_they_came(store: &dyn Store) {
    let written: Vec<Entry> = (0..7).map(|n| write(store, "office", note(&format!("note {n}"))).unwrap()).collect();
    let mut read = Vec::new();
    let mut after = Position::START;
    loop {
        let batch = store.entries_since(SURVEY, after, 3).unwrap();
        assert!(batch.len() <= 3);
        let Some((last, _)) = batch.last() else { break };
        assert!(*last > after);
        after = *last;
        read.extend(batch.into_iter().map(|(_, entry)| entry.line().to_owned()));
    }
    assert_eq!(read, written.iter().map(|entry| entry.line().to_owned()).collect::<Vec<_>>());
    let kept = store.kept(&written[4].hash()).unwrap().unwrap();
    assert_eq!(kept.line, written[4].line().as_bytes());
    assert!(store.kept(&Digest::of(b"nothing")).unwrap().is_none());
    let nothing = Digest::of(b"nothing");
    assert_eq!(store.lacks(&[written[0].hash(), nothing]).unwrap(), [nothing]);
    fits(store);
}

fn a_device_writes_only_what_follows_its_last_entry(store: &dyn Store) {
    let first = write(store, "office", note("first")).unwrap();
    let before = everything(store);
    let refusal = |make: &dyn Fn(Pen) -> Entry| -> Refusal {
        let result = store.append_with(SURVEY, "office", &mut |head| {
            assert_eq!(head.prev, Some(first.hash()));
            Ok(vec![make(Pen::new(SURVEY, "A. Surveyor", "office").after(head.prev, head.latest))])
        });
        assert_eq!(everything(store), before, "nothing was recorded");
        match result {
            Err(StoreFault::Refused { why, .. }) => why,
            other => panic!("{other:?}"),
        }
    };
    let pen = |survey, device| Pen::new(survey, "A. Surveyor", device).after(Some(first.hash()), first.time);
    let elsewhere = SurveyId::from_bits(8);
    assert_eq!(refusal(&|_| pen(elsewhere, "office").write(name(), NOON, &note("x"))), Refusal::OtherSurvey(elsewhere));
    let phone = Refusal::OtherDevice("phone".to_owned());
    assert_eq!(refusal(&|_| pen(SURVEY, "phone").write(name(), NOON, &note("x"))), phone);
    let lost = |head: Option<Digest>| move |pen: Pen| pen.after(head, Stamp { ms: NOON + 9, n: 0 });
    assert_eq!(refusal(&|pen| lost(None)(pen).write(name(), NOON, &note("x"))), Refusal::DoesNotFollow);
    let early = |pen: Pen| pen.after(Some(first.hash()), Stamp::default()).write(name(), NOON - 1, &note("x"));
    assert_eq!(refusal(&early), Refusal::NotLater);
    assert_eq!(refusal(&|mut pen| pen.write(first.id, NOON, &note("x"))), Refusal::NameTaken);
    assert_eq!(refusal(&|mut pen| pen.write(name(), u64::MAX, &note("x"))), Refusal::BeyondCalendar);
    write(store, "office", note("second")).unwrap();
    fits(store);
}

fn an_entry_is_refused_while_its_attachment_is_missing(store: &dyn Store) {
    let sha256 = Digest::of(b"a picture");
    let fault = write(store, "phone", photograph(sha256, 9)).unwrap_err();
    assert!(matches!(fault, StoreFault::Refused { why: Refusal::AttachmentMissing(d), .. } if d == sha256), "{fault}");
    store.put_attachment(&mut &b"a picture"[..], None).unwrap();
    let fault = write(store, "phone", photograph(sha256, 10)).unwrap_err();
    assert!(matches!(fault, StoreFault::Refused { why: Refusal::AttachmentLength { .. }, .. }), "{fault}");
    assert!(everything(store).0.is_empty());
    write(store, "phone", photograph(sha256, 9)).unwrap();
    fits(store);
}

fn entries_written_elsewhere_are_taken_once(store: &dyn Store) {
    let elsewhere = MemoryStore::default();
    fill(&elsewhere);
    let entries: Vec<Entry> =
        elsewhere.entries_since(SURVEY, Position::START, 100).unwrap().into_iter().map(|(_, entry)| entry).collect();
    let taken = store.take_all(&entries).unwrap();
    assert_eq!((taken.new, taken.known, taken.clashes.len()), (8, 0, 0));
    let before = everything(store);
    let taken = store.take_all(&entries).unwrap();
    assert_eq!((taken.new, taken.known), (0, 8));
    assert_eq!(everything(store), before);
    assert_eq!(digest(store), digest(&elsewhere));
}

fn two_stores_that_exchange_what_the_other_lacks_say_the_same(store: &dyn Store) {
    let other = MemoryStore::default();
    fill(store);
    for n in 0..4 {
        write(&other, "tablet", note(&format!("behind the stove, {n}"))).unwrap();
    }
    write_photograph(&other, "tablet", b"a picture of the stem").unwrap();
    fn pull(from: &dyn Store, to: &dyn Store) {
        let hashes: Vec<Digest> = everything(from).0.iter().map(|kept| kept.hash).collect();
        let wanted = to.lacks(&hashes).unwrap();
        let entries: Vec<Entry> = wanted.iter().map(|hash| from.kept(hash).unwrap().unwrap().read().unwrap()).collect();
        to.take_all(&entries).unwrap();
        for named in to.attachments_lacking(SURVEY).unwrap() {
            if let Ok((_, mut content)) = from.open_attachment(&named.sha256) {
                to.put_attachment(&mut content, Some(&named.sha256)).unwrap();
            }
        }
    }
    pull(&other, store);
    pull(store, &other);
    assert_eq!(digest(store), digest(&other));
    assert_eq!(everything(store).1, everything(&other).1);
    assert_eq!(everything(store).1.len(), 3);
    assert!(store.attachments_lacking(SURVEY).unwrap().is_empty());
    fits(store);
    fits(&other);
    // What a device writes next is later than all it has seen.
    let next = write(store, "tablet", note("and one more")).unwrap();
    assert!(everything(&other).0.iter().all(|kept| kept.time < next.time));
    fits(store);
}

fn two_entries_of_one_name_both_stay(store: &dyn Store) {
    let id = name();
    let one = Pen::new(SURVEY, "A. Surveyor", "office").write(id, NOON, &note("one"));
    let two = Pen::new(SURVEY, "A. Surveyor", "phone").write(id, NOON, &note("two"));
    assert_eq!(store.take_all(std::slice::from_ref(&one)).unwrap().clashes, []);
    assert_eq!(store.take_all(&[two, one]).unwrap().clashes, [id]);
    assert_eq!(everything(store).0.len(), 2);
    assert_eq!(verify(store).unwrap().misfits, [Misfit::Clash { survey: SURVEY, id }]);
}

fn one_bad_entry_among_many_keeps_all_out(store: &dyn Store) {
    let mut pen = Pen::new(SURVEY, "A. Surveyor", "phone");
    let good: Vec<Entry> = (0..20).map(|n| pen.write(name(), NOON, &note(&n.to_string()))).collect();
    let bad = pen.write(name(), u64::MAX, &note("in the far future"));
    let all: Vec<Entry> = good.iter().cloned().chain([bad.clone()]).collect();
    let fault = store.take_all(&all).unwrap_err();
    assert!(matches!(fault, StoreFault::Refused { id, why: Refusal::BeyondCalendar } if id == bad.id), "{fault}");
    let mut breaks_off =
        good.into_iter().map(Ok).chain([Err(StoreFault::Source(io::Error::other("the line went dead")))]);
    store.take(&mut breaks_off).unwrap_err();
    assert!(everything(store).0.is_empty());
    // A caller that changes an entry's fields cannot have it filed under what its line does not say.
    let mut disguised = bad;
    disguised.time = Stamp { ms: NOON, n: 0 };
    store.take_all(&[disguised]).unwrap_err();
    assert!(everything(store).0.is_empty());
}

fn an_entry_that_comes_before_the_one_it_follows_is_kept_and_shown_as_a_gap(store: &dyn Store) {
    let mut pen = Pen::new(SURVEY, "A. Surveyor", "phone");
    let [first, second, third] = ["1", "2", "3"].map(|words| pen.write(name(), NOON, &note(words)));
    store.take_all(&[third.clone(), first]).unwrap();
    let misfits = verify(store).unwrap().misfits;
    assert!(
        matches!(&misfits[..], [Misfit::Chain { fault: ChainFault::Gap { entry, .. }, .. }] if *entry == third.id),
        "{misfits:?}"
    );
    assert_eq!(store.head(SURVEY, "phone").unwrap().prev, Some(third.hash()), "the latest, not the last to come");
    store.take_all(&[second]).unwrap();
    fits(store);
}

fn what_a_newer_version_wrote_is_passed_on_byte_for_byte(store: &dyn Store) {
    let line = format!(
        r#"{{"format":1,"id":"{}","survey":"{SURVEY}","author":"A","device":"d","time":{{"ms":5,"n":0,"x":1}}, "prev":null,"kind":"sonar","payload":{{"b":1.50,"a":"ü\u00fc","sha256":"{}"}},"seal":"x"}}"#,
        name(),
        Digest::of(b"from the future")
    );
    store.take_all(&[Entry::read(&line).unwrap()]).unwrap();
    assert_eq!(everything(store).0[0].line, line.as_bytes());
    let named = store.attachments_named(SURVEY).unwrap();
    assert_eq!((named[0].sha256, named[0].required), (Digest::of(b"from the future"), false));
    fits(store);
}

fn attachments_come_back_as_they_were_put(store: &dyn Store) {
    for content in [&b""[..], b"a", &[7; 200_000]] {
        let kept = store.put_attachment(&mut &content[..], None).unwrap();
        assert_eq!((kept.sha256, kept.bytes, kept.new), (Digest::of(content), content.len() as u64, true));
        assert!(!store.put_attachment(&mut &content[..], Some(&kept.sha256)).unwrap().new);
        assert_eq!(store.attachment(&kept.sha256, 1 << 20).unwrap(), content);
        let mut copied = Vec::new();
        assert_eq!(store.copy_attachment(&kept.sha256, &mut copied).unwrap(), kept.bytes);
        assert_eq!(copied, content);
        let (bytes, mut opened) = store.open_attachment(&kept.sha256).unwrap();
        assert_eq!(bytes, kept.bytes);
        opened.seek(SeekFrom::Start(bytes / 2)).unwrap();
        let mut rest = Vec::new();
        opened.read_to_end(&mut rest).unwrap();
        assert_eq!(rest, &content[content.len() / 2..]);
    }
    let great = Digest::of(&[7; 200_000]);
    assert!(matches!(store.attachment(&great, 100), Err(StoreFault::AttachmentTooGreat { bytes: 200_000, .. })));
    let none = Digest::of(b"none");
    assert!(matches!(store.open_attachment(&none), Err(StoreFault::NoAttachment { sha256 }) if sha256 == none));
    assert_eq!(store.lacks_attachments(&[great, none]).unwrap(), [none]);
    let verified = verify(store).unwrap();
    assert!(verified.fits());
    assert_eq!((verified.attachments, verified.unnamed_attachments), (3, 3));
}

fn an_attachment_that_is_not_the_one_wanted_or_breaks_off_is_not_kept(store: &dyn Store) {
    let wanted = Digest::of(b"the picture");
    let fault = store.put_attachment(&mut &b"another picture"[..], Some(&wanted)).unwrap_err();
    assert!(matches!(fault, StoreFault::AttachmentWrong { sha256, .. } if sha256 == wanted), "{fault}");
    struct BreaksOff;
    impl Read for BreaksOff {
        fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
            Err(io::Error::other("the line went dead"))
        }
    }
    let fault = store.put_attachment(&mut (&b"the pic"[..]).chain(BreaksOff), Some(&wanted)).unwrap_err();
    assert!(matches!(fault, StoreFault::Source(_)), "{fault}");
    assert!(store.attachments_after(None, 10).unwrap().is_empty());
}

fn attachments_are_listed_in_batches(store: &dyn Store) {
    let mut put: Vec<Digest> = (0..40u8).map(|n| store.put_attachment(&mut &[n][..], None).unwrap().sha256).collect();
    put.sort();
    let mut listed = Vec::new();
    loop {
        let batch = store.attachments_after(listed.last(), 7).unwrap();
        assert!(batch.len() <= 7);
        if batch.is_empty() {
            break;
        }
        listed.extend(batch);
    }
    assert_eq!(listed, put);
}

fn surveys_are_told_apart(store: &dyn Store) {
    fill(store);
    let other = SurveyId::from_bits(1);
    let written =
        write_down(store, other, "B. Surveyor", "office", NOON + 5, &[(name(), note("another boat"))]).unwrap();
    assert_eq!(written[0].prev, None, "a device begins anew in each survey");
    let surveys = store.surveys().unwrap();
    let summary: Vec<_> = surveys.iter().map(|s| (s.survey, s.entries, s.last)).collect();
    assert_eq!(summary, [(other, 1, Position(9)), (SURVEY, 8, Position(8))]);
    assert_eq!(surveys[0].latest, Stamp { ms: NOON + 5, n: 0 });
    assert_eq!(surveys[1].latest, Stamp { ms: NOON, n: 7 });
    assert_eq!(store.entries_since(other, Position::START, 100).unwrap().len(), 1);
    assert_eq!(store.entries_since(SURVEY, Position(6), 100).unwrap().len(), 2);
    fits(store);
}

fn devices_writing_at_once_never_break_a_chain(store: &dyn Store) {
    std::thread::scope(|scope| {
        for thread in 0..8 {
            let device = if thread % 2 == 0 { "office" } else { "phone" };
            scope.spawn(move || {
                for n in 0..20 {
                    write(store, device, note(&format!("{thread} {n}"))).unwrap();
                }
            });
        }
    });
    assert_eq!(everything(store).0.len(), 160);
    fits(store);
}

fn a_writer_that_changes_its_mind_or_panics_records_nothing(store: &dyn Store) {
    let fault = store.append_with(SURVEY, "office", &mut |_| Err("the surveyor said no".into())).unwrap_err();
    assert_eq!(fault.to_string(), "the surveyor said no");
    let panicked = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        store.append_with(SURVEY, "office", &mut |_| panic!("a fault in the caller"))
    }));
    assert!(panicked.is_err());
    let empty: [(EntryId, survey::payload::Payload); 0] = [];
    assert!(write_down(store, SURVEY, "A. Surveyor", "office", NOON, &empty).unwrap().is_empty());
    assert!(everything(store).0.is_empty());
    write(store, "office", note("and it goes on")).unwrap();
    fits(store);
}
