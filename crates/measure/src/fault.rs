//! What is wrong with a text, and where.

/// Why a text cannot be read as a quantity, and where the fault is.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("at character {at}: {why}")]
pub struct Fault {
    /// Character at which the fault is, counted from 1; one past the end when something is missing there.
    pub at: usize,
    /// What is wrong, and what is accepted.
    pub why: String,
}

impl Fault {
    pub(crate) fn new(at: usize, why: impl Into<String>) -> Self {
        Self { at, why: why.into() }
    }

    /// Returns the fault as counted in a longer text, of which the text read was the part after `skipped` characters.
    pub(crate) fn moved(mut self, skipped: usize) -> Self {
        self.at += skipped;
        self
    }
}
