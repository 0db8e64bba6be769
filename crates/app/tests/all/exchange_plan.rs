//! What is sent next, what an answer means, and what becomes of a browser whose store was copied.

use crate::book::{Answered, Book};
use crate::plan::{MOST_BYTES, MOST_ENTRIES, Meaning, Sending, Step, Waiting, comparison_is_due, meaning, pause_ms};
use survey::payload::{Brief, Payload};
use survey::{Digest, Entry, EntryId, SurveyId};

const SURVEY: SurveyId = SurveyId::from_bits(1);

fn waiting(number: u64, bytes: usize) -> Waiting {
    Waiting { number, bytes, attachment: None }
}

fn brief(n: u128) -> (EntryId, Payload) {
    (EntryId::from_bits(n), Payload::from(Brief { purpose: format!("purpose {n}"), ..Brief::default() }))
}

#[test]
fn a_batch_is_limited_in_entries_and_bytes_and_a_great_line_goes_alone() {
    let many: Vec<Waiting> = (1..=600).map(|n| waiting(n, 100)).collect();
    assert_eq!(Sending::default().next(&many), Step::Entries((1..=MOST_ENTRIES as u64).collect()));
    let great = [waiting(1, MOST_BYTES * 2), waiting(2, 10)];
    assert_eq!(Sending::default().next(&great), Step::Entries(vec![1]));
    let halves = [waiting(1, MOST_BYTES / 2), waiting(2, MOST_BYTES / 2), waiting(3, 1)];
    assert_eq!(Sending::default().next(&halves), Step::Entries(vec![1, 2]));
}

#[test]
fn entries_before_an_attachment_go_first_then_it_then_its_entry() {
    let sha256 = Digest::of(b"picture");
    let open = [waiting(1, 10), Waiting { attachment: Some(sha256), ..waiting(2, 10) }, waiting(3, 10)];
    let mut sending = Sending::default();
    assert_eq!(sending.next(&open), Step::Entries(vec![1]));
    sending.entries_sent(&[1]);
    assert_eq!(sending.next(&open[1..]), Step::Attachment(sha256));
    sending.attachment_is_there(sha256);
    assert_eq!(sending.next(&open[1..]), Step::Entries(vec![2, 3]));
}

#[test]
fn the_one_refused_entry_is_found_and_all_others_go() {
    let all: Vec<Waiting> = (1..=500).map(|n| waiting(n, 10)).collect();
    let (mut sending, mut taken, mut requests) = (Sending::default(), Vec::new(), 0);
    loop {
        let open: Vec<Waiting> = all.iter().filter(|waiting| sending.is_open(waiting.number)).cloned().collect();
        let Step::Entries(numbers) = sending.next(&open) else { break };
        requests += 1;
        if numbers.contains(&321) {
            sending.entries_refused(&numbers, "monstrous".to_owned());
        } else {
            sending.entries_sent(&numbers);
            taken.extend(numbers);
        }
    }
    taken.sort_unstable();
    assert_eq!(taken, (1..=500).filter(|n| *n != 321).collect::<Vec<u64>>());
    assert_eq!(sending.held_for(), Some("monstrous"));
    assert!(requests < 60, "{requests} requests");
}

#[test]
fn an_entry_whose_attachment_is_refused_stays_queued_and_the_rest_goes() {
    let sha256 = Digest::of(b"a film");
    let open = [waiting(1, 10), Waiting { attachment: Some(sha256), ..waiting(2, 10) }, waiting(3, 10)];
    let mut sending = Sending::default();
    sending.attachment_refused(sha256, "too great".to_owned(), &open);
    assert_eq!(sending.next(&open), Step::Entries(vec![1, 3]));
    assert!(!sending.is_open(2));
    assert_eq!(sending.held_for(), Some("too great"));
}

#[test]
fn all_is_compared_once_a_day_whatever_the_clock_did() {
    let (noon, hour) = (1_780_000_000_000, 3_600_000);
    assert!(!comparison_is_due(noon, noon + 23 * hour) && !comparison_is_due(noon, noon - hour));
    assert!(comparison_is_due(noon, noon + 24 * hour) && comparison_is_due(noon, noon - 48 * hour));
}

#[test]
fn a_status_tells_whether_to_try_again() {
    // RFC 9110, section 15; RFC 6585, section 4 (429).
    assert!([200, 201, 204].iter().all(|status| meaning(*status) == Meaning::Done));
    assert!([408, 429, 500, 502, 503, 504, 511].iter().all(|status| meaning(*status) == Meaning::Later));
    assert!([400, 413, 422].iter().all(|status| meaning(*status) == Meaning::Never));
}

#[test]
fn pauses_grow_to_a_minute_and_stay_there() {
    let pauses: Vec<u32> = (1..=8).map(|failures| pause_ms(failures, 0.5)).collect();
    assert_eq!(pauses, [1000, 2000, 4000, 8000, 16_000, 32_000, 60_000, 60_000]);
    assert!(pause_ms(u32::MAX, 1.0) <= 67_500);
    assert_eq!((pause_ms(1, 0.0), pause_ms(1, 1.0)), (875, 1125));
}

#[test]
fn a_browser_that_was_copied_is_told_by_its_own_name_on_a_strange_entry_and_goes_on_under_another() {
    let mut book = Book::default();
    let first = book.write(SURVEY, "A. Surveyor", "browser a", 1000, &[brief(1)]);
    let mut copy = book.clone();
    let theirs: Vec<Entry> =
        copy.write(SURVEY, "A. Surveyor", "browser a", 2000, &[brief(2)]).into_iter().map(|(_, entry)| entry).collect();
    let known = first[0].1.hash();
    let asked = book.ask();
    let answer = vec![first[0].1.clone(), theirs[0].clone()];
    let came = book.answered("browser a", &asked, answer, 2, |hash| (*hash == known).then_some(1));
    let Answered::Entries(came) = came else { panic!("the store is the same") };
    assert!(came.name_is_shared);
    assert_eq!((came.there, came.fresh.len(), came.queue), (vec![1], 1, false));
    let next = book.write(SURVEY, "A. Surveyor", "browser b", 500, &[brief(3)]);
    assert_eq!(next[0].1.prev, None, "a new name begins a new run");
    assert!(next[0].1.time > theirs[0].time, "later than all that was seen");
}

#[test]
fn an_answer_from_before_fetching_started_over_brings_entries_and_nothing_else() {
    let mut book = Book::default();
    let written: Vec<Entry> =
        book.write(SURVEY, "A. Surveyor", "browser a", 1000, &[brief(1)]).into_iter().map(|(_, entry)| entry).collect();
    let asked = book.ask();
    book.start_over();
    let over = book.ask();
    let late = book.answered("browser a", &asked, written, 1, |_| Some(1));
    let Answered::Entries(late) = late else { panic!("nothing is known of another store") };
    assert_eq!((late.there, late.fresh), (vec![], vec![]), "the entry stays queued");
    assert_eq!(book.ask(), over, "fetching goes on from the beginning");
}
