//! Nails, round and square.

use crate::Fault;
use crate::table_text::{number, rows};
use crate::unit::IN_MM;
use core::f64::consts::PI;
use std::sync::LazyLock;

/// The section of a nail's shank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Section {
    /// Round wire.
    Round,
    /// Square, as copper boat nails and cut or wrought nails are.
    Square,
}

/// A nail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nail {
    /// Diameter, or side when square, in mm.
    pub size_mm: f64,
    /// Section.
    pub section: Section,
    /// Length in mm.
    pub length_mm: f64,
    /// Whether the point is clenched.
    pub clenched: bool,
}

impl Nail {
    /// Returns a nail.
    ///
    /// # Errors
    /// When size or length is not that of a nail.
    pub fn new(size_mm: f64, section: Section, length_mm: f64) -> Result<Self, Fault> {
        let size_mm = Fault::between("diameter_mm", size_mm, 0.8, 16.0)?;
        let length_mm = Fault::between("length_mm", length_mm, 3.0, 500.0)?;
        Ok(Self { size_mm, section, length_mm, clenched: false })
    }

    /// Returns a square copper boat nail by standard wire gauge (4 to 16); the higher number is the thinner.
    /// The gauge's diameters are from memory.
    ///
    /// # Errors
    /// When the gauge is not in the table.
    pub fn copper(wire_gauge: u32, length_mm: f64) -> Result<Self, Fault> {
        let side_mm = wire_gauge_mm(wire_gauge).ok_or_else(|| {
            let why = "this wire gauge is not in the table";
            Fault::value("gauge", f64::from(wire_gauge), why, "a standard wire gauge from 4 to 16")
        })?;
        Self::new(side_mm, Section::Square, length_mm)
    }

    /// Returns the diameter of the round nail of equal grip in mm: for a square shank that of equal perimeter,
    /// D = 4 s/π.
    pub fn equivalent_mm(&self) -> f64 {
        match self.section {
            Section::Round => self.size_mm,
            Section::Square => 4.0 * self.size_mm / PI,
        }
    }
}

/// Returns the diameter in mm of an Imperial standard wire gauge, 4 to 16.
pub fn wire_gauge_mm(gauge: u32) -> Option<f64> {
    static TABLE: LazyLock<Vec<(u32, f64)>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| Some((row.get(0)?.parse().ok()?, number(&row, 1)? * IN_MM));
        rows(include_str!("../../data/wire-gauges.csv")).into_iter().filter_map(read).collect()
    });
    TABLE.iter().find(|(n, _)| *n == gauge).map(|(_, mm)| *mm)
}
