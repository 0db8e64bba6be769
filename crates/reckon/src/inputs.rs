//! Reading a topic's inputs, from flags or from JSON, and refusing what cannot be meant.

use crate::topic::{Flag, FlagKind, Topic};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// Why a reckoner gave no answer: one sentence that names the flag, the value and what is accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The value of a flag cannot be read or makes no sense.
    #[error("--{flag} {value}: {why}; accepted is {accepted}.")]
    Value {
        /// Flag without its dashes.
        flag: String,
        /// What was given, shortened.
        value: String,
        /// What is wrong with it.
        why: String,
        /// What is accepted.
        accepted: String,
    },
    /// A flag that the topic cannot do without was not given.
    #[error("--{flag} is missing; accepted is {accepted}.")]
    Missing {
        /// Flag without its dashes.
        flag: String,
        /// What is accepted.
        accepted: String,
    },
    /// The topic has no such flag.
    #[error("--{flag} is not a flag of {topic}; it takes {accepted}.")]
    Unknown {
        /// What was given.
        flag: String,
        /// The topic.
        topic: String,
        /// The flags it takes.
        accepted: String,
    },
    /// The inputs are each well formed but together have no meaningful answer.
    #[error("{0}")]
    Meaningless(String),
}

impl Refusal {
    /// Returns the refusal of a flag's value.
    pub fn value(flag: &str, value: impl ToString, why: impl Into<String>, accepted: impl Into<String>) -> Self {
        Refusal::Value {
            flag: flag.to_owned(),
            value: shortened(&value.to_string()),
            why: why.into(),
            accepted: accepted.into(),
        }
    }
}

/// One input as understood.
#[derive(Clone, Debug, PartialEq)]
enum Given {
    Number(f64),
    Count(u64),
    Words(String),
    Bytes(Vec<u8>),
}

/// A topic's inputs, read and checked: numbers in the unit of their names, defaults filled in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inputs {
    given: BTreeMap<&'static str, Given>,
}

impl Inputs {
    /// Reads inputs from flags and values as typed (flag names without dashes). The text of a text file stands
    /// for the file. Binary files come by [`Inputs::with_bytes`].
    pub fn read<'a>(topic: &Topic, pairs: impl IntoIterator<Item = (&'a str, &'a str)>) -> Result<Self, Refusal> {
        let mut inputs = Self::default();
        for (name, text) in pairs {
            let flag = topic.flags.iter().find(|flag| flag.name == name || flag.key() == name);
            let flag = flag.ok_or_else(|| unknown(topic, name))?;
            inputs.given.insert(flag.name, read_one(flag, text)?);
        }
        Ok(inputs)
    }

    /// Reads inputs from a JSON object whose keys are the flags' keys; numbers may be numbers or what people write.
    pub fn from_json(topic: &Topic, object: &Map<String, Value>) -> Result<Self, Refusal> {
        let mut inputs = Self::default();
        for (key, value) in object {
            let flag = topic.flags.iter().find(|flag| flag.key() == *key || flag.name == key);
            let flag = flag.ok_or_else(|| unknown(topic, key))?;
            let text = match value {
                Value::Null => continue,
                Value::String(text) => text.clone(),
                other => other.to_string(),
            };
            if text.trim().is_empty() && !flag.required {
                continue;
            }
            let given = match flag.kind {
                FlagKind::BinaryFile => Given::Bytes(base64(flag, &text)?),
                _ => read_one(flag, &text)?,
            };
            inputs.given.insert(flag.name, given);
        }
        Ok(inputs)
    }

    /// Adds the bytes of a file.
    pub fn with_bytes(mut self, topic: &Topic, name: &str, bytes: Vec<u8>) -> Result<Self, Refusal> {
        let flag = topic.flags.iter().find(|flag| flag.name == name).ok_or_else(|| unknown(topic, name))?;
        self.given.insert(flag.name, Given::Bytes(bytes));
        Ok(self)
    }

    /// Fills in defaults and refuses what is missing.
    pub(crate) fn complete(mut self, topic: &Topic) -> Result<Self, Refusal> {
        for flag in topic.flags {
            if self.given.contains_key(flag.name) {
                continue;
            }
            match flag.default {
                Some(text) => {
                    self.given.insert(flag.name, read_one(flag, text)?);
                }
                None if flag.required => {
                    return Err(Refusal::Missing { flag: flag.name.to_owned(), accepted: flag.accepts() });
                }
                None => {}
            }
        }
        Ok(self)
    }

    /// Returns a number or length in the unit of its name, when given.
    pub fn number(&self, name: &str) -> Option<f64> {
        match self.given.get(name) {
            Some(Given::Number(n)) => Some(*n),
            Some(Given::Count(n)) => Some(*n as f64),
            _ => None,
        }
    }

    /// Returns a whole number, when given.
    pub fn count(&self, name: &str) -> Option<u64> {
        match self.given.get(name) {
            Some(Given::Count(n)) => Some(*n),
            _ => None,
        }
    }

    /// Returns a choice, words or a file's text, when given.
    pub fn words(&self, name: &str) -> Option<&str> {
        match self.given.get(name) {
            Some(Given::Words(text)) => Some(text),
            _ => None,
        }
    }

    /// Returns a file's bytes, when given.
    pub fn bytes(&self, name: &str) -> Option<&[u8]> {
        match self.given.get(name) {
            Some(Given::Bytes(bytes)) => Some(bytes),
            _ => None,
        }
    }

    /// Returns a number that a topic requires.
    pub fn need_number(&self, name: &str) -> Result<f64, Refusal> {
        self.number(name).ok_or_else(|| missing(name))
    }

    /// Returns a whole number that a topic requires.
    pub fn need_count(&self, name: &str) -> Result<u64, Refusal> {
        self.count(name).ok_or_else(|| missing(name))
    }

    /// Returns words that a topic requires.
    pub fn need_words(&self, name: &str) -> Result<&str, Refusal> {
        self.words(name).ok_or_else(|| missing(name))
    }

    /// Returns the inputs as understood, as JSON, keyed as in JSON; files by their size.
    pub fn to_json(&self, topic: &Topic) -> Value {
        let mut map = Map::new();
        for flag in topic.flags {
            let Some(given) = self.given.get(flag.name) else { continue };
            let value = match given {
                Given::Number(n) => Value::from(*n),
                Given::Count(n) => Value::from(*n),
                Given::Words(text) => Value::from(text.as_str()),
                Given::Bytes(bytes) => Value::from(format!("{} bytes", bytes.len())),
            };
            map.insert(flag.key(), value);
        }
        Value::Object(map)
    }
}

