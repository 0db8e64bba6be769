//! Numbers, lengths and places as they are spoken.

mod length;
mod number;
mod place;

pub use length::{SaidLength, length_at};
pub use number::{SaidNumber, number_at};
pub use place::{SaidPlace, place};

use crate::mend::{Correction, apply, bare};
use crate::text::Word;
use std::ops::Range;

/// A word as understood, with the words heard that it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct SaidWord {
    /// In small letters, without marks.
    pub plain: String,
    /// As written, after mending.
    pub written: String,
    /// When it starts, in seconds.
    pub start_s: f64,
    /// When it ends.
    pub end_s: f64,
    /// The words heard, counted from 0 in the whole text.
    pub heard: Range<usize>,
    /// Confidence of the mending, when it was mended.
    pub mended: Option<f64>,
    /// Whether a clause ends after it: a mark, or a pause.
    pub ends: bool,
}

/// A pause that ends a clause. Our own choice.
const PAUSE_S: f64 = 0.9;

/// Returns the words as understood after mending. Words joined by hyphens are taken apart.
pub fn said(words: &[Word], corrections: &[Correction]) -> Vec<SaidWord> {
    let mut out: Vec<SaidWord> = Vec::new();
    for (word, heard) in apply(words, corrections) {
        let mended = corrections.iter().find(|c| c.first == heard.start).map(|c| c.confidence);
        let parts: Vec<&str> = word.word.split('-').filter(|part| !bare(part).is_empty()).collect();
        let step = (word.end_s - word.start_s) / parts.len().max(1) as f64;
        for (n, part) in parts.iter().enumerate() {
            let last = n + 1 == parts.len();
            let start_s = word.start_s + step * n as f64;
            out.push(SaidWord {
                plain: bare(part),
                written: (*part).to_owned(),
                start_s,
                end_s: if last { word.end_s } else { start_s + step },
                heard: heard.clone(),
                mended,
                ends: last && part.ends_with(['.', '?', '!', ';', ':', ',']),
            });
        }
    }
    for n in 1..out.len() {
        let pause = out[n].start_s - out[n - 1].end_s > PAUSE_S;
        out[n - 1].ends |= pause;
    }
    out
}

pub(crate) fn plain(words: &[SaidWord], at: usize) -> &str {
    words.get(at).map_or("", |word| word.plain.as_str())
}
