//! Copper nails riveted over roves.

use super::Nail;
use crate::Fault;
use core::f64::consts::PI;

/// A nail with a rove over its point. It holds by head and rove, not by friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rivet {
    /// The nail.
    pub nail: Nail,
    /// Diameter of the rove in mm.
    pub rove_mm: f64,
    /// Diameter of the nail's head in mm.
    pub head_mm: f64,
}

impl Rivet {
    /// Returns a rivet.
    ///
    /// # Errors
    /// When rove or head is not larger than the nail.
    pub fn new(nail: Nail, rove_mm: f64, head_mm: f64) -> Result<Self, Fault> {
        for (name, value) in [("rove_mm", rove_mm), ("head_mm", head_mm)] {
            if !(value.is_finite() && value > nail.size_mm) {
                let accepted = format!("a diameter greater than {} mm", nail.size_mm);
                return Err(Fault::value(name, value, "this is not larger than the nail", accepted));
            }
        }
        Ok(Self { nail, rove_mm, head_mm })
    }

    /// Returns the section of the nail in mm².
    pub fn section_mm2(&self) -> f64 {
        match self.nail.section {
            super::Section::Round => PI / 4.0 * self.nail.size_mm.powi(2),
            super::Section::Square => self.nail.size_mm.powi(2),
        }
    }

    /// Returns the tension in N at which the nail itself parts, for an ultimate strength in N/mm². Pull-through
    /// of the smaller of head and rove is reckoned apart ([`crate::pull_through`]).
    pub fn tension_n(&self, ultimate_mpa: f64) -> f64 {
        ultimate_mpa * self.section_mm2()
    }
}
