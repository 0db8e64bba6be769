//! Choices that a form offers: the value as written in the record and the trade's words for it.

use serde::Serialize;
use std::fmt::Display;

/// A value and the words for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// As written in the record.
    pub value: String,
    /// As shown.
    pub words: String,
}

/// Returns the choices of one of the record's own lists of words.
pub fn words<T: Serialize + Display>(all: &[T]) -> Vec<Choice> {
    all.iter()
        .map(|one| {
            let value = serde_json::to_value(one).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default();
            Choice { value, words: one.to_string() }
        })
        .collect()
}

/// Returns choices whose value is what is shown.
pub fn named(all: &[&str]) -> Vec<Choice> {
    all.iter().map(|one| Choice { value: (*one).to_owned(), words: one.replace('_', " ") }).collect()
}
