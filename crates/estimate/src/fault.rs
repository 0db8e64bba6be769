//! Why an estimate or a value could not be reckoned.

/// Why an estimate or a value could not be reckoned: what was wrong, where, and what is accepted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// A table lacks a column.
    #[error("the table has no column {column}; accepted is a CSV with the columns {accepted}")]
    Column {
        /// Column missing.
        column: String,
        /// Columns there should be.
        accepted: String,
    },
    /// A cell cannot be read.
    #[error("row {row}, column {column}: {given} is not {accepted}")]
    Cell {
        /// Row, counted from 1 below the head.
        row: usize,
        /// Column.
        column: String,
        /// What stands there.
        given: String,
        /// What is accepted.
        accepted: String,
    },
    /// The table cannot be read at all.
    #[error("the table cannot be read: {0}")]
    Table(String),
    /// Low, likely and high are not in order.
    #[error("{name}: low {low}, likely {likely}, high {high} are not in order; accepted is 0 <= low <= likely <= high")]
    Order {
        /// Line or rate.
        name: String,
        /// Low.
        low: f64,
        /// Likely.
        likely: f64,
        /// High.
        high: f64,
    },
    /// A figure is out of range.
    #[error("{name} of {given} makes no sense; accepted is {accepted}")]
    Range {
        /// What it is.
        name: String,
        /// What was given.
        given: f64,
        /// What is accepted.
        accepted: String,
    },
    /// There is nothing to reckon with.
    #[error("there is nothing to reckon with: {0}")]
    Nothing(String),
}
