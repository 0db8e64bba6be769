//! What a plank stands in: air that stays the same, air month by month, or water.

use crate::fault::{self, Fault};

/// Air of one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Temperature, °C.
    pub temp_c: f64,
    /// Relative humidity, %.
    pub rh_percent: f64,
}

/// What a plank stands in.
#[derive(Clone, Debug, PartialEq)]
pub enum Surroundings {
    /// Air that stays the same.
    Constant(Air),
    /// Monthly means, January first, run smoothly from the middle of one month to the middle of the next.
    Monthly {
        /// The twelve months.
        months: [Air; 12],
        /// Day of the year (0 to 365) on which the run begins.
        from_day: f64,
    },
    /// Under water: the faces stay at fibre saturation.
    Water {
        /// Temperature of the water, °C.
        temp_c: f64,
    },
}

const MONTH_DAYS: f64 = 365.25 / 12.0;

impl Surroundings {
    /// Returns air that stays the same.
    ///
    /// # Errors
    /// A temperature outside −40 to 100 °C or a humidity outside 0 to 100 %.
    pub fn constant(temp_c: f64, rh_percent: f64) -> Result<Self, Fault> {
        fault::within("temp_c", temp_c, -40.0, 100.0, "°C")?;
        fault::humidity("rh_percent", rh_percent)?;
        Ok(Surroundings::Constant(Air { temp_c, rh_percent }))
    }

    /// Reads monthly means from CSV with the header `month,temp_c,rh_percent` and twelve rows, in any order;
    /// the run begins with the first day of `from_month` (1 to 12).
    ///
    /// # Errors
    /// A header, a row or a number of months that is not so.
    pub fn monthly_csv(text: &str, from_month: u8) -> Result<Self, Fault> {
        const ACCEPTED: &str = "with the header month,temp_c,rh_percent and one row for each of the 12 months";
        let table = |line: usize, why: String| Fault::Table { line, why, accepted: ACCEPTED };
        let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(text.as_bytes());
        let header = reader.headers().map_err(|fault| table(1, fault.to_string()))?;
        let column =
            |name: &str| header.iter().position(|h| h.trim_start_matches('\u{feff}').eq_ignore_ascii_case(name));
        let (Some(month), Some(temp), Some(rh)) = (column("month"), column("temp_c"), column("rh_percent")) else {
            return Err(table(1, "the header lacks month, temp_c or rh_percent".to_owned()));
        };
        let mut months: [Option<Air>; 12] = [None; 12];
        for (row, record) in reader.records().enumerate() {
            let line = row + 2;
            let record = record.map_err(|fault| table(line, fault.to_string()))?;
            let number = |i: usize, what: &str| -> Result<f64, Fault> {
                let text = record.get(i).unwrap_or_default();
                let number = text.parse().ok().filter(|n: &f64| n.is_finite());
                number.ok_or_else(|| table(line, format!("'{text}' is not a {what}")))
            };
            let at = number(month, "month from 1 to 12")?;
            if at.fract() != 0.0 || !(1.0..=12.0).contains(&at) {
                return Err(table(line, format!("{at} is not a month from 1 to 12")));
            }
            let air = Air { temp_c: number(temp, "temperature")?, rh_percent: number(rh, "humidity")? };
            fault::within("temp_c", air.temp_c, -40.0, 100.0, "°C").map_err(|fault| table(line, fault.to_string()))?;
            fault::humidity("rh_percent", air.rh_percent).map_err(|fault| table(line, fault.to_string()))?;
            let slot = &mut months[at as usize - 1];
            if slot.replace(air).is_some() {
                return Err(table(line, format!("month {at} comes twice")));
            }
        }
        let given = months.iter().flatten().count();
        let mut all = [Air { temp_c: 0.0, rh_percent: 0.0 }; 12];
        for (to, from) in all.iter_mut().zip(months) {
            *to = from.ok_or_else(|| table(given + 1, format!("there are {given} months, not 12")))?;
        }
        let from_month = f64::from(from_month.clamp(1, 12) - 1);
        Ok(Surroundings::Monthly { months: all, from_day: from_month * MONTH_DAYS })
    }

    /// Returns the air a number of days after the run began; under water, air that is saturated.
    pub fn at(&self, day: f64) -> Air {
        match self {
            Surroundings::Constant(air) => *air,
            Surroundings::Water { temp_c } => Air { temp_c: *temp_c, rh_percent: 100.0 },
            Surroundings::Monthly { months, from_day } => {
                let place = ((from_day + day) / MONTH_DAYS - 0.5).rem_euclid(12.0);
                let first = place.floor();
                let share = place - first;
                let (a, b) = (months[first as usize % 12], months[(first as usize + 1) % 12]);
                Air {
                    temp_c: a.temp_c + (b.temp_c - a.temp_c) * share,
                    rh_percent: a.rh_percent + (b.rh_percent - a.rh_percent) * share,
                }
            }
        }
    }
}
