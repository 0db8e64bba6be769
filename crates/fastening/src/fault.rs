//! Why a reckoning was refused.

/// What the caller gave that cannot be meant, in one sentence.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// One figure is wrong in itself or against another: the caller asks again for that figure.
    #[error("{name} {value}: {why}; accepted is {accepted}.")]
    Value {
        /// Name of the figure with its unit, e.g. `measured_diameter_mm`.
        name: &'static str,
        /// What was given.
        value: f64,
        /// What is wrong.
        why: String,
        /// What is accepted.
        accepted: String,
    },
    /// A list or text cannot be read: the caller asks again for it.
    #[error("{name} '{text}': {why}; accepted is {accepted}.")]
    Text {
        /// Name of the input.
        name: &'static str,
        /// What was given, shortened.
        text: String,
        /// What is wrong.
        why: String,
        /// What is accepted.
        accepted: String,
    },
    /// The figures are each well formed but have no meaningful answer together.
    #[error("{0}")]
    Meaningless(String),
}

impl Fault {
    /// Returns the refusal of one figure.
    pub fn value(name: &'static str, value: f64, why: impl Into<String>, accepted: impl Into<String>) -> Self {
        Fault::Value { name, value, why: why.into(), accepted: accepted.into() }
    }

    /// Returns the refusal of a text.
    pub fn text(name: &'static str, text: &str, why: impl Into<String>, accepted: impl Into<String>) -> Self {
        let text = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(60).collect();
        Fault::Text { name, text, why: why.into(), accepted: accepted.into() }
    }

    /// Returns the figure when it is finite and greater than zero.
    pub(crate) fn positive(name: &'static str, value: f64) -> Result<f64, Fault> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(Fault::value(name, value, "this must be more than nothing", "a number greater than 0"))
        }
    }

    /// Returns the figure when it lies between two ends, both included.
    pub(crate) fn between(name: &'static str, value: f64, least: f64, greatest: f64) -> Result<f64, Fault> {
        if value.is_finite() && value >= least && value <= greatest {
            Ok(value)
        } else {
            Err(Fault::value(name, value, "this is out of range", format!("a number from {least} to {greatest}")))
        }
    }
}
