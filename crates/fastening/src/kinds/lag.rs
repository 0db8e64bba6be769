//! Lag (coach) screws.

use crate::Fault;
use crate::table_text::{number, rows};
use crate::unit::{IN_MM, PSI_MPA};
use std::sync::LazyLock;

/// A lag screw of a table size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LagScrew {
    /// Shank's diameter in mm.
    pub diameter_mm: f64,
    /// Length in mm.
    pub length_mm: f64,
    /// Root's diameter in mm, NDS (2018) Appendix L Table L2.
    pub root_mm: f64,
    /// Bending yield strength of the common steel screw in N/mm², NDS (2018) Appendix I.
    pub yield_mpa: f64,
}

impl LagScrew {
    /// Returns the lag screw of the table within half a millimetre of a diameter (1/4 to 1 1/4 in).
    ///
    /// # Errors
    /// When no size is near or the length is not that of a lag screw.
    pub fn of_diameter(diameter_mm: f64, length_mm: f64) -> Result<Self, Fault> {
        let length_mm = Fault::between("length_mm", length_mm, 10.0, 600.0)?;
        let near = table().iter().find(|(d, ..)| (d - diameter_mm).abs() <= 0.5);
        let (d, root_mm, yield_mpa) = near.ok_or_else(|| {
            let why = "this is not the shank of a lag screw of the table";
            Fault::value(
                "diameter_mm",
                diameter_mm,
                why,
                "1/4, 5/16, 3/8, 7/16, 1/2, 5/8, 3/4, 7/8, 1, 1 1/8 or 1 1/4 in",
            )
        })?;
        Ok(Self { diameter_mm: *d, length_mm, root_mm: *root_mm, yield_mpa: *yield_mpa })
    }
}

fn table() -> &'static [(f64, f64, f64)] {
    static TABLE: LazyLock<Vec<(f64, f64, f64)>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some((number(&row, 0)? * IN_MM, number(&row, 1)? * IN_MM, number(&row, 3)? * PSI_MPA))
        };
        rows(include_str!("../../data/lags.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}
