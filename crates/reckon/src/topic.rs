//! What a topic declares of itself.

use crate::{Answer, Inputs, Reckoned, Refusal};
use serde_json::{Value, json};

/// One computation: its flags, the figures it answers with, its sources, and the function that reckons.
#[derive(Debug)]
pub struct Topic {
    /// Name as on the command line, e.g. `emc`.
    pub name: &'static str,
    /// What it tells, in a few words, e.g. `Equilibrium moisture content of wood in air`.
    pub title: &'static str,
    /// The question a surveyor asks, one sentence.
    pub question: &'static str,
    /// Raised whenever the same inputs may give another answer; kept with every reckoning in the record.
    pub version: u32,
    /// Its flags, in the order in which a form shows them.
    pub flags: &'static [Flag],
    /// The figures in its answer. An answer may leave out those that need an input not given.
    pub figures: &'static [Figure],
    /// Name of the equation or method.
    pub equation: &'static str,
    /// Sources: title, edition, table or equation.
    pub sources: &'static [&'static str],
    /// What the answer does not cover, in sentences.
    pub not_covered: &'static [&'static str],
    /// A complete example: flag and value as typed.
    pub example: &'static [(&'static str, &'static str)],
    /// The computation. Takes inputs already read and checked against the flags.
    pub run: fn(&Inputs) -> Result<Answer, Refusal>,
}

/// One flag of a topic.
#[derive(Debug)]
pub struct Flag {
    /// Name without the dashes, with its unit: `width-mm`.
    pub name: &'static str,
    /// What it is, in a few words.
    pub label: &'static str,
    /// What it accepts.
    pub kind: FlagKind,
    /// Whether the topic cannot do without it.
    pub required: bool,
    /// Value taken when it is not given, as typed.
    pub default: Option<&'static str>,
}

/// What a flag accepts. Numbers carry the least and greatest value that make sense at all.
#[derive(Debug)]
pub enum FlagKind {
    /// A number in the unit of the flag's name.
    Number {
        /// Unit as shown, e.g. `%`, `°C`, `days`, or empty.
        unit: &'static str,
        /// Least value accepted.
        least: f64,
        /// Greatest value accepted.
        greatest: f64,
    },
    /// A whole number.
    Count {
        /// Least value accepted.
        least: u64,
        /// Greatest value accepted.
        greatest: u64,
    },
    /// A length; takes what people write (`5/8"`, `32 mm`), a bare number being in the flag's unit (`mm` or `m`).
    Length {
        /// `mm` or `m`.
        unit: &'static str,
        /// Least value accepted, in the unit.
        least: f64,
        /// Greatest value accepted, in the unit.
        greatest: f64,
    },
    /// One of a few words.
    Choice(&'static [&'static str]),
    /// Free words, such as a species' name; the topic itself says what it accepts.
    Words,
    /// The text of a file (command line: its path; JSON: its text).
    TextFile,
    /// The bytes of a file (command line: its path; JSON: base64).
    BinaryFile,
}

/// One figure in an answer.
#[derive(Debug)]
pub struct Figure {
    /// Key in `results`, with its unit: `emc_percent`.
    pub key: &'static str,
    /// What it is, in a few words.
    pub label: &'static str,
    /// Unit as shown, or empty.
    pub unit: &'static str,
    /// Decimals shown to a person; JSON always carries the full figure.
    pub decimals: u8,
}

impl Flag {
    /// Returns a flag that must be given.
    pub const fn required(name: &'static str, label: &'static str, kind: FlagKind) -> Flag {
        Flag { name, label, kind, required: true, default: None }
    }

    /// Returns a flag that may be left out.
    pub const fn optional(name: &'static str, label: &'static str, kind: FlagKind) -> Flag {
        Flag { name, label, kind, required: false, default: None }
    }

    /// Returns a flag with a value taken when it is left out.
    pub const fn or(name: &'static str, label: &'static str, kind: FlagKind, default: &'static str) -> Flag {
        Flag { name, label, kind, required: false, default: Some(default) }
    }

    /// Returns the flag's key in JSON: `width_mm` for `width-mm`.
    pub fn key(&self) -> String {
        self.name.replace('-', "_")
    }

    /// Returns what the flag accepts, in words, for a message or a form.
    pub fn accepts(&self) -> String {
        match &self.kind {
            FlagKind::Number { unit, least, greatest } => {
                let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                format!("a number from {least} to {greatest}{unit}")
            }
            FlagKind::Count { least, greatest } => format!("a whole number from {least} to {greatest}"),
            FlagKind::Length { unit, least, greatest } => {
                format!("a length from {least} to {greatest} {unit}, written like 32 mm, 5/8\" or 3'-4 1/2\"")
            }
            FlagKind::Choice(words) => format!("one of {}", words.join(", ")),
            FlagKind::Words => "a word or name".to_owned(),
            FlagKind::TextFile | FlagKind::BinaryFile => "a file".to_owned(),
        }
    }

    fn describe(&self) -> Value {
        let mut about = json!({
            "name": self.name,
            "key": self.key(),
            "label": self.label,
            "required": self.required,
            "default": self.default,
            "accepts": self.accepts(),
        });
        let (kind, extra) = match &self.kind {
            FlagKind::Number { unit, least, greatest } => {
                ("number", json!({"unit": unit, "least": least, "greatest": greatest}))
            }
            FlagKind::Count { least, greatest } => ("count", json!({"least": least, "greatest": greatest})),
            FlagKind::Length { unit, least, greatest } => {
                ("length", json!({"unit": unit, "least": least, "greatest": greatest}))
            }
            FlagKind::Choice(words) => ("choice", json!({"choices": words})),
            FlagKind::Words => ("words", json!({})),
            FlagKind::TextFile => ("text_file", json!({})),
            FlagKind::BinaryFile => ("binary_file", json!({})),
        };
        about["kind"] = json!(kind);
        if let (Some(about), Value::Object(extra)) = (about.as_object_mut(), extra) {
            about.extend(extra);
        }
        about
    }
}

impl Topic {
    /// Reckons: fills in defaults, refuses what is missing, and answers.
    pub fn reckon(&'static self, inputs: Inputs) -> Result<Reckoned, Refusal> {
        let inputs = inputs.complete(self)?;
        let mut answer = (self.run)(&inputs)?;
        if answer.sources.is_empty() {
            answer.sources = self.sources.iter().map(|s| (*s).to_owned()).collect();
        }
        Ok(Reckoned { topic: self, inputs, answer })
    }

    /// Returns what the topic declares, as JSON.
    pub fn describe(&self) -> Value {
        let figures: Vec<Value> = self
            .figures
            .iter()
            .map(|f| json!({"key": f.key, "label": f.label, "unit": f.unit, "decimals": f.decimals}))
            .collect();
        let example: serde_json::Map<String, Value> =
            self.example.iter().map(|(flag, value)| ((*flag).to_owned(), json!(value))).collect();
        json!({
            "topic": self.name,
            "title": self.title,
            "question": self.question,
            "version": self.version,
            "flags": self.flags.iter().map(Flag::describe).collect::<Vec<_>>(),
            "results": figures,
            "equation": self.equation,
            "sources": self.sources,
            "not_covered": self.not_covered,
            "example": example,
        })
    }
}
