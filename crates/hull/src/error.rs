//! What can be wrong with what was asked of this room.

/// Why a hull, a place on it or a reckoning about it cannot be had: one sentence for a person.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HullError {
    /// A count or measure makes no sense.
    #[error("{what} is {value}; accepted is {accepted}.")]
    Value {
        /// What was given.
        what: String,
        /// Its value as given.
        value: String,
        /// What is accepted.
        accepted: String,
    },
    /// A table of offsets cannot be read at a place.
    #[error("Line {line}, {place}: {why}.")]
    Table {
        /// Line of the text, counted from 1; 0 where no line can be named.
        line: usize,
        /// Station and line of the boat, as the table names them.
        place: String,
        /// What is wrong and what is accepted.
        why: String,
    },
    /// A table of offsets lacks something that it cannot do without.
    #[error("The table of offsets {0}.")]
    Missing(String),
    /// A place lies off the hull, or names more than one spot.
    #[error("{place}: {why}.")]
    Place {
        /// The place as given.
        place: String,
        /// Why it cannot be found.
        why: String,
    },
}

impl HullError {
    /// Returns the refusal of a value.
    pub fn value(what: impl Into<String>, value: impl ToString, accepted: impl Into<String>) -> Self {
        HullError::Value { what: what.into(), value: value.to_string(), accepted: accepted.into() }
    }
}
