//! What is left of a springing force after years.

use crate::Fault;

/// The share of the first force that is left, as a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Relaxed {
    /// Least share left.
    pub low: f64,
    /// Greatest share left.
    pub high: f64,
    /// Why, in a sentence.
    pub sentence: &'static str,
}

/// Returns the share of the first springing force left after `years`.
///
/// New: 1. In the first year anything from 1 down to 0.33. After that 0.33 to 0.7: the low end is Eurocode 5's long
/// term stiffness of wet timber, 1/(1 + k_def) with k_def = 2 (from memory); the high end the 60 to 70 % left after
/// some months of a constant bend (Wood Handbook ch. 5; the number from memory). The step at a year is ours.
///
/// # Errors
/// When the years are out of range.
pub fn relaxed(years: f64) -> Result<Relaxed, Fault> {
    let years = Fault::between("years", years, 0.0, 300.0)?;
    Ok(if years == 0.0 {
        Relaxed { low: 1.0, high: 1.0, sentence: "New: the whole springing force acts." }
    } else if years < 1.0 {
        Relaxed {
            low: 0.33,
            high: 1.0,
            sentence: "In the first year the force falls at a rate that is not known for a wet plank: the whole range is shown.",
        }
    } else {
        Relaxed {
            low: 0.33,
            high: 0.7,
            sentence: "After a year or more a third to seven tenths of the first force is left (both ends from memory of \
                       EN 1995-1-1 and the Wood Handbook, unconfirmed).",
        }
    })
}
