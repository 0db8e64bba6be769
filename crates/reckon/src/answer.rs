//! What a reckoner answers.

use crate::{Inputs, Topic};
use drawing::Sheet;
use serde_json::{Map, Value, json};
use std::fmt::{self, Write as _};

/// The figures, what they rest on, what to be careful of, and drawings that show them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Figures by key, each key with its unit (`emc_percent`).
    pub results: Map<String, Value>,
    /// Sources of this very answer; when left empty the topic's own are taken.
    pub sources: Vec<String>,
    /// Cautions, in sentences. May be empty.
    pub cautions: Vec<String>,
    /// Drawings that show the answer: a curve, a strip of months, an expansion. May be empty.
    pub sheets: Vec<Sheet>,
}

impl Answer {
    /// Returns an empty answer.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a figure.
    pub fn with(mut self, key: &str, value: impl Into<Value>) -> Self {
        self.results.insert(key.to_owned(), value.into());
        self
    }

    /// Adds a figure when there is one.
    pub fn with_some(self, key: &str, value: Option<impl Into<Value>>) -> Self {
        match value {
            Some(value) => self.with(key, value),
            None => self,
        }
    }

    /// Adds a caution.
    pub fn caution(mut self, sentence: impl Into<String>) -> Self {
        self.cautions.push(sentence.into());
        self
    }

    /// Adds a drawing.
    pub fn sheet(mut self, sheet: Sheet) -> Self {
        self.sheets.push(sheet);
        self
    }
}

/// A question with its answer. Shown, it is what a person reads: figures with units, the equation and its
/// source, cautions.
#[derive(Clone, Debug)]
pub struct Reckoned {
    /// The topic.
    pub topic: &'static Topic,
    /// What was asked, as understood, defaults filled in.
    pub inputs: Inputs,
    /// What was answered.
    pub answer: Answer,
}

impl Reckoned {
    /// Returns the whole as the one JSON object that scripts, the HTTP API and the record read.
    pub fn to_json(&self) -> Value {
        json!({
            "topic": self.topic.name,
            "version": self.topic.version,
            "inputs": self.inputs.to_json(self.topic),
            "results": self.answer.results,
            "equation": self.topic.equation,
            "sources": self.answer.sources,
            "cautions": self.answer.cautions,
            "not_covered": self.topic.not_covered,
        })
    }
}

impl fmt::Display for Reckoned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.topic.title)?;
        let rows = self.answer.results.iter().map(|(key, value)| {
            let figure = self.topic.figures.iter().find(|figure| figure.key == key);
            let label = figure.map_or_else(|| key.replace('_', " "), |figure| figure.label.to_owned());
            let decimals = figure.map_or(3, |figure| figure.decimals);
            (label, figure.map_or("", |figure| figure.unit), value, decimals)
        });
        let rows: Vec<_> = rows.collect();
        let width = rows.iter().map(|(label, ..)| label.chars().count()).max().unwrap_or(0);
        for (label, unit, value, decimals) in rows {
            let pad = " ".repeat(width - label.chars().count());
            writeln!(f, "  {label}{pad}  {}", shown(value, unit, usize::from(decimals)))?;
        }
        writeln!(f, "Reckoned by: {}.", self.topic.equation)?;
        for source in &self.answer.sources {
            writeln!(f, "Source: {source}.")?;
        }
        for caution in &self.answer.cautions {
            writeln!(f, "Caution: {caution}")?;
        }
        for sentence in self.topic.not_covered {
            writeln!(f, "Not covered: {sentence}")?;
        }
        Ok(())
    }
}

/// Tells whether a value fits into a row of its like: numbers and single words do, sentences do not.
fn is_short(value: &Value) -> bool {
    match value {
        Value::Array(_) | Value::Object(_) => false,
        Value::String(text) => text.chars().count() <= 24,
        _ => true,
    }
}

/// Writes one value for a person: numbers to the given decimals with the unit, lists and objects in lines.
fn shown(value: &Value, unit: &str, decimals: usize) -> String {
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    match value {
        Value::Number(n) if n.is_f64() => format!("{:.*}{unit}", decimals, n.as_f64().unwrap_or(f64::NAN)),
        Value::Number(n) => format!("{n}{unit}"),
        Value::String(s) => s.clone(),
        Value::Bool(b) => if *b { "yes" } else { "no" }.to_owned(),
        Value::Null => "not known".to_owned(),
        Value::Array(items) if items.iter().all(is_short) => {
            let parts: Vec<_> = items.iter().map(|item| shown(item, "", decimals)).collect();
            format!("{}{unit}", parts.join(", "))
        }
        Value::Array(items) => {
            let mut out = String::new();
            for item in items {
                let _ = write!(out, "\n    {}", shown(item, "", decimals));
            }
            out
        }
        Value::Object(map) => {
            let parts: Vec<_> =
                map.iter().map(|(k, v)| format!("{} {}", k.replace('_', " "), shown(v, "", decimals))).collect();
            format!("{}{unit}", parts.join("; "))
        }
    }
}
