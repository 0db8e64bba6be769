//! Estimate and value.

use super::{empty, far_day, far_year};
use crate::EntryId;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// A line of the repair estimate. The three figures are for the whole line, in its currency.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EstimateLine {
    /// What it is for.
    pub item: String,
    /// The recommendation it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recommendation: Option<EntryId>,
    /// The trade that does it; lines of one trade share their rate.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub trade: String,
    /// How much.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quantity: Option<f64>,
    /// Unit of the quantity.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub unit: String,
    /// The least it may cost.
    pub low: f64,
    /// What it will most likely cost.
    pub likely: f64,
    /// The most it may cost.
    pub high: f64,
    /// Currency, e.g. `EUR`.
    pub currency: String,
    /// Whose rates, and of when.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub rates_from: String,
    /// Chance that it is needed at all, in percent; certain when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chance_percent: Option<f64>,
}

impl EstimateLine {
    pub(super) fn impossible(&self) -> Option<String> {
        let (low, likely, high) = (self.low, self.likely, self.high);
        if !(low.is_finite() && high.is_finite() && 0.0 <= low && low <= likely && likely <= high) {
            return Some(format!("low {low}, likely {likely} and high {high} must be numbers from 0 in rising order"));
        }
        if self.chance_percent.is_some_and(|c| !(0.0..=100.0).contains(&c)) {
            return Some("`chance_percent` is out of range; accepted is 0 to 100 %".to_owned());
        }
        empty("item", &self.item).or_else(|| empty("currency", &self.currency))
    }
}

/// A step from a comparable's price to this boat's.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Adjustment {
    /// What for.
    pub what: String,
    /// How much is added to (or, negative, taken from) the price.
    pub amount: f64,
}

/// A sale or offer to compare with.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Comparable {
    /// The boat, in words.
    pub title: String,
    /// The price.
    pub price: f64,
    /// Currency, e.g. `EUR`.
    pub currency: String,
    /// Whether it was sold at that price (or only asked).
    pub sold: bool,
    /// When.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// Her length, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<f64>,
    /// Her year.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub built_year: Option<i32>,
    /// Where the price is from.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
    /// The steps to this boat, each with its reason.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub adjustments: Vec<Adjustment>,
}

impl Comparable {
    pub(super) fn impossible(&self) -> Option<String> {
        if !(self.price.is_finite() && self.price >= 0.0) {
            return Some("`price` is not a number from 0".to_owned());
        }
        if self.adjustments.iter().any(|a| !a.amount.is_finite()) {
            return Some("the amount of an adjustment is not a number".to_owned());
        }
        empty("title", &self.title)
            .or_else(|| empty("currency", &self.currency))
            .or_else(|| far_day("date", self.date))
            .or_else(|| far_year("built_year", self.built_year))
    }
}

/// The surveyor's opinion of value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OpinionOfValue {
    /// What is meant by value.
    pub definition: String,
    /// On what day.
    pub date: Date,
    /// Low end.
    pub low: f64,
    /// Middle.
    pub middle: f64,
    /// High end.
    pub high: f64,
    /// Currency, e.g. `EUR`.
    pub currency: String,
    /// How it was come by, and why other approaches are left out.
    pub reasoning: String,
}

impl OpinionOfValue {
    pub(super) fn impossible(&self) -> Option<String> {
        let (low, middle, high) = (self.low, self.middle, self.high);
        if !(low.is_finite() && high.is_finite() && low <= middle && middle <= high) {
            return Some(format!("low {low}, middle {middle} and high {high} must be numbers in rising order"));
        }
        empty("definition", &self.definition)
            .or_else(|| empty("currency", &self.currency))
            .or_else(|| empty("reasoning", &self.reasoning))
            .or_else(|| far_day("date", Some(self.date)))
    }
}
