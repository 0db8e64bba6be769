//! Kinds that are written before and round the walk: brief, vessel, hull form, conditions, instrument.

use super::{below_zero, empty, far_day, far_year};
use crate::reading::words;
use crate::{Language, SurveyId};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;

/// What the survey is for, for whom, and on what terms.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Brief {
    /// Purpose: pre-purchase, insurance, damage, pre-repair, post-repair, valuation only, …
    pub purpose: String,
    /// Who engages the surveyor.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub client: String,
    /// Who may read and rely on the report.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub addressees: Vec<String>,
    /// Who gave the instructions, when not the client.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instructions_from: Option<String>,
    /// The surveyor, as signed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub surveyor: String,
    /// The surveyor's qualification, as the surveyor states it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub qualification: Option<String>,
    /// What is to be done.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub scope: String,
    /// What is not to be done.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub excluded: Vec<String>,
    /// What access is agreed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub access_agreed: String,
    /// What may be opened, bored or drawn, and who agreed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub opening_agreed: String,
    /// The use she is wanted for.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub intended_use: String,
    /// The waters she is going to.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub intended_waters: String,
    /// Whether an opinion of value is asked for.
    pub value_asked: bool,
    /// Terms accepted, when and how.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub terms: Option<String>,
    /// Interests that the surveyor discloses; `none` when none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub interests: Option<String>,
    /// That boat, people and places are invented, when they are.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub invented: Option<String>,
    /// The language it is written in, which settles what members are called; British terms where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// The survey of the same boat that this one follows.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<SurveyId>,
}

impl Brief {
    pub(super) fn impossible(&self) -> Option<String> {
        empty("purpose", &self.purpose)
    }
}

words!(
    /// How the shell is built.
    Construction {
        /// Planks edge to edge, caulked.
        Carvel => "carvel",
        /// Planks lapped at the lands.
        Clinker => "clinker",
        /// Narrow strips, edge nailed or glued.
        Strip => "strip",
        /// Veneers laid up over a mould.
        ColdMoulded => "cold-moulded",
        /// Plywood panels.
        Plywood => "plywood",
    }
);

/// The boat's particulars.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Vessel {
    /// Her name.
    pub name: String,
    /// Type: `double-ended estuary fishing boat`, …
    #[serde(skip_serializing_if = "String::is_empty")]
    pub vessel_type: String,
    /// How the shell is built.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub construction: Option<Construction>,
    /// Year built, as far as known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub built_year: Option<i32>,
    /// Builder and place, as far as known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub builder: Option<String>,
    /// Official, sail or hull numbers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub numbers: Vec<String>,
    /// Length over all, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<f64>,
    /// Length on the waterline, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub waterline_length_mm: Option<f64>,
    /// Beam, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub beam_mm: Option<f64>,
    /// Draft, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub draft_mm: Option<f64>,
    /// How the dimensions were had: measured, from papers, …
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dimensions_from: Option<String>,
    /// Displacement, in kilograms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub displacement_kg: Option<f64>,
    /// Timber of the planking.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub planking_species: Option<String>,
    /// Plank thickness, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub planking_thickness_mm: Option<f64>,
    /// Timber of the frames.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frame_species: Option<String>,
    /// Timber of the backbone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub backbone_species: Option<String>,
    /// Plank fastenings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plank_fastening: Option<String>,
    /// Keel bolts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub keel_bolts: Option<String>,
    /// Rig.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rig: Option<String>,
    /// Engine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub engine: Option<String>,
    /// Stern: `double-ended`, `transom`, `counter`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stern: Option<String>,
    /// Her own count of members, by member of the catalogue: `frame-steamed` 34, `keel-bolt` 9, …
    /// Strakes a side are counted under `strakes`.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub counts: BTreeMap<String, u32>,
    /// Her history as far as known, one line each, in free words. New surveys say whose word it is in `accounts`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub history: Vec<String>,
    /// Her history as far as known, each with whose word it is.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub accounts: Vec<Account>,
}

/// A piece of her history, and whose word it is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Account {
    /// Whose word: `the owner`, `a yard's bill of 1998`; empty when it is not known.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub who: String,
    /// When it was, in words: `1954`, `about 1971`.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub when: String,
    /// What is said.
    pub said: String,
}

impl Account {
    fn fault(&self) -> Option<String> {
        empty("accounts.said", &self.said)
    }

    /// Reads a line of free words: `the owner: laid up for years` is the owner's word, `1954: built` is a time and
    /// nobody's word in particular. A time is taken to be one by its figures.
    fn of_line(line: &str) -> Account {
        let line = line.trim();
        match line.split_once(": ") {
            Some((head, said)) if head.chars().count() <= 60 && !said.trim().is_empty() => {
                let (head, said) = (head.trim().to_owned(), said.trim().to_owned());
                match is_time(&head) {
                    true => Account { when: head, said, ..Account::default() },
                    false => Account { who: head, said, ..Account::default() },
                }
            }
            _ => Account { said: line.to_owned(), ..Account::default() },
        }
    }
}

