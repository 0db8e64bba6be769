//! A year of sea water, month by month.

use crate::{Fault, months_csv};

/// Monthly means of sea surface temperature and salinity, January first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Year {
    /// Temperature, °C.
    pub temp_c: [f64; 12],
    /// Salinity, practical salinity units.
    pub salinity_psu: [f64; 12],
}

impl Year {
    /// Reads a year from CSV with the header `month,temp_c,salinity_psu` and twelve rows.
    ///
    /// # Errors
    /// A header, a value or a number of months that is not so.
    pub fn from_csv(text: &str) -> Result<Self, Fault> {
        const ACCEPTED: &str = "with the header month,temp_c,salinity_psu and one row for each of the 12 months";
        let [temp_c, salinity_psu] =
            months_csv::read(text, [("temp_c", -3.0, 45.0), ("salinity_psu", 0.0, 70.0)], ACCEPTED)?;
        Ok(Self { temp_c, salinity_psu })
    }

    /// Returns the same year with one salinity throughout, such as one measured at the mooring.
    ///
    /// # Errors
    /// A salinity outside 0 to 70.
    pub fn with_salinity(mut self, salinity_psu: f64) -> Result<Self, Fault> {
        if !(0.0..=70.0).contains(&salinity_psu) {
            let accepted = "0 to 70 practical salinity units (the open sea has about 35)";
            return Err(Fault::Value { field: "salinity_psu", value: salinity_psu, accepted });
        }
        self.salinity_psu = [salinity_psu; 12];
        Ok(self)
    }
}
