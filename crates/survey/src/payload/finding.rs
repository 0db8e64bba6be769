//! Conclusions and what follows from them.

use super::seen::member_name;
use super::way::{self, Way};
use super::{empty, far_day};
use crate::reading::words;
use crate::{EntryId, Place, SurveyId};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::fmt;

words!(
    /// How a member stands, as a drawing shows it by hatching.
    Condition {
        /// Nothing against it was found.
        Sound => "sound",
        /// To be watched.
        Watch => "watch",
        /// Work is needed.
        WorkNeeded => "work needed",
        /// It has failed.
        Failed => "failed",
    }
);

words!(
    /// What is probably the matter with a plank or timber.
    LikelyState {
        /// Nothing.
        Sound => "sound",
        /// Checks at the surface only.
        SurfaceChecks => "surface checks",
        /// Loose on its fastenings or off its frame.
        Loose => "loose",
        /// Decayed.
        Decayed => "decayed",
        /// Degraded by corroding iron.
        IronSick => "iron-sick",
        /// Attacked by borers.
        Borer => "borers",
        /// Repaired before.
        RepairedBefore => "repaired before",
    }
);

words!(
    /// How sure a conclusion is. The words and their ranges of probability are those of the IPCC's Fourth
    /// Assessment Report (2007), Working Group II, front matter.
    Sureness {
        /// Above 99 %.
        VirtuallyCertain => "virtually certain",
        /// 90 to 99 %.
        VeryLikely => "very likely",
        /// 66 to 90 %.
        Likely => "likely",
        /// 33 to 66 %.
        AboutAsLikelyAsNot => "about as likely as not",
        /// 10 to 33 %.
        Unlikely => "unlikely",
    }
);

words!(
    /// When a thing must be done.
    Urgency {
        /// Before she floats.
        BeforeSheFloats => "before she floats",
        /// Before she is used.
        BeforeSheIsUsed => "before she is used",
        /// Before she goes to the waters intended.
        BeforeTheIntendedWaters => "before the intended waters",
        /// At the next haul-out, no later than a date.
        AtTheNextHaulOut => "at the next haul-out",
        /// Measure again on a date.
        Watch => "watch",
        /// For long life; no danger now.
        ForLongLife => "for long life",
        /// Open, draw or test.
        FindOut => "find out",
    }
);

/// Another explanation that was considered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Alternative {
    /// The explanation.
    pub what: String,
    /// Why it is thought less likely.
    pub against: String,
}

/// The surveyor's conclusion about a member.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// A short heading.
    pub title: String,
    /// The member.
    pub member: String,
    /// Where.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<Place>,
    /// How it stands.
    pub condition: Condition,
    /// What is probably the matter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub likely_state: Option<LikelyState>,
    /// The conclusion in the surveyor's words.
    pub text: String,
    /// How far it goes.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub extent: String,
    /// The likely cause.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cause: String,
    /// Other explanations considered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub alternatives: Vec<Alternative>,
    /// The entries it rests on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub basis: Vec<EntryId>,
    /// How sure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sure: Option<Sureness>,
    /// What it means for the use intended.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub meaning: String,
    /// Whether it bears on the safety of the boat or those aboard.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub serious: bool,
}

impl Finding {
    pub(super) fn impossible(&self) -> Option<String> {
        empty("title", &self.title)
            .or_else(|| empty("text", &self.text))
            .or_else(|| member_name("member", &self.member))
            .or_else(|| self.places.iter().find_map(Place::fault))
    }
}

/// What should be done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Recommendation {
    /// A short heading.
    pub title: String,
    /// The findings it answers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub findings: Vec<EntryId>,
    /// What is to be done, where and how far.
    pub action: String,
    /// Why.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
    /// When.
    pub urgency: Urgency,
    /// No later than this day, or the day to measure again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Date>,
    /// Who must do or check it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub who: String,
    /// How it is shown to be done.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub proof: String,
    /// Rival ways of doing it, to be weighed against one another.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ways: Vec<Way>,
    /// The recommendation of an earlier survey that this one carries on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carried_from: Option<CarriedFrom>,
}

/// Where a recommendation was first made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarriedFrom {
    /// The earlier survey.
    pub survey: SurveyId,
    /// The recommendation in it.
    pub recommendation: EntryId,
    /// The headings of the findings that it answered there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub findings: Vec<String>,
}

impl Recommendation {
    pub(super) fn impossible(&self) -> Option<String> {
        if matches!(self.urgency, Urgency::Watch) && self.by.is_none() {
            return Some("`watch` needs the day to measure again in `by`".to_owned());
        }
        empty("title", &self.title)
            .or_else(|| empty("action", &self.action))
            .or_else(|| far_day("by", self.by))
            .or_else(|| way::fault(&self.ways))
    }
}
