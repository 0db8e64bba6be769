//! Timed text: what was said in a recording, word by word, with the time of each.
//!
//! WebVTT (W3C), SubRip and JSON word times are read. Whatever is odd is kept with a caution; nothing that was written is
//! dropped.

mod decode;
mod json;
mod markup;
mod srt;
mod stamp;
mod tidy;
mod vtt;
mod write;

use serde::Serialize;

/// Why a text cannot be read at all.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TextFault {
    /// Nothing is written.
    #[error("nothing is written; accepted is WebVTT, SubRip or JSON word times")]
    Empty,
    /// It has words but no times.
    #[error(
        "no line tells a time; accepted is WebVTT (00:01.000 --> 00:04.000), SubRip (00:00:01,000 --> 00:00:04,000) or JSON word times"
    )]
    NoTimes,
    /// It starts like JSON but is none, or holds no words with times.
    #[error(
        "JSON word times: {0}; accepted is [{{\"start_s\": 1.2, \"end_s\": 1.6, \"word\": \"garboard\"}}, …], with \"confidence\" from 0 to 1 where known"
    )]
    Json(String),
}

/// The layout a text came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Layout {
    /// WebVTT, W3C.
    WebVtt,
    /// SubRip.
    SubRip,
    /// JSON word times.
    JsonWords,
}

/// A word with its time in seconds from the start of the recording.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Word {
    /// When it starts.
    pub start_s: f64,
    /// When it ends; never before it starts.
    pub end_s: f64,
    /// The word as written, with its punctuation.
    pub word: String,
    /// How sure the writer of the text was of it, 0 to 1, where told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub confidence: Option<f64>,
    /// Whether its time was told; otherwise it is shared out over the cue by length.
    pub timed: bool,
}

/// A stretch of text with its time in seconds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cue {
    /// When it starts.
    pub start_s: f64,
    /// When it ends; never before it starts.
    pub end_s: f64,
    /// Its name in the file, when it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
    /// Who speaks, when told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub speaker: Option<String>,
    /// The text without markup.
    pub text: String,
    /// Its words. Words that a rolling caption repeats are left out here and stay in `text`.
    pub words: Vec<Word>,
}

/// Text that stands in the file without a time that can be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Untimed {
    /// Line of the file, from 1.
    pub line: usize,
    /// The text as written.
    pub text: String,
}

/// Something odd that was found and kept.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Caution {
    /// Line of the file, from 1, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    /// Time in the recording, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time_s: Option<f64>,
    /// What is odd.
    pub oddity: Oddity,
    /// The same in a sentence.
    pub words: String,
}

/// Kinds of oddity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Oddity {
    /// The bytes are not UTF-8.
    Encoding,
    /// A time line is not as the standard has it, and was read all the same.
    Timing,
    /// Text without a time that can be read.
    Untimed,
    /// The end comes before the start.
    Backwards,
    /// Two cues overlap.
    Overlap,
    /// A time after the end of the recording.
    PastTheEnd,
    /// The cues are not in the order of time.
    Order,
    /// Words said once and written twice.
    Repeated,
    /// A word without a time of its own, or with an impossible one.
    WordTime,
}

impl Caution {
    pub(crate) fn new(oddity: Oddity, line: Option<usize>, time_s: Option<f64>, words: impl Into<String>) -> Self {
        Self { line, time_s, oddity, words: words.into() }
    }
}

/// A text with times, as read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TimedText {
    /// The layout it came in.
    pub layout: Layout,
    /// Its cues in the order of time.
    pub cues: Vec<Cue>,
    /// What stands in the file without a time.
    pub untimed: Vec<Untimed>,
    /// What is odd about it.
    pub cautions: Vec<Caution>,
}

/// Returns the text of bytes of any of the encodings that timed text comes in.
pub fn decoded(bytes: &[u8]) -> String {
    decode::decode(bytes).0
}

/// What a reader of one layout hands on, before times are put right.
pub(crate) struct Raw {
    pub layout: Layout,
    pub cues: Vec<RawCue>,
    pub untimed: Vec<Untimed>,
    pub cautions: Vec<Caution>,
}

/// A cue as it stands in the file.
pub(crate) struct RawCue {
    pub line: Option<usize>,
    pub cue: Cue,
}

impl TimedText {
    /// Reads a text of any of the layouts from its bytes. `recording_s` is the length of the recording, where known.
    pub fn read(bytes: &[u8], recording_s: Option<f64>) -> Result<Self, TextFault> {
        let (text, caution) = decode::decode(bytes);
        let mut read = Self::read_text(&text, recording_s)?;
        read.cautions.splice(0..0, caution);
        Ok(read)
    }

    /// Reads a text of any of the layouts. `recording_s` is the length of the recording, where known.
    pub fn read_text(text: &str, recording_s: Option<f64>) -> Result<Self, TextFault> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let head = text.trim_start();
        if head.is_empty() {
            return Err(TextFault::Empty);
        }
        let raw = if vtt::is_signed(text) {
            vtt::read(text)
        } else if head.starts_with(['[', '{']) && !head.starts_with("[[") && json::looks_like_json(head) {
            json::read(head)?
        } else {
            srt::read(text)
        };
        let no_times = raw.cues.is_empty() && raw.layout == Layout::SubRip;
        if no_times { Err(TextFault::NoTimes) } else { Ok(tidy::tidy(raw, recording_s)) }
    }

    /// Returns all words in the order of time.
    pub fn words(&self) -> impl Iterator<Item = &Word> {
        self.cues.iter().flat_map(|cue| &cue.words)
    }
}
