//! The cost approach.

use crate::Fault;

/// Replacement less physical wear, functional and economic loss. Sets a ceiling; poor for old wood (common practice).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CostApproach {
    /// What a new boat of the same use would cost.
    pub replacement: f64,
    /// Physical wear in percent of it.
    pub physical_percent: f64,
    /// Functional loss in percent of what is left.
    pub functional_percent: f64,
    /// Economic loss in percent of what is left then.
    pub economic_percent: f64,
}

impl CostApproach {
    /// Returns the value by the cost approach.
    ///
    /// # Errors
    /// A figure makes no sense.
    pub fn value(&self) -> Result<f64, Fault> {
        let mut value = self.replacement;
        if !(value > 0.0 && value.is_finite()) {
            let accepted = "a number above 0".to_owned();
            return Err(Fault::Range { name: "a replacement cost".to_owned(), given: value, accepted });
        }
        for (name, percent) in [
            ("physical wear in percent", self.physical_percent),
            ("functional loss in percent", self.functional_percent),
            ("economic loss in percent", self.economic_percent),
        ] {
            if !(0.0..=100.0).contains(&percent) {
                let accepted = "a number from 0 to 100".to_owned();
                return Err(Fault::Range { name: name.to_owned(), given: percent, accepted });
            }
            value *= 1.0 - percent / 100.0;
        }
        Ok(value)
    }
}
