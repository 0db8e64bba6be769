//! The invented sentences, and their mishearings.

use crate::confusion::is_tuned;
use walk::lexicon::{Target, phrase_at, targets};
use walk::text::Word;

pub const SENTENCES: &str = include_str!("../data/sentences.txt");
pub const CHATTER: &str = include_str!("../data/chatter.txt");
pub const MISHEARINGS: &str = include_str!("../data/mishearings.csv");
pub const ROUNDS: usize = 3;

/// A stretch of a sentence: ordinary words, or a phrase of the trade.
pub enum Part {
    Plain(String),
    Trade(&'static Target),
}

/// Returns the target that a phrase of the trade is.
pub fn target(said: &str) -> Option<&'static Target> {
    targets().iter().find(|target| target.said == said)
}

/// Tells whether a word is in the lexicon by itself.
pub fn is_trade_word(word: &str) -> bool {
    phrase_at(&[word.to_owned()], 0).is_some()
}

pub fn sentences() -> Vec<Vec<Part>> {
    let lines = SENTENCES.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    lines
        .map(|line| {
            let mut parts = Vec::new();
            for (n, piece) in line.split(['[', ']']).enumerate() {
                match (n % 2, target(piece)) {
                    (1, Some(target)) => parts.push(Part::Trade(target)),
                    _ if piece.trim().is_empty() => {}
                    _ => parts.push(Part::Plain(piece.trim().to_owned())),
                }
            }
            parts
        })
        .collect()
}

pub fn chatter() -> Vec<String> {
    CHATTER.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()).map(str::to_owned).collect()
}

/// Returns the mishearings of a phrase, one a round, as the committed file has them.
pub fn heard_as(said: &str) -> Vec<&'static str> {
    let rows = MISHEARINGS.lines().skip(1).filter_map(|line| line.split_once(','));
    rows.filter(|(of, _)| *of == said).map(|(_, heard)| heard).collect()
}

/// A sentence as heard: its words, and the runs that were misheard with the term that was said.
pub struct Heard {
    pub words: Vec<Word>,
    pub misheard: Vec<(std::ops::Range<usize>, &'static Target)>,
}

/// Writes words out with a time each.
pub fn timed(words: &[String]) -> Vec<Word> {
    let word = |(n, word): (usize, &String)| {
        let start_s = n as f64 * 0.35;
        Word { start_s, end_s: start_s + 0.3, word: word.clone(), confidence: None, timed: true }
    };
    words.iter().enumerate().map(word).collect()
}

/// Returns every sentence with the words of one half misheard, in every round; the other half's words stand as they are.
pub fn misheard(tuned: bool) -> Vec<Heard> {
    let mut out = Vec::new();
    for sentence in sentences() {
        for round in 0..ROUNDS {
            let mut words: Vec<String> = Vec::new();
            let mut misheard = Vec::new();
            for part in &sentence {
                match part {
                    Part::Plain(text) => words.extend(text.split(' ').map(str::to_owned)),
                    Part::Trade(target) => {
                        let from = words.len();
                        let heard =
                            heard_as(&target.said).get(round).copied().filter(|_| is_tuned(target.term) == tuned);
                        words.extend(heard.unwrap_or(&target.said).split(' ').map(str::to_owned));
                        // Another word for the same thing (`stern post`) is no mishearing.
                        let whole = phrase_at(&words, from)
                            .is_some_and(|(n, term)| from + n == words.len() && term.term == target.term);
                        if heard.is_some() && !whole {
                            misheard.push((from..words.len(), *target));
                        }
                    }
                }
            }
            if !misheard.is_empty() {
                out.push(Heard { words: timed(&words), misheard });
            }
        }
    }
    out
}
