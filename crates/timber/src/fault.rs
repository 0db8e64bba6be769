//! Why the room refuses an input, in one sentence, and the checks that several computations share.

use crate::species::UnknownSpecies;

/// What was wrong with an input. Fields are named as everywhere (`width_mm`), so that a caller can point at its own.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Fault {
    /// The caller gave a number that cannot be meant.
    #[error("{field} {value}: {why}; accepted is {accepted}.")]
    Value {
        /// Name of the quantity with its unit.
        field: &'static str,
        /// What was given.
        value: f64,
        /// What is wrong with it.
        why: String,
        /// What is accepted.
        accepted: String,
    },
    /// The caller named a wood that is not in the table.
    #[error(transparent)]
    Unknown(#[from] UnknownSpecies),
    /// The caller asked for something that no source known here gives for that wood.
    #[error("No {what} is known here for {species}, so this cannot be reckoned.")]
    NotKnown {
        /// Common name of the wood.
        species: &'static str,
        /// What is missing.
        what: &'static str,
    },
    /// The caller gave a table that cannot be read.
    #[error("line {line}: {why}; accepted is a CSV file {accepted}.")]
    Table {
        /// Line of the text, from 1.
        line: usize,
        /// What is wrong with it.
        why: String,
        /// What is accepted.
        accepted: &'static str,
    },
}

/// Refuses a number outside a range or not a number.
pub(crate) fn within(field: &'static str, value: f64, least: f64, greatest: f64, unit: &str) -> Result<f64, Fault> {
    if value.is_finite() && (least..=greatest).contains(&value) {
        return Ok(value);
    }
    let why = if value.is_finite() { "this is out of range" } else { "this is not a number" };
    let accepted = format!("{least} to {greatest} {unit}");
    Err(Fault::Value { field, value, why: why.to_owned(), accepted: accepted.trim_end().to_owned() })
}

/// Refuses a moisture content that cannot be a percentage of oven-dry mass: above 250, or between 0 and 1, which
/// reads as a fraction (0.12 for 12 %).
pub(crate) fn moisture(field: &'static str, percent: f64) -> Result<f64, Fault> {
    let fault = |why: &str| Fault::Value {
        field,
        value: percent,
        why: why.to_owned(),
        accepted: "0, or 1 to 250, in per cent of oven-dry mass (write 12 for 12 %)".to_owned(),
    };
    match percent {
        p if !p.is_finite() => Err(fault("this is not a number")),
        p if p < 0.0 => Err(fault("wood cannot hold less than no water")),
        p if p > 0.0 && p < 1.0 => Err(fault("this reads as a fraction, not a percentage")),
        p if p > 250.0 => Err(fault("no wood holds so much water")),
        p => Ok(p),
    }
}

/// Refuses a relative humidity outside 0 to 100 %, or one that reads as a fraction (0.65 for 65 %).
pub(crate) fn humidity(field: &'static str, percent: f64) -> Result<f64, Fault> {
    let fault = |why: &str| Fault::Value {
        field,
        value: percent,
        why: why.to_owned(),
        accepted: "0, or 1 to 100, in per cent (write 65 for 65 %)".to_owned(),
    };
    match percent {
        p if !p.is_finite() => Err(fault("this is not a number")),
        p if p > 0.0 && p < 1.0 => Err(fault("this reads as a fraction, not a percentage")),
        p if !(0.0..=100.0).contains(&p) => Err(fault("relative humidity lies between 0 and 100 %")),
        p => Ok(p),
    }
}

/// Refuses a plank whose thickness exceeds its width: the two have most likely changed places.
pub(crate) fn plank_section(thickness_mm: f64, width_mm: f64) -> Result<(), Fault> {
    if thickness_mm <= width_mm {
        return Ok(());
    }
    Err(Fault::Value {
        field: "thickness_mm",
        value: thickness_mm,
        why: "a plank is not thicker than it is wide, so the two may have changed places".to_owned(),
        accepted: format!("at most the width, {width_mm} mm"),
    })
}