fn missing(name: &str) -> Refusal {
    Refusal::Missing { flag: name.to_owned(), accepted: "a value".to_owned() }
}

fn unknown(topic: &Topic, name: &str) -> Refusal {
    let flags: Vec<_> = topic.flags.iter().map(|flag| format!("--{}", flag.name)).collect();
    Refusal::Unknown { flag: shortened(name), topic: topic.name.to_owned(), accepted: flags.join(", ") }
}

fn read_one(flag: &Flag, text: &str) -> Result<Given, Refusal> {
    let refuse = |why: String| Refusal::value(flag.name, text, why, flag.accepts());
    match &flag.kind {
        FlagKind::Number { least, greatest, .. } => {
            let n = plain_number(text).ok_or_else(|| refuse("this is not a number".to_owned()))?;
            within(n, *least, *greatest).map(Given::Number).map_err(refuse)
        }
        FlagKind::Count { least, greatest } => {
            let n: u64 = text.trim().parse().map_err(|_| refuse("this is not a whole number".to_owned()))?;
            if n < *least || n > *greatest {
                return Err(refuse("this is out of range".to_owned()));
            }
            Ok(Given::Count(n))
        }
        FlagKind::Length { unit, least, greatest } => {
            let n = match plain_number(text) {
                Some(n) => n,
                None => {
                    let mm = measure::Length::read(text).map_err(|fault| refuse(fault.to_string()))?.mm();
                    if *unit == "m" { mm / 1000.0 } else { mm }
                }
            };
            within(n, *least, *greatest).map(Given::Number).map_err(refuse)
        }
        FlagKind::Choice(words) => {
            let wanted = text.trim();
            let found = words.iter().find(|word| word.eq_ignore_ascii_case(wanted));
            found
                .map(|word| Given::Words((*word).to_owned()))
                .ok_or_else(|| refuse("this is not one of them".to_owned()))
        }
        FlagKind::Words | FlagKind::TextFile => Ok(Given::Words(text.to_owned())),
        FlagKind::BinaryFile => Ok(Given::Bytes(text.as_bytes().to_vec())),
    }
}

/// Reads a bare number, with a point or (once) a comma for the decimals.
fn plain_number(text: &str) -> Option<f64> {
    let text = text.trim();
    if text.is_empty() || !text.chars().all(|c| c.is_ascii_digit() || ".,+-eE".contains(c)) {
        return None;
    }
    let text =
        if text.matches(',').count() == 1 && !text.contains('.') { text.replace(',', ".") } else { text.to_owned() };
    text.parse().ok().filter(|n: &f64| n.is_finite())
}

fn within(n: f64, least: f64, greatest: f64) -> Result<f64, String> {
    if n < least || n > greatest { Err("this is out of range".to_owned()) } else { Ok(n) }
}

fn shortened(text: &str) -> String {
    let line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if line.chars().count() <= 60 { line } else { format!("{}…", line.chars().take(60).collect::<String>()) }
}

fn base64(flag: &Flag, text: &str) -> Result<Vec<u8>, Refusal> {
    use base64::Engine as _;
    let decoded = base64::engine::general_purpose::STANDARD.decode(text.trim());
    decoded.map_err(|fault| Refusal::value(flag.name, text, fault.to_string(), "base64"))
}
