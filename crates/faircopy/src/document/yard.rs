//! What a yard prices from: the work, place by place.

use super::{Row, Table};
use serde::Serialize;

/// The work to be done, by part of the boat, member and place, with quantities and costs as figures.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct YardList {
    /// The boat, the days, the standing of the report: labelled lines for the first page.
    pub about: Vec<Row>,
    /// The work, a row each.
    pub rows: Vec<YardRow>,
    /// The whole, a line for each currency.
    pub totals: Vec<YardTotal>,
    /// Rival ways of doing the work, where they were weighed: by recommendation.
    pub ways: Vec<(u32, String, Table)>,
    /// What the figures rest on and leave out, in sentences.
    pub notes: Vec<String>,
}

/// What a place measures on the shell laid flat.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Drawn {
    /// Length along its middle, in metres, all strakes of it together.
    pub length_m: f64,
    /// Area of one face, in square metres.
    pub area_m2: f64,
    /// Frames that it crosses, all strakes of it together.
    pub crossings: u32,
}

/// One piece of work.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct YardRow {
    /// Part of the boat.
    pub part: String,
    /// Member.
    pub member: String,
    /// Where on it.
    pub place: String,
    /// Drawings on which it is shown, by number and caption.
    pub drawings: String,
    /// What its places measure on the drawing; none where she is not drawn to measure.
    pub drawn: Option<Drawn>,
    /// Number of the recommendation.
    pub recommendation: Option<u32>,
    /// Findings it answers, by number.
    pub findings: Vec<u32>,
    /// What the work is called.
    pub work: String,
    /// What is to be done, where and how far.
    pub action: String,
    /// When it must be done, in words.
    pub urgency: String,
    /// No later than this day, as `2027-05-01`; may be empty.
    pub by: String,
    /// Who must do or check it.
    pub who: String,
    /// How it is shown to be done.
    pub proof: String,
    /// What is to be priced; empty where the estimate has no line for the work.
    pub item: String,
    /// Trade.
    pub trade: String,
    /// How much.
    pub quantity: Option<f64>,
    /// Unit of the quantity.
    pub unit: String,
    /// The least it may cost.
    pub low: Option<f64>,
    /// What it will most likely cost.
    pub likely: Option<f64>,
    /// The most it may cost.
    pub high: Option<f64>,
    /// Currency.
    pub currency: String,
    /// Chance that it is needed at all, in percent; certain when left out.
    pub chance_percent: Option<f64>,
    /// Whose rates, and of when.
    pub rates_from: String,
}

/// The whole in one currency.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct YardTotal {
    /// Currency.
    pub currency: String,
    /// One chance in ten that all costs less.
    pub p10: f64,
    /// As likely more as less.
    pub p50: f64,
    /// One chance in ten that all costs more.
    pub p90: f64,
}
