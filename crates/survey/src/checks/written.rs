//! What the surveyor wrote in words, field by field, for the checks that read words.

use crate::payload::Payload;
use crate::{EntryId, Reading, State};

/// Words of the surveyor's in one field of one entry.
pub(super) struct Written<'a> {
    pub(super) entry: EntryId,
    pub(super) member: Option<&'a str>,
    pub(super) field: &'static str,
    pub(super) words: &'a str,
}

/// Returns the surveyor's own words that a report prints: conclusions, recommendations, notes, reasoning. What others are
/// quoted as saying is not among them.
pub(super) fn own_words(state: &State) -> Vec<Written<'_>> {
    let mut out = Vec::new();
    for record in state.records().into_iter().filter(|record| !record.is_withdrawn()) {
        let (member, fields): (Option<&str>, Vec<(&'static str, &str)>) = match record.payload() {
            Payload::Observation(o) => {
                let mut fields: Vec<(&'static str, &str)> = Vec::new();
                match &o.reading {
                    Reading::Ask { .. } => continue,
                    Reading::OpenUp { found, .. } => fields.push(("reading.found", found)),
                    _ => {}
                }
                fields.push(("note", &o.note));
                (Some(&o.member), fields)
            }
            Payload::Finding(f) => {
                let mut fields: Vec<(&'static str, &str)> =
                    vec![("title", &f.title), ("text", &f.text), ("extent", &f.extent), ("cause", &f.cause)];
                fields.push(("meaning", &f.meaning));
                fields.extend(
                    f.alternatives
                        .iter()
                        .flat_map(|a| [("alternatives", a.what.as_str()), ("alternatives", a.against.as_str())]),
                );
                (Some(&f.member), fields)
            }
            Payload::Recommendation(r) => {
                (None, vec![("title", &r.title), ("action", &r.action), ("why", &r.why), ("proof", &r.proof)])
            }
            Payload::Reckoning(r) => (r.member.as_deref(), vec![("note", &r.note)]),
            Payload::OpinionOfValue(v) => (None, vec![("definition", &v.definition), ("reasoning", &v.reasoning)]),
            Payload::FollowUp(f) => (None, vec![("text", &f.text)]),
            _ => continue,
        };
        let entry = record.first().id;
        out.extend(fields.into_iter().filter(|(_, words)| !words.trim().is_empty()).map(|(field, words)| Written {
            entry,
            member,
            field,
            words,
        }));
    }
    out
}

/// Returns the words of a text in lower case, without the stops round them.
pub(super) fn words_of(text: &str) -> Vec<String> {
    text.split_whitespace()
        .map(|word| word.trim_matches(|c: char| !(c.is_alphanumeric() || c == '%')).to_lowercase())
        .filter(|word| !word.is_empty())
        .collect()
}

/// Tells whether a phrase that begins at a word is denied by one of the four words before it: `no guarantee is given`.
pub(super) fn is_denied(words: &[String], at: usize) -> bool {
    const DENIALS: [&str; 12] =
        ["no", "not", "never", "cannot", "can't", "don't", "nobody", "none", "neither", "nor", "without", "nothing"];
    words[at.saturating_sub(4)..at].iter().any(|word| DENIALS.contains(&word.as_str()))
}

/// Cuts a text for a message, at the end of a word.
pub(super) fn cut(text: &str) -> String {
    const MOST: usize = 60;
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().count() <= MOST {
        return text;
    }
    let kept: String = text.chars().take(MOST).collect();
    format!("{} …", kept.rsplit_once(' ').map_or(kept.as_str(), |(whole, _)| whole))
}
