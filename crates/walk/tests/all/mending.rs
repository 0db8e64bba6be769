//! Mending, on invented sentences and a confusion model of our own. The targets set for it beforehand, on words not used for
//! tuning: precision at least 0.97, recall at least 0.70, at most one right word in a thousand touched. The first and the last
//! are met; recall is not, and `docs/mending.md` says so.

use crate::confusion::mishear;
use crate::corpus::{chatter, heard_as, is_trade_word, misheard, target, timed};
use crate::tally::{Tally, tally};
use proptest::prelude::*;
use walk::lexicon::in_lexicon;
use walk::mend::{mend, mend_above};
use walk::text::Word;

fn table(title: &str, tally: &Tally) -> String {
    format!(
        "| {title} | {} | {} | {} | {} | {:.3} | {:.3} | {} | {} | {:.2} |\n",
        tally.misheard,
        tally.mended,
        tally.wrong,
        tally.uncalled,
        tally.precision(),
        tally.recall(),
        tally.right_words,
        tally.touched,
        tally.touched_per_1000()
    )
}

fn plain(lines: &[String]) -> Vec<Word> {
    let words: Vec<String> = lines.iter().flat_map(|line| line.split_whitespace().map(str::to_owned)).collect();
    timed(&words)
}

/// The Apache License 2.0: ordinary English that is not ours and has nothing to do with boats.
const LICENCE: &str = include_str!("../../../../LICENSE-APACHE");

#[test]
fn the_table_in_the_docs_is_what_is_measured() {
    let held_out = tally(&misheard(false), walk::mend::ACCEPT);
    let tuned = tally(&misheard(true), walk::mend::ACCEPT);
    let chat = plain(&chatter());
    let licence = plain(&LICENCE.lines().map(str::to_owned).collect::<Vec<_>>());
    let touched = |words: &[Word]| mend(words).iter().map(|c| c.count).sum::<usize>();
    let mut found = String::new();
    found.push_str(&table("tuned words", &tuned));
    found.push_str(&table("held-out words", &held_out));
    for (title, words) in [("ordinary talk (invented)", &chat), ("Apache License 2.0", &licence)] {
        let touched = touched(words);
        let share = 1000.0 * touched as f64 / words.len() as f64;
        found.push_str(&format!("| {title} | 0 | 0 | 0 | | | | {} | {touched} | {share:.2} |\n", words.len()));
    }
    println!("{found}");
    for fault in &held_out.faults {
        println!("{fault}");
    }
    let docs = include_str!("../../../../docs/mending.md");
    assert!(docs.contains(&found), "put this table into docs/mending.md:\n{found}");
}

#[test]
fn on_held_out_words_precision_and_untouched_words_meet_their_targets() {
    let held_out = tally(&misheard(false), walk::mend::ACCEPT);
    assert!(held_out.misheard > 200, "{held_out}");
    assert!(held_out.precision() >= 0.97, "{held_out}");
    assert!(held_out.touched_per_1000() <= 1.0, "{held_out}");
    // Below its target of 0.70; this guards what there is.
    assert!(held_out.recall() >= 0.38, "{held_out}");
}

#[test]
fn the_committed_mishearings_follow_from_the_seed() {
    for said in ["garboard", "futtock", "skeg"] {
        let target = target(said).unwrap();
        let again: Vec<String> =
            (0..3).filter_map(|round| mishear(said, &target.phones, round, &is_trade_word)).collect();
        assert_eq!(heard_as(said), again, "{said}");
    }
}

#[test]
fn what_was_heard_stands_beside_what_is_proposed_and_when() {
    let words: Vec<String> = "port side gar board is soft by frame nine".split(' ').map(str::to_owned).collect();
    let corrections = mend(&timed(&words));
    assert_eq!(corrections.len(), 1, "{corrections:?}");
    let one = &corrections[0];
    assert_eq!((one.heard.as_str(), one.meant.as_str(), one.term), ("gar board", "garboard", "garboard"));
    assert!((one.time_s - 0.7).abs() < 1e-9 && (one.end_s - 1.35).abs() < 1e-9);
    assert!(one.confidence > 0.5 && one.confidence <= 1.0);
}

#[test]
fn what_is_too_far_gone_is_left_alone() {
    // Measured on an open recogniser: `gribble and shipworm damage` came out so.
    let words: Vec<String> = "google it if it were a huge".split(' ').map(str::to_owned).collect();
    assert_eq!(mend(&timed(&words)), []);
}

