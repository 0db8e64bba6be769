//! A plank between frames under water pressure.
//!
//! Hydrostatic stress in sound planking is nearly always small: thickness is set by caulking, fastenings, wear and
//! blows. A low ratio is no certificate.

use crate::HullError;

/// Weight of sea water, 1025 kg/m³ × 9.80665 m/s², in kilopascals a metre of head.
pub const SEA_WATER_KPA_PER_M: f64 = 1.025 * 9.80665;

/// How a plank is held where it is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Running over frames on both sides: greatest moment p s²/12, at the frames.
    Continuous,
    /// Free to turn at both frames, as beside a butt or where the next frame is lost: moment p s²/8, in the bay.
    Simply,
}

/// A plank as a beam across the frames.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlankBeam {
    /// Clear span between frames, in millimetres.
    pub span_mm: f64,
    /// Thickness, in millimetres.
    pub thickness_mm: f64,
}

impl PlankBeam {
    /// Returns a plank.
    ///
    /// # Errors
    /// Refuses spans and thicknesses not above 0.
    pub fn new(span_mm: f64, thickness_mm: f64) -> Result<PlankBeam, HullError> {
        if !(span_mm > 0.0 && span_mm.is_finite()) {
            return Err(HullError::value("The span between frames in millimetres", span_mm, "more than 0"));
        }
        if !(thickness_mm > 0.0 && thickness_mm.is_finite()) {
            return Err(HullError::value("The thickness in millimetres", thickness_mm, "more than 0"));
        }
        Ok(PlankBeam { span_mm, thickness_mm })
    }

    /// Returns the greatest bending stress, in megapascals: p s²/(2 t²) continuous, 3 p s²/(4 t²) simply held
    /// (σ = 6 M / t², M for a unit width).
    pub fn bending_mpa(&self, pressure_kpa: f64, held: Held) -> f64 {
        let slender = self.span_mm / self.thickness_mm;
        let share = match held {
            Held::Continuous => 0.5,
            Held::Simply => 0.75,
        };
        share * pressure_kpa / 1000.0 * slender * slender
    }

    /// Returns the greatest deflection, in millimetres: p s⁴/(32 E t³) continuous, 5 p s⁴/(32 E t³) simply held.
    pub fn deflection_mm(&self, pressure_kpa: f64, moe_mpa: f64, held: Held) -> f64 {
        let share = match held {
            Held::Continuous => 1.0,
            Held::Simply => 5.0,
        };
        share * pressure_kpa / 1000.0 * self.span_mm.powi(4) / (32.0 * moe_mpa * self.thickness_mm.powi(3))
    }

    /// Returns the pressure at which the continuous plank comes to a stress, in kilopascals.
    pub fn pressure_kpa_at(&self, stress_mpa: f64) -> f64 {
        2000.0 * stress_mpa * (self.thickness_mm / self.span_mm).powi(2)
    }
}

/// Returns the thickness at which a plank over frames comes to a stress: s √(p/(2σ)) continuous, s √(3p/(4σ)) simply
/// held, in millimetres.
pub fn thickness_mm(span_mm: f64, pressure_kpa: f64, stress_mpa: f64, held: Held) -> f64 {
    let share = match held {
        Held::Continuous => 0.5,
        Held::Simply => 0.75,
    };
    span_mm * (share * pressure_kpa / 1000.0 / stress_mpa).sqrt()
}

/// What is left of a plank worn or wasted to a thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Thickness left, per cent.
    pub thickness_percent: f64,
    /// Bending strength left, per cent: (t/t₀)².
    pub strength_percent: f64,
    /// Bending stiffness left, per cent: (t/t₀)³.
    pub stiffness_percent: f64,
}

/// Reckons what is left of a plank. No published limit of wastage for wooden planking was found: these are ratios,
/// not a rule.
///
/// # Errors
/// Refuses thicknesses not above 0.
pub fn residual(measured_mm: f64, original_mm: f64) -> Result<Residual, HullError> {
    if !(measured_mm >= 0.0 && original_mm > 0.0 && measured_mm.is_finite() && original_mm.is_finite()) {
        return Err(HullError::value(
            "A thickness in millimetres",
            format!("{measured_mm} of {original_mm}"),
            "0 or more, of more than 0",
        ));
    }
    let r = measured_mm / original_mm;
    Ok(Residual { thickness_percent: 100.0 * r, strength_percent: 100.0 * r * r, stiffness_percent: 100.0 * r * r * r })
}

/// How much a plank's bending moment, and its neighbours' load, grow where frames side by side are lost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LostFrames {
    /// The plank's moment against before.
    pub plank_moment_times: f64,
    /// The load on the frames at either side against before.
    pub neighbour_load_times: f64,
}

/// Reckons the effect of lost frames side by side: the span grows with their number, its moment with the square.
pub fn lost_frames(side_by_side: u32) -> LostFrames {
    let spans = f64::from(side_by_side + 1);
    LostFrames { plank_moment_times: spans * spans, neighbour_load_times: (spans + 1.0) / 2.0 }
}
