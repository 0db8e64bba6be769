//! The title page, the summary and the signature.

use super::{Picture, Said};
use serde::Serialize;

/// Whether the report may be relied on yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(tag = "standing", rename_all = "snake_case")]
pub enum Standing {
    /// Not issued: every page says `Draft`.
    #[default]
    Draft,
    /// Issued, and frozen.
    Issued {
        /// Version, from 1.
        version: u32,
        /// The day of issue, as printed.
        date: String,
    },
}

/// One labelled line.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Row {
    /// What it is.
    pub label: String,
    /// What it says, with units.
    pub value: String,
}

impl Row {
    /// Returns a labelled line.
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Self {
        Self { label: label.into(), value: value.into() }
    }
}

/// Someone named on the title page or signature.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Person {
    /// Name as signed.
    pub name: String,
    /// Qualification, as they state it; may be empty.
    pub qualification: String,
}

/// The title page.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Front {
    /// One line under the name, e.g. `carvel cutter, built 1938`.
    pub subtitle: String,
    /// Lines such as client, purpose, place, use and waters intended.
    pub rows: Vec<Row>,
    /// The surveyor.
    pub surveyor: Option<Person>,
    /// A portrait of the boat.
    pub picture: Option<Picture>,
    /// That boat, people and places are invented, when they are. Printed on the title page.
    pub invented: String,
}

/// One line of the summary.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct SummaryLine {
    /// What is said.
    pub words: String,
    /// The finding it comes from, to link to.
    pub finding: Option<u32>,
    /// The recommendation it comes from, to link to.
    pub recommendation: Option<u32>,
}

/// The page that a client reads. It is kept to one page: where the record says too much for it, long lines are cut
/// short with `…`, the last lines of a list are left out, and the page says where they are.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Summary {
    /// What the survey was for, in a sentence or two.
    pub purpose: Vec<String>,
    /// What was found, weightiest first.
    pub found: Vec<SummaryLine>,
    /// What it means for the use intended, in the surveyor's words.
    pub meaning: Vec<SummaryLine>,
    /// What to do first, most urgent first, each with its urgency in words.
    pub first: Vec<UrgentLine>,
    /// What was not seen, in a sentence or two.
    pub not_seen: Vec<String>,
    /// Money, in a sentence or two.
    pub money: Vec<String>,
}

/// One thing to do first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct UrgentLine {
    /// When, e.g. `before she floats`.
    pub when: String,
    /// What.
    pub words: String,
    /// The recommendation.
    pub recommendation: u32,
}

/// The surveyor's statement.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Statement {
    /// Paragraphs.
    pub words: Vec<Said>,
    /// Who signs.
    pub signed_by: Person,
    /// Place and date, as printed; may be empty.
    pub place_and_date: String,
}
