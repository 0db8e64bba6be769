//! Estimate and value.

use super::{Plan, Row, Table};
use serde::Serialize;

/// One line of the estimate. Figures are written out with their currency.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct EstimateLine {
    /// What for.
    pub item: String,
    /// How much of it, with unit; may be empty.
    pub quantity: String,
    /// Least.
    pub low: String,
    /// Most likely.
    pub likely: String,
    /// Most.
    pub high: String,
    /// The recommendation it belongs to.
    pub recommendation: Option<u32>,
    /// Chance that it is needed, whose rates: small print of the line; may be empty.
    pub note: String,
}

/// What the work may cost.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Estimate {
    /// Currency in words or by its code.
    pub currency: String,
    /// Lines.
    pub lines: Vec<EstimateLine>,
    /// The whole, labelled (`Nine chances in ten that it costs less than …`).
    pub totals: Vec<Row>,
    /// The spread of the whole, and what it comes with.
    pub drawn: Option<Plan>,
    /// What it rests on and what it leaves out, in sentences.
    pub notes: Vec<String>,
}

/// The surveyor's opinion of value.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Value {
    /// Definition, date, range: labelled lines.
    pub rows: Vec<Row>,
    /// How it was come by, in the surveyor's words.
    pub reasoning: String,
    /// The boats compared, the repairs and the opinion side by side.
    pub drawn: Option<Plan>,
    /// What follows from the boats compared and the repairs by arithmetic alone, in sentences.
    pub notes: Vec<String>,
    /// Boats compared with.
    pub comparables: Vec<Table>,
}
