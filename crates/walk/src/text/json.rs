//! Reading JSON word times.
//!
//! The shape is our own and plain: a list of `{"start_s": 12.34, "end_s": 12.70, "word": "garboard", "confidence": 0.91}`,
//! times in seconds from the start of the recording, `confidence` from 0 to 1 and optional. Lists nested in other objects,
//! as recognisers write them, are found too, with `start`, `end`, `text`, `conf` or `probability` for the same.

use super::{Caution, Cue, Layout, Oddity, Raw, RawCue, TextFault, Word};
use serde_json::{Map, Value};

/// A pause longer than this starts another cue. Our own choice.
const PAUSE_S: f64 = 1.2;

/// A cue has no more words than this.
const MOST_WORDS: usize = 40;

/// Tells whether the text is meant as JSON, and not a cue that starts with a bracket.
pub(super) fn looks_like_json(head: &str) -> bool {
    let inside = head[1..].trim_start();
    inside.starts_with(['{', '"', ']', '}', '[']) || serde_json::from_str::<Value>(head).is_ok()
}

pub(super) fn read(text: &str) -> Result<Raw, TextFault> {
    let value: Value = serde_json::from_str(text).map_err(|fault| TextFault::Json(fault.to_string()))?;
    let mut found = Found::default();
    collect(&value, &mut found);
    if found.words.is_empty() {
        return Err(TextFault::Json("there is no word with a time in it".to_owned()));
    }
    let mut cautions = Vec::new();
    if found.strange > 0 {
        let words = format!("{} words have a confidence outside 0 to 1; it was left out.", found.strange);
        cautions.push(Caution::new(Oddity::WordTime, None, None, words));
    }
    if found.ends_missing > 0 {
        let words = format!("{} words tell no end; each was taken to last to its start only.", found.ends_missing);
        cautions.push(Caution::new(Oddity::WordTime, None, None, words));
    }
    found.words.sort_by(|a, b| a.start_s.total_cmp(&b.start_s).then_with(|| a.word.cmp(&b.word)));
    let untimed = found.untimed.into_iter().map(|text| super::Untimed { line: 1, text }).collect::<Vec<_>>();
    if !untimed.is_empty() {
        let words = format!("{} words have no time; they are kept apart.", untimed.len());
        cautions.push(Caution::new(Oddity::Untimed, None, None, words));
    }
    let cues = cues(found.words).into_iter().map(|cue| RawCue { line: None, cue }).collect();
    Ok(Raw { layout: Layout::JsonWords, cues, untimed, cautions })
}

#[derive(Default)]
struct Found {
    words: Vec<Word>,
    untimed: Vec<String>,
    strange: usize,
    ends_missing: usize,
}

/// Goes through the value; `serde_json` itself keeps it from being deeper than 128 levels.
fn collect(value: &Value, found: &mut Found) {
    match value {
        Value::Array(items) => items.iter().for_each(|item| collect(item, found)),
        Value::Object(map) => {
            let nested = map.values().any(|v| matches!(v, Value::Array(items) if items.iter().any(Value::is_object)));
            match word(map, found) {
                _ if nested => map.values().for_each(|v| collect(v, found)),
                Some(word) => found.words.push(word),
                None => map.values().for_each(|v| collect(v, found)),
            }
        }
        _ => {}
    }
}

fn word(map: &Map<String, Value>, found: &mut Found) -> Option<Word> {
    let first = |keys: &[&str]| keys.iter().find_map(|key| map.get(*key));
    let nested = map.values().any(|v| matches!(v, Value::Array(items) if items.iter().any(Value::is_object)));
    let word = first(&["word", "text"])?.as_str()?.trim().to_owned();
    if word.is_empty() || nested {
        return None;
    }
    let Some(start_s) = first(&["start_s", "start"]).and_then(Value::as_f64) else {
        if map.contains_key("word") {
            found.untimed.push(word);
        }
        return None;
    };
    let end_s = first(&["end_s", "end"]).and_then(Value::as_f64);
    found.ends_missing += usize::from(end_s.is_none());
    let confidence = first(&["confidence", "conf", "probability"]).and_then(Value::as_f64);
    let good = confidence.filter(|c| (0.0..=1.0).contains(c));
    found.strange += usize::from(confidence.is_some() && good.is_none());
    Some(Word { start_s, end_s: end_s.unwrap_or(start_s), word, confidence: good, timed: true })
}

fn cues(words: Vec<Word>) -> Vec<Cue> {
    let mut cues: Vec<Cue> = Vec::new();
    for word in words {
        let follows = cues.last().is_some_and(|cue| {
            let ended = cue.text.ends_with(['.', '?', '!']);
            word.start_s - cue.end_s <= PAUSE_S && cue.words.len() < MOST_WORDS && !ended
        });
        match cues.last_mut().filter(|_| follows) {
            Some(cue) => {
                cue.end_s = cue.end_s.max(word.end_s);
                cue.text.push(' ');
                cue.text.push_str(&word.word);
                cue.words.push(word);
            }
            None => cues.push(Cue {
                start_s: word.start_s,
                end_s: word.end_s,
                id: None,
                speaker: None,
                text: word.word.clone(),
                words: vec![word],
            }),
        }
    }
    cues
}
