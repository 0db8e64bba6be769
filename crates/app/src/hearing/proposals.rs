//! A talk-through as proposals: each for a person's yes or no, beside the words it rests on; and what was not understood.

use std::fmt::Write as _;
use survey::payload::Payload;
use survey::{Reading, SoundAnswer};
use walk::text::{TextFault, Word};
use walk::{Blow, Correction, Draft, Drafted, MemberNames, TimedText};

/// What the words of a talk-through are called in the record, so that they are found again.
pub const WORDS: &str = "Talk-through, the words";
/// What its sound is called.
pub const SOUND: &str = "Talk-through, the sound";

/// One thing that was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// The draft, with its time and its doubts.
    pub draft: Draft,
    /// What would be entered; nothing for a question, or where no member was understood.
    pub payload: Option<Payload>,
    /// The words exactly as they stand in the text.
    pub heard: String,
    /// The words that were mended, each with what was heard.
    pub mended: Vec<Correction>,
}

impl Proposal {
    /// Tells whether it is only that something was struck, with an answer that cannot be told.
    pub fn tells_nothing(&self) -> bool {
        let Drafted::Reading(Reading::Sound { answer: SoundAnswer::CannotBeTold, .. }) = self.draft.drafted else {
            return false;
        };
        !self.draft.blows_s.is_empty()
    }

    /// Returns a name that stays the same when the same text is read again.
    pub fn key(&self) -> String {
        let kind = match &self.draft.drafted {
            Drafted::Reading(reading) => reading.method().to_string(),
            Drafted::NotSeen { .. } => "not seen".to_owned(),
            Drafted::Question(_) => "question".to_owned(),
        };
        format!("{}-{} {kind}", self.draft.heard.start, self.draft.heard.end)
    }
}

/// Words out of which nothing was made.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// When they start, in seconds.
    pub start_s: f64,
    /// When they end.
    pub end_s: f64,
    /// The words as they stand in the text.
    pub words: String,
}

/// What a talk-through gave.
#[derive(Clone, Debug, PartialEq)]
pub struct TalkThrough {
    /// Whether the text told times. Words that were only typed have none, and nothing can be played at them.
    pub timed: bool,
    /// What was understood, in the order in which it was said.
    pub proposals: Vec<Proposal>,
    /// What was not, in the order in which it was said.
    pub left: Vec<Left>,
    /// Blows near no words, in seconds.
    pub blows_alone_s: Vec<f64>,
    /// What is odd about the text.
    pub cautions: Vec<String>,
}

/// Reads a talk-through. `as_heard` are mendings that a person refused, by their first word.
///
/// # Errors
/// When nothing is written, or what looks like word times cannot be read.
pub fn read(
    text: &str,
    recording_s: Option<f64>,
    names: &MemberNames,
    blows: &[Blow],
    as_heard: &[usize],
) -> Result<TalkThrough, TextFault> {
    let (text, timed) = match TimedText::read_text(text, recording_s) {
        Ok(text) => (text, true),
        Err(TextFault::NoTimes) => (TimedText::read_text(&with_pauses(text), None)?, false),
        Err(fault) => return Err(fault),
    };
    let blows = if timed { blows } else { &[] };
    let walk = walk::walk(&text, names, blows, as_heard);
    let heard: Vec<&Word> = text.words().collect();
    let mut used = vec![false; heard.len()];
    let proposals: Vec<Proposal> = walk
        .drafts
        .into_iter()
        .map(|draft| {
            let range = draft.heard.start.min(heard.len())..draft.heard.end.min(heard.len());
            used[range.clone()].fill(true);
            Proposal {
                payload: draft.payload(),
                heard: joined(&heard[range.clone()]),
                mended: walk.corrections.iter().filter(|c| range.contains(&c.first)).cloned().collect(),
                draft,
            }
        })
        .collect();
    let mut left = Vec::new();
    let mut first = 0;
    for cue in &text.cues {
        let of_cue = first..first + cue.words.len();
        first = of_cue.end;
        // The words of a cue that stand together and led to nothing.
        for run in of_cue.collect::<Vec<_>>().chunk_by(|a, b| used[*a] == used[*b]).filter(|run| !used[run[0]]) {
            let words = &heard[run[0]..=run[run.len() - 1]];
            if let (Some(from), Some(to)) = (words.first(), words.last()) {
                left.push(Left { start_s: from.start_s, end_s: to.end_s, words: joined(words) });
            }
        }
    }
    left.extend(text.untimed.iter().map(|one| Left { start_s: 0.0, end_s: 0.0, words: one.text.clone() }));
    let cautions = if timed { text.cautions.into_iter().map(|caution| caution.words).collect() } else { Vec::new() };
    Ok(TalkThrough { timed, proposals, left, blows_alone_s: walk.unplaced.blows_s, cautions })
}

fn joined(words: &[&Word]) -> String {
    words.iter().map(|word| word.word.as_str()).collect::<Vec<_>>().join(" ")
}

/// Returns typed words as word times: a pause after every sentence and every line, since it is by pauses that talk is cut.
/// The times are for cutting only and are never shown.
fn with_pauses(text: &str) -> String {
    let mut out = Vec::new();
    let mut now = 0.0;
    for line in text.lines() {
        for word in line.split_whitespace() {
            out.push(serde_json::json!({"start_s": now, "end_s": now + 0.3, "word": word}));
            now += if word.ends_with(['.', '!', '?', ';']) { 1.5 } else { 0.3 };
        }
        now += 1.5;
    }
    serde_json::Value::from(out).to_string()
}

/// Returns a moment of a recording as people say it: minutes and seconds.
pub fn moment(seconds: f64) -> String {
    let whole = seconds.max(0.0).floor();
    let mut out = String::new();
    let _ = write!(out, "{:.0}:{:02.0}", (whole / 60.0).floor(), whole % 60.0);
    out
}
