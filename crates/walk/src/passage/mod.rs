//! Cutting what was said into passages, each about one member.

mod members;

pub use members::{MemberNames, Mention};

use crate::said::{SaidWord, place, plain};
use std::ops::Range;

/// A stretch of talk about one member.
#[derive(Clone, Debug, PartialEq)]
pub struct Passage {
    /// The member, by its name in the record; none when nothing tells.
    pub member: Option<String>,
    /// What it was called, as said.
    pub called: Option<String>,
    /// Its words, counted from 0 among the words as understood.
    pub words: Range<usize>,
    /// When it starts, in seconds.
    pub start_s: f64,
    /// When it ends.
    pub end_s: f64,
    /// Whether the member is taken from what went before.
    pub inherited: bool,
    /// What is doubtful about the member.
    pub doubts: Vec<String>,
}

/// A pause after which talk that names nothing is no longer plainly about the last member. Our own choice.
const NEW_TALK_S: f64 = 4.0;

/// A pause after which it is taken to be about nothing known. Our own choice.
const FORGOTTEN_S: f64 = 30.0;

/// Words before a member that make it a way of placing another.
const PLACING: &[&str] = &[
    "at", "by", "near", "under", "above", "below", "behind", "against", "beside", "from", "meets", "joins", "with",
    "between", "abaft", "over", "to", "than",
];

/// Words before a member that may place another, when another is named.
const LINKING: &[&str] = &["in", "into", "on", "off", "round", "along", "for", "and", "of", "through", "across"];

/// How much what stands before a member makes it a way of placing another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Located {
    No,
    Perhaps,
    Yes,
}

/// Cuts the words into passages. A member that is named starts one; a member that only places another does not.
pub fn cut(words: &[SaidWord], names: &MemberNames, is_place: &dyn Fn(usize) -> bool) -> Vec<Passage> {
    let mut passages: Vec<Passage> = Vec::new();
    for clause in clauses(words) {
        let mentions: Vec<Mention> = names.mentions(words, clause.clone());
        // A member named as part of a place (`frame eleven`, `fourth plank up`) is a subject only when nothing else is.
        let free = |m: &&Mention| !is_place(m.words.start);
        let located = |m: &Mention| located(words, &clause, m);
        let subject = mentions
            .iter()
            .find(|m| free(m) && located(m) == Located::No)
            .or_else(|| mentions.iter().find(|m| free(m) && located(m) == Located::Perhaps))
            .or_else(|| mentions.iter().find(|m| located(m) == Located::No))
            .or_else(|| mentions.iter().find(free).filter(|_| passages.is_empty()));
        let start_s = words[clause.start].start_s;
        let last = passages.last();
        let quiet = last.map_or(f64::INFINITY, |last| start_s - last.end_s);
        match subject {
            Some(m)
                if last.is_some_and(|p| {
                    p.member.as_deref() == Some(&m.member)
                        && !p.inherited
                        && quiet < NEW_TALK_S
                        && !is_elsewhere(words, p, &clause)
                }) =>
            {
                extend(&mut passages, words, clause);
            }
            Some(m) => {
                let called: Vec<&str> = words[m.words.clone()].iter().map(|word| word.plain.as_str()).collect();
                let doubts = m.doubt.iter().cloned().collect();
                passages.push(begin(Some(m.member.clone()), Some(called.join(" ")), words, clause, false, doubts));
            }
            None if quiet < NEW_TALK_S => extend(&mut passages, words, clause),
            None => {
                let member = last.filter(|_| quiet < FORGOTTEN_S).and_then(|last| last.member.clone());
                let doubt = match &member {
                    Some(_) => "the member is not named here; it is taken from what went before".to_owned(),
                    None => "no member is named".to_owned(),
                };
                let inherited = member.is_some();
                passages.push(begin(member, None, words, clause, inherited, vec![doubt]));
            }
        }
    }
    passages
}

/// Tells whether a clause that names the member again speaks of another of its kind, or of another place on it.
fn is_elsewhere(words: &[SaidWord], passage: &Passage, clause: &Range<usize>) -> bool {
    // A comma after the name does not end what is said of the place: `garboard, port side, at frame nine`.
    let mut end = clause.end;
    while end < words.len() && words[end - 1].written.ends_with(',') {
        end = (end..words.len()).find(|n| words[*n].ends).map_or(words.len(), |n| n + 1);
    }
    let (before, now) = (place(&words[passage.words.clone()]).place, place(&words[clause.start..end]).place);
    let differ = |a: Option<u32>, b: Option<u32>| a.is_some() && b.is_some() && a != b;
    before.side.is_some() && now.side.is_some() && before.side != now.side
        || differ(before.strake, now.strake)
        || differ(before.number, now.number)
        || differ(before.frame_from, now.frame_from)
}

/// Splits words into clauses at marks and pauses.
pub(crate) fn clauses(words: &[SaidWord]) -> Vec<Range<usize>> {
    let mut out = Vec::new();
    let mut from = 0;
    for (n, word) in words.iter().enumerate() {
        if word.ends || n + 1 == words.len() {
            out.push(from..n + 1);
            from = n + 1;
        }
    }
    out
}

fn located(words: &[SaidWord], clause: &Range<usize>, mention: &Mention) -> Located {
    const SKIPPED: &[&str] = &["the", "a", "an", "this", "that", "inner", "port", "starboard", "after"];
    let mut before = mention.words.start;
    while before > clause.start && SKIPPED.contains(&plain(words, before - 1)) {
        before -= 1;
    }
    let Some(at) = before.checked_sub(1).filter(|at| *at >= clause.start) else { return Located::No };
    // `get at the keelson`, `look at the stem`: there the member is what it is about.
    let reached = at > clause.start && matches!(plain(words, at - 1), "get" | "got" | "look" | "looking" | "getting");
    match plain(words, at) {
        "at" | "to" if reached => Located::No,
        word if PLACING.contains(&word) => Located::Yes,
        word if LINKING.contains(&word) => Located::Perhaps,
        _ => Located::No,
    }
}

fn begin(
    member: Option<String>,
    called: Option<String>,
    words: &[SaidWord],
    range: Range<usize>,
    inherited: bool,
    doubts: Vec<String>,
) -> Passage {
    let (start_s, end_s) = span(words, &range);
    Passage { member, called, words: range, start_s, end_s, inherited, doubts }
}

fn extend(passages: &mut [Passage], words: &[SaidWord], clause: Range<usize>) {
    if let Some(last) = passages.last_mut() {
        last.words.end = clause.end;
        last.end_s = span(words, &last.words).1;
    }
}

/// Returns when a run of words starts and ends.
pub(crate) fn span(words: &[SaidWord], range: &Range<usize>) -> (f64, f64) {
    let run = &words[range.clone()];
    let start = run.iter().map(|word| word.start_s).fold(f64::INFINITY, f64::min);
    let end = run.iter().map(|word| word.end_s).fold(0.0, f64::max);
    (start.min(end), end)
}
