//! What all quantities have in common, for what works on any of them.

use crate::{Fault, System};

/// A quantity that people read and write. Its base unit is the unit in which [`Quantity::base`] gives it.
pub trait Quantity: Copy + Sized {
    /// Reads the quantity; the fault says at which character it went wrong.
    fn read(text: &str) -> Result<Self, Fault>;

    /// Reads a difference between two such quantities, in the base unit: `2 °F` is 1.11 °C as a difference and
    /// -16.67 °C as a temperature.
    fn read_difference(text: &str) -> Result<f64, Fault> {
        Self::read(text).map(Self::base)
    }

    /// Returns the value in the base unit: mm, kg, degrees, °C or m³.
    fn base(self) -> f64;

    /// Returns the quantity of so many base units.
    fn from_base(value: f64) -> Self;

    /// Writes the quantity in the given system.
    fn write(self, system: System) -> String;

    /// Writes a difference, given in the base unit, in the given system.
    fn write_difference(difference: f64, system: System) -> String {
        Self::from_base(difference).write(system)
    }
}
