//! Mending words of the trade that were misheard, from how they sound and what stands round them.
//!
//! Never silently: a [`Correction`] keeps what was heard beside what is proposed, with a confidence. Where the words are too far
//! gone nothing is proposed. A word that is already in the lexicon is never touched, nor a number, a side or a negation.

mod context;
mod measures;
mod weights;

pub use weights::ACCEPT;

use crate::lexicon::{Target, in_lexicon, targets};
use crate::phones::{self, Band};
use crate::text::Word;
use serde::Serialize;

/// A proposal: what was heard, and what was probably meant.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Correction {
    /// When the first of the words starts, in seconds.
    pub time_s: f64,
    /// When the last of them ends.
    pub end_s: f64,
    /// What was heard, as written.
    pub heard: String,
    /// What is proposed.
    pub meant: String,
    /// The term of the lexicon that it stands for.
    pub term: &'static str,
    /// Probability that the proposal is right, 0 to 1, as fitted on invented sentences (see `docs/mending.md`).
    pub confidence: f64,
    /// The first of the words, counted from 0.
    pub first: usize,
    /// How many words it stands for.
    pub count: usize,
}

/// How many measures a candidate is weighed by.
pub const MEASURES: usize = 23;

/// A candidate with what it was weighed by. All of them, for tuning and for showing why something was left alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// The first word, counted from 0.
    pub first: usize,
    /// How many words.
    pub count: usize,
    /// What may have been meant.
    pub target: &'static Target,
    /// The measures, in the order in which `measures.rs` makes them.
    pub measures: [f64; MEASURES],
    /// Probability that it is right.
    pub confidence: f64,
}

/// The most words that are joined.
const MOST_WORDS: usize = 4;

/// Farther than this from the target for each phone nothing is weighed at all.
const FARTHEST: f64 = 0.45;

/// A word got ready.
struct Token {
    plain: String,
    phones: Vec<u8>,
    band: Band,
    function: bool,
    kept: bool,
    /// Whether a sentence ends after it, or a long pause follows.
    ends: bool,
}

/// Proposes corrections, in the order of time; none overlap.
pub fn mend(words: &[Word]) -> Vec<Correction> {
    mend_above(words, ACCEPT)
}

/// Proposes corrections with at least a given confidence.
pub fn mend_above(words: &[Word], confidence: f64) -> Vec<Correction> {
    let mut candidates: Vec<Candidate> = weigh(words).into_iter().filter(|c| c.confidence >= confidence).collect();
    candidates
        .sort_by(|a, b| b.confidence.total_cmp(&a.confidence).then(a.first.cmp(&b.first)).then(a.count.cmp(&b.count)));
    let mut taken = vec![false; words.len()];
    let mut corrections = Vec::new();
    for candidate in candidates {
        let (range, meant) = trimmed(&candidate, words);
        if taken[range.clone()].contains(&true) {
            continue;
        }
        taken[range.clone()].fill(true);
        let heard: Vec<&str> = words[range.clone()].iter().map(|word| word.word.as_str()).collect();
        corrections.push(Correction {
            time_s: words[range.start].start_s,
            end_s: words[range.end - 1].end_s,
            heard: heard.join(" "),
            meant,
            term: candidate.target.term,
            confidence: candidate.confidence,
            first: range.start,
            count: range.len(),
        });
    }
    corrections.sort_by_key(|correction| correction.first);
    corrections
}

/// Weighs every run of up to four words against every target; the nearest target of each run is kept when it is near enough.
pub fn weigh(words: &[Word]) -> Vec<Candidate> {
    let tokens = tokens(words);
    let plain: Vec<String> = tokens.iter().map(|token| token.plain.clone()).collect();
    let mut candidates = Vec::new();
    for first in 0..tokens.len() {
        let mut heard = Vec::new();
        for count in 1..=MOST_WORDS.min(tokens.len() - first) {
            let last = &tokens[first + count - 1];
            if last.kept || last.phones.is_empty() || (count > 1 && tokens[first + count - 2].ends) {
                break;
            }
            heard.extend(&last.phones);
            if heard.len() > 24 {
                break;
            }
            let run = &tokens[first..first + count];
            if run.iter().all(|token| token.function) {
                continue;
            }
            if let Some((target, distance, lead)) = nearest(&heard) {
                let cues = context::cues(&plain, first, count, target);
                let slot = context::slot(&plain, first, count);
                let measures = measures::measures(run, target, distance, heard.len(), lead, cues, slot);
                let confidence = weights::confidence(&measures);
                candidates.push(Candidate { first, count, target, measures, confidence });
            }
        }
    }
    candidates
}

