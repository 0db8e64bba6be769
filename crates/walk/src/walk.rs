//! The whole way: from timed text and blows to drafts.

use crate::draft::{Blow, Draft, Unplaced, draft};
use crate::mend::{Correction, mend};
use crate::passage::{MemberNames, Passage, cut};
use crate::said::{SaidWord, place, said};
use crate::text::TimedText;

/// What a recording and its words give, for a person to go through.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// Proposed mendings, each with what was heard.
    pub corrections: Vec<Correction>,
    /// The words as understood.
    pub words: Vec<SaidWord>,
    /// The passages, each about one member.
    pub passages: Vec<Passage>,
    /// The drafts, in the order of time.
    pub drafts: Vec<Draft>,
    /// Blows near no passage.
    pub unplaced: Unplaced,
}

/// Mends, cuts and drafts. `refused` are corrections that a person said no to, by their first word: they are left as heard.
pub fn walk(text: &TimedText, names: &MemberNames, blows: &[Blow], refused: &[usize]) -> Walk {
    let heard: Vec<_> = text.words().cloned().collect();
    let mut corrections = mend(&heard);
    corrections.retain(|correction| !refused.contains(&correction.first));
    let mut words = said(&heard, &corrections);
    end_at_cues(text, &mut words);
    let placed = place(&words);
    let passages = cut(&words, names, &|at| placed.holds(at));
    let (drafts, unplaced) = draft(&words, &passages, blows);
    Walk { corrections, words, passages, drafts, unplaced }
}

/// A cue that ends with a mark, or is followed by a pause, ends a clause; so does any cue in a text without marks.
fn end_at_cues(text: &TimedText, words: &mut [SaidWord]) {
    let marked = text.words().any(|word| word.word.ends_with(['.', ',', '?', '!', ';']));
    if marked {
        return;
    }
    let mut last = 0;
    for cue in &text.cues {
        last += cue.words.len();
        if let Some(word) = words.iter_mut().rfind(|word| word.heard.end == last) {
            word.ends = true;
        }
    }
}
