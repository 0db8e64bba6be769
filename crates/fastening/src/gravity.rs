//! Specific gravity on the two bases that holding rules use, which must not be mixed.

use crate::Fault;
use timber::species::Species;

/// Specific gravity of a wood on the bases that the rules for fastenings want.
///
/// The Wood Handbook's withdrawal equations take oven-dry mass on volume at 12 % moisture; the National Design
/// Specification takes oven-dry mass on oven-dry volume, which is a higher figure for the same wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gravity {
    /// Oven-dry mass on volume at 12 % moisture.
    pub at_12: f64,
    /// Oven-dry mass on oven-dry volume.
    pub oven_dry: f64,
}

impl Gravity {
    /// Returns a gravity taken as given on both bases, as design tables and worked examples print it.
    ///
    /// # Errors
    /// When it is not that of a wood (0.1 to 1.3).
    pub fn as_given(specific_gravity: f64) -> Result<Self, Fault> {
        let g = Fault::between("specific_gravity", specific_gravity, 0.1, 1.3)?;
        Ok(Self { at_12: g, oven_dry: g })
    }

    /// Returns both bases from the gravity on volume at 12 % moisture.
    ///
    /// Wood Handbook (2021) Eq. 4-13, G_M = G_b / (1 − 0.265 a G_b) with a = (30 − M)/30, solved for G_b.
    ///
    /// # Errors
    /// When it is not that of a wood (0.1 to 1.3).
    pub fn from_12_percent(at_12: f64) -> Result<Self, Fault> {
        let g = Fault::between("specific_gravity", at_12, 0.1, 1.3)?;
        Ok(Self { at_12: g, oven_dry: swollen(unswollen(g, 0.6), 1.0) })
    }

    /// Returns both bases from the gravity on oven-dry volume.
    ///
    /// # Errors
    /// When it is not that of a wood (0.1 to 1.5).
    pub fn from_oven_dry(oven_dry: f64) -> Result<Self, Fault> {
        let g = Fault::between("specific_gravity", oven_dry, 0.1, 1.5)?;
        Ok(Self { at_12: swollen(unswollen(g, 1.0), 0.6), oven_dry: g })
    }

    /// Returns the gravity of a wood of the table on both bases, when known.
    pub fn of(species: &Species) -> Option<Self> {
        match (species.gravity_at(12.0), species.gravity_oven_dry(), species.gravity_12) {
            (Some(at_12), Some(oven_dry), _) => Some(Self { at_12: at_12.value, oven_dry: oven_dry.value }),
            (_, _, Some(at_12)) => Self::from_12_percent(at_12.value).ok(),
            _ => None,
        }
    }
}

/// G on green volume from G at a share `a` of full drying.
fn unswollen(g: f64, a: f64) -> f64 {
    g / (1.0 + 0.265 * a * g)
}

/// G at a share `a` of full drying from G on green volume.
fn swollen(g_basic: f64, a: f64) -> f64 {
    g_basic / (1.0 - 0.265 * a * g_basic)
}
