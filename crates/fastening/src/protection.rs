//! Cathodic protection on a wooden hull: too little for the metal, or too much for the wood.
//!
//! At a protected fitting hydroxide forms; with salt water it is caustic soda, and the wood round the metal goes
//! soft, pale and stringy, often under a white crust. The cause is anodes, bonding wires or stray current, not
//! the bronze. How fast it goes at what potential was not found in print.

use crate::Fault;

/// What hangs on the potential.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Protected {
    /// Bronze in the water: at least −550 mV.
    Bronze,
    /// Stainless steel: at least −750 mV.
    Stainless,
    /// Mild steel gear: at least −800 mV.
    Steel,
}

impl Protected {
    /// Returns the least protective potential in mV against Ag/AgCl (an anode supplier's table that follows ABYC
    /// E-2; the standard's own text was not read).
    pub fn least_mv(self) -> f64 {
        match self {
            Protected::Bronze => -550.0,
            Protected::Stainless => -750.0,
            Protected::Steel => -800.0,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Protected::Bronze => "bronze",
            Protected::Stainless => "stainless steel",
            Protected::Steel => "mild steel",
        }
    }
}

/// The range for a wooden hull in mV against Ag/AgCl, most negative first (same table).
pub const WOODEN_HULL_MV: (f64, f64) = (-600.0, -550.0);

/// How a reading lies to wood and metal.
#[derive(Clone, Debug, PartialEq)]
pub struct ProtectionReading {
    /// mV by which the reading is more negative than the wood should bear; 0 when it is not.
    pub over_by_mv: f64,
    /// mV by which the reading falls short of protecting the metal; 0 when it does not.
    pub short_by_mv: f64,
    /// What that says and what to look for, in sentences.
    pub sentences: Vec<String>,
}

/// Reads a potential in mV against Ag/AgCl in sea water, measured at a fitting on a wooden hull.
///
/// # Errors
/// When the reading is not between −1500 and +300 mV.
pub fn read(potential_mv: f64, metal: Protected) -> Result<ProtectionReading, Fault> {
    let mv = Fault::between("potential_mv", potential_mv, -1500.0, 300.0)?;
    let over_by_mv = (WOODEN_HULL_MV.0 - mv).max(0.0);
    let short_by_mv = (mv - metal.least_mv()).max(0.0);
    let mut sentences = Vec::new();
    if over_by_mv > 0.0 {
        sentences.push(format!(
            "{mv:.0} mV is {over_by_mv:.0} mV beyond the range for a wooden hull (−550 to −600 mV): over-protected. \
             Alkali forms at the metal and softens the wood round it: look for white crust, pale wet stringy wood and \
             fastenings that turn in their holes, and take what holds there as lost until it is probed."
        ));
    }
    if short_by_mv > 0.0 {
        sentences.push(format!(
            "{mv:.0} mV falls {short_by_mv:.0} mV short of protecting {} ({:.0} mV).",
            metal.name(),
            metal.least_mv()
        ));
    }
    if metal.least_mv() < WOODEN_HULL_MV.0 {
        sentences.push(format!(
            "{} wants {:.0} mV and the wood no more than {:.0} mV: one bonded hull cannot have both. Isolate that gear or \
             give it its own anode.",
            metal.name(),
            metal.least_mv(),
            WOODEN_HULL_MV.0
        ));
    }
    if sentences.is_empty() {
        sentences.push(format!("{mv:.0} mV lies within the range for a wooden hull and protects {}.", metal.name()));
    }
    sentences.push(
        "A reading counts only with its electrode, salinity, temperature and fitting, and with anodes on or off written \
         down."
            .to_owned(),
    );
    Ok(ProtectionReading { over_by_mv, short_by_mv, sentences })
}