/// A long target is less likely met by chance than a short one: what each of its phones counts for. Our own choice.
const FOR_LENGTH: f64 = 0.1;

/// Returns the likeliest target, its distance, and by how much the likeliest of another term falls behind.
fn nearest(heard: &[u8]) -> Option<(&'static Target, f64, f64)> {
    let mut best: Option<(&'static Target, f64, f64)> = None;
    let mut second = f64::INFINITY;
    for target in targets() {
        if target.phones.len().abs_diff(heard.len()) > 3 {
            continue;
        }
        let distance = phones::distance(heard, &target.phones);
        let score = distance - FOR_LENGTH * target.phones.len() as f64;
        match best {
            Some((known, _, least)) if score >= least => {
                if known.term != target.term {
                    second = second.min(score);
                }
            }
            Some((known, _, least)) => {
                if known.term != target.term {
                    second = second.min(least);
                }
                best = Some((target, distance, score));
            }
            None => best = Some((target, distance, score)),
        }
    }
    let (target, distance, score) = best?;
    let longest = target.phones.len().max(heard.len()) as f64;
    (distance / longest <= FARTHEST).then(|| (target, distance, (second - score).clamp(0.0, 1.5)))
}

/// Takes words off a candidate that were heard as they are in the target (`copper` of `copper show thing`).
fn trimmed(candidate: &Candidate, words: &[Word]) -> (std::ops::Range<usize>, String) {
    let mut range = candidate.first..candidate.first + candidate.count;
    let mut meant: Vec<&str> = candidate.target.said.split(' ').collect();
    while meant.len() > 1 && range.len() > 1 && bare(&words[range.start].word) == meant[0] {
        meant.remove(0);
        range.start += 1;
    }
    while meant.len() > 1 && range.len() > 1 && Some(bare(&words[range.end - 1].word).as_str()) == meant.last().copied()
    {
        meant.pop();
        range.end -= 1;
    }
    (range, meant.join(" "))
}

/// Writes a word in small letters without the marks round it.
pub(crate) fn bare(word: &str) -> String {
    let word = word.replace('’', "'");
    word.trim_matches(|c: char| !c.is_alphanumeric() && c != '%' && c != '°').to_lowercase()
}

fn tokens(words: &[Word]) -> Vec<Token> {
    let plain: Vec<String> = words.iter().map(|word| bare(&word.word)).collect();
    let known = in_lexicon(&plain);
    plain
        .into_iter()
        .enumerate()
        .map(|(n, plain)| {
            let next = words.get(n + 1);
            let pause = next.is_some_and(|next| next.start_s - words[n].end_s > 1.5);
            Token {
                phones: plain.split(['-', '\'']).flat_map(phones::of_word).collect(),
                band: phones::band(&plain),
                function: context::is_function(&plain),
                kept: known[n] || plain.is_empty() || context::is_kept(&plain),
                ends: pause || words[n].word.ends_with(['.', '?', '!', ';', ':']),
                plain,
            }
        })
        .collect()
}

/// Returns the words with the corrections put in: for every word as said the range of words heard that it stands for.
pub fn apply(words: &[Word], corrections: &[Correction]) -> Vec<(Word, std::ops::Range<usize>)> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let Some(correction) = corrections.iter().find(|c| c.first == at && c.count > 0 && at + c.count <= words.len())
        else {
            out.push((words[at].clone(), at..at + 1));
            at += 1;
            continue;
        };
        let range = at..at + correction.count;
        let parts: Vec<&str> = correction.meant.split(' ').collect();
        let last = &words[range.end - 1].word;
        let mark: String = last.chars().rev().take_while(|c| matches!(c, '.' | ',' | '?' | '!' | ';' | ':')).collect();
        let step = (correction.end_s - correction.time_s).max(0.0) / parts.len() as f64;
        for (n, part) in parts.iter().enumerate() {
            let start_s = correction.time_s + step * n as f64;
            let end_s = if n + 1 == parts.len() { correction.end_s.max(start_s) } else { start_s + step };
            let mut word = (*part).to_owned();
            if n + 1 == parts.len() {
                word.extend(mark.chars().rev());
            }
            out.push((
                Word { start_s, end_s, word, confidence: Some(correction.confidence), timed: false },
                range.clone(),
            ));
        }
        at = range.end;
    }
    out
}
