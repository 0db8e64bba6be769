//! A surveyor's own style: letterhead, licences, limitation texts, paper, size of letters, units.

use serde::Deserialize;

/// How a surveyor wants every report to look. Read from a file of the desk; whatever is left out stays as usual.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Style {
    /// The surveyor as signed, where the brief names none.
    pub surveyor: String,
    /// Qualification, as the surveyor states it, where the brief gives none.
    pub qualification: String,
    /// Licences and memberships with their numbers, as the surveyor states them.
    pub licences: Vec<String>,
    /// Lines at the head of the title page: practice, address, how to reach it.
    pub letterhead: Vec<String>,
    /// Limitation texts of the surveyor's own.
    pub limitations: Vec<Limitation>,
    /// A file with the signature drawn by hand, beside the style file.
    pub signature: Option<String>,
    /// The paper.
    pub paper: Option<PaperName>,
    /// The size of the letters.
    pub letters: LetterSize,
    /// The units shown first; the others follow in brackets.
    pub units: Option<Units>,
}

/// A limitation text: its words, or the file that holds them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Limitation {
    /// Its heading.
    pub title: String,
    /// Its words; paragraphs are parted by an empty line.
    pub text: String,
    /// A text file beside the style file that holds the words, in place of `text`.
    pub file: Option<String>,
}

/// Paper by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PaperName {
    /// 210 mm × 297 mm.
    A4,
    /// 8 1/2 in × 11 in.
    Letter,
}

/// Size of the letters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LetterSize {
    /// As usual.
    #[default]
    Usual,
    /// A sixth larger, for readers who want it.
    Large,
}

/// Units shown first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Metres and kilograms.
    Metric,
    /// Feet, inches and pounds.
    Imperial,
}
