//! Questions of her history: why something was done, with rival explanations side by side.

use super::numbers::Numbers;
use super::wording::{ended, sentence_case};
use crate::{Explanation, Question, Row};
use serde_json::Value;
use survey::State;

/// The topic that asks why a thing was done.
pub(super) const TOPIC: &str = "history";

/// Returns the questions that the record asks, as reckoned under the topic of her history.
pub(super) fn questions(state: &State, numbers: &Numbers<'_>) -> Vec<Question> {
    let asked = state.reckonings().filter(|r| r.payload.topic == TOPIC);
    asked
        .map(|view| {
            let r = view.payload;
            let text = |value: &Value, key: &str| value[key].as_str().unwrap_or_default().trim().to_owned();
            let list = |value: &Value, key: &str| -> String {
                let signs = value[key].as_array().into_iter().flatten().filter_map(Value::as_str);
                let signs: Vec<&str> = signs.map(str::trim).filter(|sign| !sign.is_empty()).collect();
                if signs.is_empty() { String::new() } else { ended(&sentence_case(&signs.join("; "))) }
            };
            let explanations = r.results["explanations"].as_array().into_iter().flatten().map(|e| {
                let rows = [
                    ("Signs for it", list(e, "signs_for")),
                    ("Signs against it", list(e, "signs_against")),
                    ("Where to look", text(e, "look_next")),
                    ("If it is so", text(e, "if_so")),
                    ("Source", text(e, "source")),
                ];
                Explanation {
                    words: ended(&sentence_case(&text(e, "explanation"))),
                    rows: rows
                        .into_iter()
                        .filter(|(_, words)| !words.is_empty())
                        .map(|(label, words)| Row::new(label, ended(&sentence_case(&words))))
                        .collect(),
                }
            });
            let seen = text(&r.results, "seen");
            let seen = match &r.member {
                Some(member) => format!("{} ({})", seen.trim_end_matches('.'), numbers.member(member).to_lowercase()),
                None => seen,
            };
            Question {
                reckoning: numbers.reckonings.get(&view.id()).copied().unwrap_or(0),
                seen: ended(&sentence_case(&seen)),
                explanations: explanations.collect(),
                note: r.note.clone(),
            }
        })
        .collect()
}
