//! Drift bolts.

/// A drift: a rod driven into a hole bored 1/8 in (3.2 mm) smaller (Wood Handbook ch. 8), held by friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriftBolt {
    /// Diameter in mm.
    pub diameter_mm: f64,
    /// Length in mm.
    pub length_mm: f64,
}

impl DriftBolt {
    /// Returns the diameter in mm of the hole it was driven into, by the handbook.
    pub fn bored_mm(&self) -> f64 {
        self.diameter_mm - 25.4 / 8.0
    }
}
