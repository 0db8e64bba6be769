//! Findings, and the four kinds of thing that can be said.

use serde::Serialize;

/// What kind of thing is said. The four read differently in print, by a word and by the setting, never by colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Seen, heard or measured by the surveyor.
    #[default]
    Fact,
    /// Somebody else's word.
    Hearsay,
    /// Reckoned or proposed by machine from the record.
    Inference,
    /// The surveyor's conclusion.
    Opinion,
}

/// Something said.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Said {
    /// What kind of thing it is.
    pub kind: Kind,
    /// Whose word it is, for hearsay: `The owner`, `A yard's bill of 1998`. May be empty otherwise.
    pub by: String,
    /// The words.
    pub words: String,
}

impl Said {
    /// Returns something seen, heard or measured by the surveyor.
    pub fn fact(words: impl Into<String>) -> Self {
        Self { kind: Kind::Fact, by: String::new(), words: words.into() }
    }

    /// Returns somebody else's word.
    pub fn hearsay(by: impl Into<String>, words: impl Into<String>) -> Self {
        Self { kind: Kind::Hearsay, by: by.into(), words: words.into() }
    }

    /// Returns what was reckoned from the record.
    pub fn inference(words: impl Into<String>) -> Self {
        Self { kind: Kind::Inference, by: String::new(), words: words.into() }
    }

    /// Returns the surveyor's conclusion.
    pub fn opinion(words: impl Into<String>) -> Self {
        Self { kind: Kind::Opinion, by: String::new(), words: words.into() }
    }
}

/// How a member's condition is drawn. The word beside it says the same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Bare: sound.
    #[default]
    Bare,
    /// Sparse hatch: watch.
    Sparse,
    /// Close hatch: work needed.
    Close,
    /// Solid: failed.
    Solid,
    /// Dashed outline: not seen.
    Dashed,
}

/// A photograph with all that a reader needs, whether they see it or not.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Picture {
    /// SHA-256 of the original file's bytes, in lower-case hexadecimal: the name by which its bytes are asked for.
    pub sha256: String,
    /// What it shows.
    pub caption: String,
    /// What it shows, for someone who cannot see it. A blank one is replaced by the caption when typeset.
    pub alternative: String,
    /// The observation it belongs to.
    pub observation: Option<u32>,
    /// Where on the boat it was taken; may be empty.
    pub place: String,
    /// When it was taken, as the camera says; may be empty.
    pub taken: String,
}

impl Picture {
    /// Returns a picture with its caption and its words for those who cannot see it.
    pub fn new(sha256: impl Into<String>, caption: impl Into<String>, alternative: impl Into<String>) -> Self {
        Self {
            sha256: sha256.into(),
            caption: caption.into(),
            alternative: alternative.into(),
            observation: None,
            place: String::new(),
            taken: String::new(),
        }
    }
}

/// One observation that a finding rests on, in a line.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct SeenLine {
    /// Its number in the list of observations.
    pub observation: u32,
    /// Place, as the trade says it.
    pub place: String,
    /// What was found, and by what method.
    pub said: Said,
}

/// Another explanation that was considered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Alternative {
    /// The explanation.
    pub what: String,
    /// Why it is thought less likely.
    pub against: String,
}

/// A conclusion about a member, with what it rests on.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// Number, from 1, unique in the report.
    pub number: u32,
    /// Short heading.
    pub title: String,
    /// Member and place.
    pub place: String,
    /// How the condition is drawn.
    pub mark: Mark,
    /// The condition in a word or two.
    pub condition: String,
    /// Whether it bears on safety.
    pub serious: bool,
    /// Observations it rests on.
    pub seen: Vec<SeenLine>,
    /// Reckonings it rests on, by number.
    pub reckonings: Vec<u32>,
    /// What the machine proposed from the record, when that is to be shown.
    pub proposed: Vec<Said>,
    /// The conclusion in the surveyor's words.
    pub opinion: String,
    /// How sure, in words; may be empty.
    pub sure: String,
    /// Extent, cause, meaning: labelled opinions.
    pub more: Vec<super::Row>,
    /// Other explanations considered.
    pub alternatives: Vec<Alternative>,
    /// Recommendations that answer it, by number.
    pub recommendations: Vec<u32>,
    /// Pictures.
    pub pictures: Vec<Picture>,
}

/// A part of the boat with its findings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Part {
    /// Its name, e.g. `Planking`.
    pub title: String,
    /// Findings, in order.
    pub findings: Vec<Finding>,
    /// Members of the part seen with nothing found against them, and by what means. May be empty.
    pub seen_only: Vec<super::Row>,
}
