//! Killing borers with fresh water, or by hauling out.

use crate::Fault;

/// What a stay in water of little salt does to borers.
#[derive(Clone, Debug, PartialEq)]
pub struct Treatment {
    /// On gribble, one sentence.
    pub gribble: String,
    /// On shipworm, one sentence.
    pub shipworm: String,
}

/// Reads a stay of some days in water of some salinity.
///
/// Gribble: 6 psu killed in 15 to 20 days (Eltringham 1961). Shipworm: survives 4 to 6 psu for a short while (Univ. of
/// Gothenburg, 2010); the days that kill it in fresh water were not found published, so nothing is promised.
///
/// # Errors
/// A salinity outside 0 to 70 or days outside 0 to 3660.
pub fn treatment(salinity_psu: f64, days: f64) -> Result<Treatment, Fault> {
    if !(0.0..=70.0).contains(&salinity_psu) {
        return Err(Fault::Value { field: "fresh_psu", value: salinity_psu, accepted: "0 to 70 psu" });
    }
    if !(0.0..=3660.0).contains(&days) {
        return Err(Fault::Value { field: "fresh_days", value: days, accepted: "0 to 3660 days" });
    }
    let gribble = match (salinity_psu, days) {
        (s, _) if s > 10.0 => "Gribble lives and bores on in water so salt.".to_owned(),
        (s, _) if s > 6.0 => {
            "Gribble stops boring below about 10 psu, but that it dies above 6 psu is not published.".to_owned()
        }
        (_, d) if d >= 20.0 => "Gribble should be dead: 6 psu killed it in 15 to 20 days (Eltringham 1961).".to_owned(),
        (_, d) if d >= 15.0 => "Gribble may be dead: 6 psu killed it in 15 to 20 days (Eltringham 1961).".to_owned(),
        _ => "Too short for gribble: even 6 psu took 15 to 20 days (Eltringham 1961).".to_owned(),
    };
    let shipworm = match salinity_psu {
        s if s >= 8.0 => "Shipworm lives on and breeds in water so salt.",
        s if s > 5.0 => "Shipworm does not breed below 8 psu but lives on down to about 5.",
        s if s >= 4.0 => "Shipworm survives 4 to 6 psu for a short while; how long is not published.",
        _ => {
            "Fresh water kills shipworm in time, but how many days it takes in closed burrows is not published: a weekend \
             up a river proves nothing."
        }
    };
    Ok(Treatment { gribble, shipworm: shipworm.to_owned() })
}

/// Returns what hauling out does, one sentence.
pub fn hauled_out() -> &'static str {
    "Out of the water borers die: a boat out a few days and dry probably has none alive (US Army TB 55-1900-201-45/1, \
     2-7g); the damage stays."
}
