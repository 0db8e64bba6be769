//! Speed of a stress wave in sound wood: the baseline a timed blow is held against.

use crate::fault::{self, Fault};
use crate::species::Species;

/// Source of the baselines, for an answer.
pub const SOURCE: &str = "v = sqrt(E/ρ) with E 1.1 times the printed modulus (Wood Handbook Table 5-3, footnote), \
                          moisture 1 % of speed per 1 % (Han and others 2006); across the grain a fifth to a third \
                          of that (quotation of the Wood Handbook)";

/// A baseline for sound wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Baseline {
    /// Speed along the grain in a clear straight piece, m/s: the upper side of what to expect.
    pub along_m_s: f64,
    /// Time along the grain, µs per metre.
    pub along_us_per_m: f64,
    /// Time across the grain at the fast end (a third of the speed along), µs per metre.
    pub across_fast_us_per_m: f64,
    /// Time across the grain at the slow end (a fifth of the speed along), µs per metre.
    pub across_slow_us_per_m: f64,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
}

/// Returns the stress-wave baseline of sound wood at a moisture content.
///
/// # Errors
/// A moisture that cannot be meant, or a wood whose stiffness or gravity is not known.
pub fn baseline(species: &'static Species, mc_percent: f64) -> Result<Baseline, Fault> {
    fault::moisture("mc_percent", mc_percent)?;
    let missing = || Fault::NotKnown { species: species.common, what: "stiffness or gravity" };
    let moe = species.dry.moe_mpa.ok_or_else(missing)?;
    let density = species.density_kg_m3(12.0).ok_or_else(missing)?;
    let v12 = (1.1 * moe.value * 1e6 / density.value).sqrt();
    let f = species.fibre_saturation_percent();
    let at_or_below = v12 * (1.0 - 0.01 * (mc_percent.min(f) - 12.0));
    // Above fibre saturation stiffness stays and mass grows.
    let along_m_s = if mc_percent > f {
        at_or_below * ((1.0 + f / 100.0) / (1.0 + mc_percent / 100.0)).sqrt()
    } else {
        at_or_below
    };
    let mut cautions = vec![
        "A baseline from tables is the upper side of the speed. The boat's own is better: the median of sound members \
         of the same kind at the same moisture, both sides, one instrument, one span."
            .to_owned(),
        "Checks, bolts, bungs and glue voids lengthen the time too: repeat at right angles and shifted along the \
         grain before saying decay. A time across the grain 30 % above the baseline is commonly taken as half the \
         strength gone and 50 % as severe (from memory of FPL-GTR-114)."
            .to_owned(),
    ];
    cautions.extend(moe.caution(&format!("modulus of elasticity (MPa) of {}", species.common)));
    Ok(Baseline {
        along_m_s,
        along_us_per_m: 1e6 / along_m_s,
        across_fast_us_per_m: 3e6 / along_m_s,
        across_slow_us_per_m: 5e6 / along_m_s,
        cautions,
    })
}
