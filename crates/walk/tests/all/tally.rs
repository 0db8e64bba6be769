//! Counting what mending does to the invented sentences.

use crate::corpus::Heard;
use std::collections::BTreeSet;
use std::fmt;
use walk::mend::mend_above;

#[derive(Default)]
pub struct Tally {
    /// Runs of words misheard.
    pub misheard: usize,
    /// Of those, mended to the term that was said.
    pub mended: usize,
    /// Proposals for another term than was said.
    pub wrong: usize,
    /// Proposals where nothing was misheard.
    pub uncalled: usize,
    /// Words heard aright.
    pub right_words: usize,
    /// Of those, words that a proposal changes.
    pub touched: usize,
    /// What went wrong, for the eye.
    pub faults: Vec<String>,
}

impl Tally {
    pub fn precision(&self) -> f64 {
        self.mended as f64 / ((self.mended + self.wrong + self.uncalled) as f64).max(1.0)
    }
    pub fn recall(&self) -> f64 {
        self.mended as f64 / (self.misheard as f64).max(1.0)
    }
    pub fn touched_per_1000(&self) -> f64 {
        1000.0 * self.touched as f64 / (self.right_words as f64).max(1.0)
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "misheard {:4}  mended {:4}  wrong term {:2}  uncalled for {:2}  precision {:.3}  recall {:.3}  right words {:5}  touched {:2} ({:.2} in 1,000)",
            self.misheard,
            self.mended,
            self.wrong,
            self.uncalled,
            self.precision(),
            self.recall(),
            self.right_words,
            self.touched,
            self.touched_per_1000()
        )
    }
}

pub fn tally(sentences: &[Heard], confidence: f64) -> Tally {
    let mut tally = Tally::default();
    for sentence in sentences {
        let lost: BTreeSet<usize> = sentence.misheard.iter().flat_map(|(range, _)| range.clone()).collect();
        tally.misheard += sentence.misheard.len();
        tally.right_words += sentence.words.len() - lost.len();
        for correction in mend_above(&sentence.words, confidence) {
            let range = correction.first..correction.first + correction.count;
            let outside = range.clone().filter(|at| !lost.contains(at)).count();
            tally.touched += outside;
            let met = sentence.misheard.iter().find(|(at, _)| at.start < range.end && range.start < at.end);
            let fault = match met {
                Some((_, target)) if target.term == correction.term || target.said == correction.meant => {
                    tally.mended += 1;
                    (outside > 0).then_some("took a right word along")
                }
                Some(_) => {
                    tally.wrong += 1;
                    Some("wrong term")
                }
                None => {
                    tally.uncalled += 1;
                    Some("uncalled for")
                }
            };
            if let Some(fault) = fault {
                let all: Vec<&str> = sentence.words.iter().map(|word| word.word.as_str()).collect();
                tally.faults.push(format!(
                    "{fault}: `{}` → `{}` ({:.2}) in: {}",
                    correction.heard,
                    correction.meant,
                    correction.confidence,
                    all.join(" ")
                ));
            }
        }
    }
    tally
}
