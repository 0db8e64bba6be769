//! Why the room refuses an input, in one sentence.

/// What was wrong with an input.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// The caller gave a number that cannot be meant.
    #[error("{field} {value}: this is out of range; accepted is {accepted}.")]
    Value {
        /// Name of the quantity with its unit.
        field: &'static str,
        /// What was given.
        value: f64,
        /// What is accepted.
        accepted: &'static str,
    },
    /// The caller gave a table of months that cannot be read.
    #[error("line {line}: {why}; accepted is a CSV file {accepted}.")]
    Table {
        /// Line of the text, from 1.
        line: usize,
        /// What is wrong with it.
        why: String,
        /// What is accepted.
        accepted: &'static str,
    },
    /// The caller named a sea area that is not built in, or that is not one only.
    #[error("'{name}' is not one of the built-in sea areas; the nearest are {}. A monthly series of your own is taken too.", .nearest.join("; "))]
    UnknownArea {
        /// What was asked for, shortened.
        name: String,
        /// Names nearest to it.
        nearest: Vec<&'static str>,
    },
}