fn talk() -> impl Strategy<Value = Vec<String>> {
    let words = prop::sample::select(vec![
        "port",
        "side",
        "garboard",
        "guard",
        "bored",
        "streak",
        "strake",
        "four",
        "not",
        "dull",
        "the",
        "keel",
        "kneel",
        "futtock",
        "foot",
        "hook",
        "dead",
        "wood",
        "would",
        "sheer",
        "shear",
        "is",
        "no",
        "seven",
        "gribble",
        "dribble",
        "hood",
        "ends",
        "who",
        "dens",
        "bulge",
        "bilge",
        "xqz",
        "’",
        "…",
        "5/8",
        "starboard",
    ]);
    prop::collection::vec(words.prop_map(str::to_owned), 0..24)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_word_of_the_lexicon_a_number_a_side_or_a_negation_is_never_touched(words in talk()) {
        let known = in_lexicon(&words);
        let kept = ["port", "starboard", "not", "no", "four", "seven", "5/8"];
        for correction in mend_above(&timed(&words), 0.0) {
            for at in correction.first..correction.first + correction.count {
                prop_assert!(!known[at] && !kept.contains(&words[at].as_str()), "{correction:?}");
            }
            prop_assert_eq!(correction.heard, words[correction.first..correction.first + correction.count].join(" "));
            prop_assert!(correction.time_s <= correction.end_s);
        }
    }

    #[test]
    fn no_text_makes_it_panic(words in prop::collection::vec("\\PC{0,12}", 0..12)) {
        let _ = mend_above(&timed(&words), 0.0);
    }
}

/// Recall by how far what was heard is from what was said, held-out words.
#[test]
fn recall_by_distance_is_as_the_docs_say() {
    let mut rows = [(0.10, 0, 0), (0.20, 0, 0), (f64::INFINITY, 0, 0)];
    for sentence in misheard(false) {
        let corrections = mend(&sentence.words);
        for (range, target) in &sentence.misheard {
            let heard: Vec<u8> =
                sentence.words[range.clone()].iter().flat_map(|word| walk::phones::of_word(&word.word)).collect();
            let each = walk::phones::distance(&heard, &target.phones) / target.phones.len().max(heard.len()) as f64;
            let mended = corrections.iter().any(|c| {
                let met = c.first < range.end && range.start < c.first + c.count;
                met && (c.term == target.term || c.meant == target.said)
            });
            if let Some(row) = rows.iter_mut().find(|row| each <= row.0) {
                row.1 += 1;
                row.2 += usize::from(mended);
            }
        }
    }
    let titles = ["up to 0.10", "0.10 to 0.20", "above 0.20"];
    let mut found = String::new();
    for ((_, misheard, mended), title) in rows.iter().zip(titles) {
        let recall = f64::from(u32::try_from(*mended).unwrap()) / f64::from(u32::try_from(*misheard).unwrap()).max(1.0);
        found.push_str(&format!("| {title} | {misheard} | {mended} | {recall:.2} |\n"));
    }
    println!("{found}");
    assert!(rows[0].2 * 10 > rows[0].1 * 6, "near mishearings are mostly mended: {found}");
    let docs = include_str!("../../../../docs/mending.md");
    assert!(docs.contains(&found), "put this table into docs/mending.md:\n{found}");
}

/// What a small open recogniser with no word of the trade wrote for synthesised speech (tests/reference/recognise.py).
#[test]
fn a_recognisers_rubbish_is_mostly_left_alone() {
    let (mut sentences, mut words, mut said, mut right, mut wrong) = (0, 0, 0, 0, 0);
    for line in include_str!("../data/recognised.tsv").lines().skip(1) {
        let (spoken, heard) = line.split_once('\t').unwrap();
        let phrases: Vec<_> = spoken.split(['[', ']']).skip(1).step_by(2).filter_map(target).collect();
        let heard = plain(&[heard.to_owned()]);
        sentences += 1;
        words += heard.len();
        said += phrases.len();
        for correction in mend(&heard) {
            let meant = phrases.iter().any(|t| t.term == correction.term || t.said == correction.meant);
            right += usize::from(meant);
            wrong += usize::from(!meant);
            println!("{} → {} in: {line}", correction.heard, correction.meant);
        }
    }
    let found = format!("| {sentences} | {said} | {words} | {right} | {wrong} |\n");
    println!("{found}");
    let docs = include_str!("../../../../docs/mending.md");
    assert!(docs.contains(&found), "put this row into docs/mending.md:\n{found}");
    assert!(wrong * 20 < words, "{found}");
}
