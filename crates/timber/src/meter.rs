//! Reading a resistance (pin) moisture meter: temperature, species, and where the reading means nothing.

use crate::fault::{self, Fault};
use crate::species::Species;

/// Source of the temperature correction, for an answer.
pub const SOURCE: &str = "temperature correction of the Pfaff and Garrahan form, read in code that cites it; makers' \
                          charts differ, one being half a per cent per 5 °C and another steeper";

/// What the instrument's own table says for the wood, when the surveyor has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpeciesTable {
    /// Nothing to hand.
    None,
    /// Per cent to add to the reading, from the maker's table.
    Add(f64),
    /// The regression MC = (MC_t − b)/a.
    Line {
        /// Slope a.
        a: f64,
        /// Offset b, % moisture.
        b: f64,
    },
}

/// A reading put right as far as it can be.
#[derive(Clone, Debug, PartialEq)]
pub struct Corrected {
    /// Moisture content after the corrections that are known, %.
    pub mc_percent: f64,
    /// What temperature added, %.
    pub temperature_correction_percent: f64,
    /// What the wood added, %; `None` when no table for it was given and none is published here.
    pub species_correction_percent: Option<f64>,
    /// Lower end of the honest band, %.
    pub low_percent: f64,
    /// Upper end of the honest band, %.
    pub high_percent: f64,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
}

/// Corrects a reading of a resistance meter on the usual Douglas-fir scale, temperature first and then species.
///
/// MC_t = (R + 0.567 − 0.0260 t + 0.000051 t²)/(0.881 · 1.0056^t), t in °C; neutral near 22 °C. On the scale's own
/// wood nothing is added for species; for another wood the maker's table is wanted.
///
/// # Errors
/// A reading that is not 1 to 100 %, a temperature outside −30 to 60 °C, or a species line with no slope.
pub fn correct(
    reading_percent: f64,
    species: &'static Species,
    temp_c: f64,
    table: SpeciesTable,
    salt: bool,
) -> Result<Corrected, Fault> {
    fault::moisture("reading_percent", reading_percent)?;
    fault::within("reading_percent", reading_percent, 1.0, 100.0, "%")?;
    fault::within("temp_c", temp_c, -30.0, 60.0, "°C")?;
    let at_temperature = at_temperature(reading_percent, temp_c);
    let own_scale = species.id == "douglas-fir-coast";
    let added = match table {
        SpeciesTable::Add(percent) => Some(fault::within("species_correction_percent", percent, -15.0, 15.0, "%")?),
        SpeciesTable::Line { a, b } => {
            fault::within("species_a", a, 0.3, 3.0, "")?;
            fault::within("species_b", b, -15.0, 15.0, "%")?;
            Some((at_temperature - b) / a - at_temperature)
        }
        SpeciesTable::None => own_scale.then_some(0.0),
    };
    let mc_percent = (at_temperature + added.unwrap_or(0.0)).max(0.0);
    // ±1 % for the instrument and the spot; ±4 % is the spread between woods on one scale (from memory).
    let either_way = if added.is_some() { 1.5 } else { 4.0 };
    let mut cautions = limits(reading_percent, species, temp_c, added.is_some(), own_scale);
    if salt {
        cautions.push(
            "Sea salt in the wood makes it read high, often off the scale, and no correction exists: take the reading \
             as an upper bound, and oven-dry a core or chips if the figure matters."
                .to_owned(),
        );
    }
    Ok(Corrected {
        mc_percent,
        temperature_correction_percent: at_temperature - reading_percent,
        species_correction_percent: added,
        low_percent: if salt { 0.0 } else { (mc_percent - either_way).max(0.0) },
        high_percent: mc_percent + either_way,
        cautions,
    })
}

/// Returns a reading corrected for the temperature of the wood alone, % (equation at [`correct`]).
pub fn at_temperature(reading_percent: f64, temp_c: f64) -> f64 {
    (reading_percent + 0.567 - 0.0260 * temp_c + 0.000051 * temp_c * temp_c) / (0.881 * 1.0056f64.powf(temp_c))
}

fn limits(reading: f64, species: &Species, temp_c: f64, has_table: bool, own_scale: bool) -> Vec<String> {
    let mut found = Vec::new();
    if reading > 25.0 {
        found.push(
            "Above 25 to 30 % (fibre saturation) a resistance meter only tells low, middle or high; it does tell \
             whether the wood is wet enough for decay (FPL Report 2147, 1959)."
                .to_owned(),
        );
    }
    if reading < 7.0 {
        found.push("Below about 7 % a resistance meter's figure means nothing.".to_owned());
    }
    if temp_c < 0.0 {
        found.push("Frozen wood reads low and its figure means nothing (from memory).".to_owned());
    }
    if !has_table {
        found.push(format!(
            "No species correction for {} was given and none could be found published: the spread between woods on \
             one scale is 1 to 4 % moisture (from memory). Use the table that came with the instrument.",
            species.common
        ));
        match species.id {
            "teak" => found.push("One maker's guide prints teak reading 24 % as 20 %.".to_owned()),
            "sitka-spruce" => found.push("One maker's guide prints Sitka spruce reading 15 % as 16 %.".to_owned()),
            _ => {}
        }
    } else if own_scale {
        found.push("Taken to be a meter on the usual Douglas-fir scale, so nothing is added for species.".to_owned());
    }
    found.push(
        "Makers' temperature charts differ; keep the raw reading, the wood's temperature and the instrument's own \
         species setting beside the corrected figure, and do not correct twice."
            .to_owned(),
    );
    found
}
