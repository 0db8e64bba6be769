//! Tables, lists, drawings and reckonings.

use super::{Mark, Row, Said};
use drawing::Sheet;
use serde::Serialize;

/// Paragraphs under a short heading.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Paragraphs {
    /// Heading.
    pub title: String,
    /// Paragraphs.
    pub words: Vec<String>,
}

/// A member, or part of one, that was not seen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct NotSeen {
    /// Member and place.
    pub what: String,
    /// Why: the barrier.
    pub why: String,
    /// What it would take.
    pub needs: String,
}

/// How a column is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Align {
    /// Words.
    #[default]
    Left,
    /// Figures.
    Right,
}

/// A column of a table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Column {
    /// Its heading, with the unit where all its figures share one.
    pub title: String,
    /// How it is set.
    pub align: Align,
    /// Its share of the width; shares are relative to one another.
    pub share: f64,
}

impl Column {
    /// Returns a column of words.
    pub fn words(title: impl Into<String>, share: f64) -> Self {
        Self { title: title.into(), align: Align::Left, share }
    }

    /// Returns a column of figures.
    pub fn figures(title: impl Into<String>, share: f64) -> Self {
        Self { title: title.into(), align: Align::Right, share }
    }
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Table {
    /// Its heading.
    pub title: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows, each with a cell a column; missing cells are left blank.
    pub rows: Vec<Vec<String>>,
    /// What to bear in mind when reading it; may be empty.
    pub note: String,
}

/// One observation, as listed in the appendix.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Observation {
    /// Number, from 1, unique in the report.
    pub number: u32,
    /// Member and place.
    pub place: String,
    /// Method in a word.
    pub method: String,
    /// What was found.
    pub said: Said,
    /// The entry of the field book, by its short name.
    pub entry: String,
    /// When it was written down, as printed.
    pub when: String,
    /// Findings that rest on it.
    pub findings: Vec<u32>,
    /// Pictures that belong to it.
    pub pictures: u32,
}

/// A computation the report leans on.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Reckoning {
    /// Number, from 1, unique in the report.
    pub number: u32,
    /// What was reckoned.
    pub title: String,
    /// Inputs, with units.
    pub inputs: Vec<Row>,
    /// Results, with units.
    pub results: Vec<Row>,
    /// Equation or method by name.
    pub equation: String,
    /// Sources.
    pub sources: Vec<String>,
    /// Cautions, and what it does not cover.
    pub cautions: Vec<String>,
    /// What the surveyor takes from it.
    pub note: String,
    /// Findings that rest on it.
    pub findings: Vec<u32>,
}

/// A drawing with its caption. Its words for those who cannot see it are the sheet's own description.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// Caption.
    pub caption: String,
    /// The drawing.
    #[serde(skip)]
    pub sheet: Sheet,
    /// Whether the hatches of condition are used, so that their key is printed beside it.
    pub key: Vec<(Mark, String)>,
}

/// A word of the trade, in plain words.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Term {
    /// The word.
    pub word: String,
    /// What it means.
    pub meaning: String,
}

/// A version of the report.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Change {
    /// Version.
    pub version: String,
    /// Day of issue, as printed.
    pub date: String,
    /// What changed, and why.
    pub change: String,
    /// Who was told.
    pub told: String,
}

/// What proves the record.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Digest {
    /// SHA-256 of the field book.
    pub sha256: String,
    /// Number of entries it covers.
    pub entries: u64,
    /// How to check it, in sentences.
    pub how: Vec<String>,
}
