//! The language in which a survey is written, and what the trade's words are in it.
//!
//! A further language is a tag here and a table of members beside the catalogue.

use crate::payload::Construction;
use crate::{CatalogueMember, State};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::OnceLock;

/// A language by its tag (BCP 47, RFC 5646).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Language {
    /// English with British terms.
    #[default]
    #[serde(rename = "en-GB")]
    British,
    /// English with American terms.
    #[serde(rename = "en-US")]
    American,
}

const AMERICAN: &str = include_str!("../data/members.en-US.csv");

impl Language {
    /// All of them, in the order in which a form offers them.
    pub const ALL: &[Language] = &[Language::British, Language::American];

    /// Returns the tag.
    pub fn tag(self) -> &'static str {
        match self {
            Language::British => "en-GB",
            Language::American => "en-US",
        }
    }

    /// Returns the language that suits a device's own, by the device's tag: American terms for `en-US` and for the
    /// Philippines, Puerto Rico and Liberia, whose English follows it (from memory), else British ones.
    pub fn suiting(tag: &str) -> Language {
        let region = tag.split(['-', '_']).skip(1).find(|part| part.len() == 2).unwrap_or("");
        let american = ["US", "PR", "PH", "LR"].iter().any(|american| region.eq_ignore_ascii_case(american));
        if american { Language::American } else { Language::British }
    }
}

impl fmt::Display for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Language::British => "English, British terms",
            Language::American => "English, American terms",
        })
    }
}

/// Returns the language of a survey, as its brief settles it.
pub fn language_of(state: &State) -> Language {
    state.brief().and_then(|view| view.payload.language).unwrap_or_default()
}

impl CatalogueMember {
    /// Returns what it is called in a language.
    pub fn called(&self, language: Language) -> &str {
        match language {
            Language::British => &self.name,
            Language::American => american().get(self.id.as_str()).copied().unwrap_or(&self.name),
        }
    }
}

impl Construction {
    /// Returns what it is called in a language.
    pub fn called(self, language: Language) -> String {
        match (language, self) {
            (Language::American, Construction::Clinker) => "lapstrake".to_owned(),
            (Language::American, Construction::ColdMoulded) => "cold-molded".to_owned(),
            _ => self.to_string(),
        }
    }
}

fn american() -> &'static BTreeMap<&'static str, &'static str> {
    static NAMES: OnceLock<BTreeMap<&str, &str>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let rows = AMERICAN.lines().filter(|line| !line.starts_with('#')).skip(1);
        rows.filter_map(|row| row.split_once(',')).collect()
    })
}