/// Tells whether words before a colon are a time: they have a year or day in figures, and nothing beside it but words
/// that go with one.
fn is_time(head: &str) -> bool {
    const BESIDE: [&str; 34] = [
        "about",
        "around",
        "before",
        "after",
        "since",
        "until",
        "till",
        "from",
        "to",
        "and",
        "in",
        "by",
        "early",
        "late",
        "the",
        "circa",
        "c",
        "ca",
        "spring",
        "summer",
        "autumn",
        "winter",
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let lower = head.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).peekable();
    let figures =
        |w: &str| w.trim_end_matches('s').bytes().all(|b| b.is_ascii_digit()) && w.len() > 1 || w.parse::<u8>().is_ok();
    lower.bytes().any(|b| b.is_ascii_digit()) && words.all(|w| figures(w) || BESIDE.contains(&w))
}

impl Vessel {
    /// Returns her history, each piece with whose word it is: the lines in free words first, then the accounts.
    pub fn told(&self) -> Vec<Account> {
        let lines = self.history.iter().filter(|line| !line.trim().is_empty()).map(|line| Account::of_line(line));
        lines.chain(self.accounts.iter().cloned()).collect()
    }

    pub(super) fn impossible(&self) -> Option<String> {
        empty("name", &self.name)
            .or_else(|| below_zero("length_mm", self.length_mm))
            .or_else(|| below_zero("waterline_length_mm", self.waterline_length_mm))
            .or_else(|| below_zero("beam_mm", self.beam_mm))
            .or_else(|| below_zero("draft_mm", self.draft_mm))
            .or_else(|| below_zero("displacement_kg", self.displacement_kg))
            .or_else(|| below_zero("planking_thickness_mm", self.planking_thickness_mm))
            .or_else(|| far_year("built_year", self.built_year))
            .or_else(|| self.accounts.iter().find_map(Account::fault))
            .or_else(|| match (self.beam_mm, self.length_mm) {
                (Some(beam), Some(length)) if beam > length => {
                    Some(format!("`beam_mm` ({beam}) is greater than `length_mm` ({length})"))
                }
                _ => None,
            })
    }
}

/// Her shape, as far as known: a table of offsets, or what can be measured in an hour.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct HullForm {
    /// Table of offsets, as its text.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offsets: Option<String>,
    /// Strakes a side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strakes: Option<u32>,
    /// Frames, counted from the stem.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frames: Option<u32>,
    /// Spacing of the frames, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frame_spacing_mm: Option<f64>,
    /// Distance of frame 1 from the fore side of the stem, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first_frame_mm: Option<f64>,
    /// Girths from keel to sheer: distance from the stem and girth, both in millimetres.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub girths_mm: Vec<(f64, f64)>,
    /// Freeboard at stem, midships and stern, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub freeboards_mm: Option<(f64, f64, f64)>,
    /// How it was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
}

impl HullForm {
    pub(super) fn impossible(&self) -> Option<String> {
        if self.strakes == Some(0) || self.frames == Some(0) {
            return Some("strakes and frames are counted from 1".to_owned());
        }
        if self.girths_mm.iter().any(|(x, g)| !x.is_finite() || !g.is_finite() || *g <= 0.0) {
            return Some("a girth is not a number above 0".to_owned());
        }
        below_zero("frame_spacing_mm", self.frame_spacing_mm)
            .or_else(|| below_zero("first_frame_mm", self.first_frame_mm))
    }
}

/// The conditions on a day of the survey.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Conditions {
    /// The day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// Where she lies.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// Whether she is afloat.
    pub afloat: bool,
    /// Since when she has been ashore.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ashore_since: Option<Date>,
    /// Weather and light, in words.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub weather: String,
    /// Air temperature, in °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub temp_c: Option<f64>,
    /// Relative humidity, in percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rh_percent: Option<f64>,
    /// From when to when, e.g. `09:00 to 16:30`.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub hours: String,
    /// Who was there.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub present: Vec<String>,
    /// How she lay, was cleaned, lit and opened; what stood in the way.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub access: String,
}

impl Conditions {
    pub(super) fn impossible(&self) -> Option<String> {
        if self.rh_percent.is_some_and(|rh| !(0.0..=100.0).contains(&rh)) {
            return Some("`rh_percent` is out of range; accepted is 0 to 100 %".to_owned());
        }
        if self.temp_c.is_some_and(|t| !(-60.0..=60.0).contains(&t)) {
            return Some("`temp_c` is out of range; accepted is -60 to 60 °C".to_owned());
        }
        far_day("date", self.date).or_else(|| far_day("ashore_since", self.ashore_since)).or_else(|| {
            match (self.ashore_since, self.date) {
                (Some(since), Some(date)) if since > date => {
                    Some(format!("`ashore_since` ({since}) comes after the day itself ({date})"))
                }
                _ => None,
            }
        })
    }
}

/// An instrument used.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Instrument {
    /// What it is: `resistance moisture meter, pins of 10 mm`, …
    pub name: String,
    /// Its number, when it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub serial: Option<String>,
    /// How it was set.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setting: Option<String>,
    /// When it was last checked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub checked: Option<Date>,
    /// Against what, and how it did.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub check: Option<String>,
}

impl Instrument {
    pub(super) fn impossible(&self) -> Option<String> {
        empty("name", &self.name).or_else(|| far_day("checked", self.checked))
    }
}
