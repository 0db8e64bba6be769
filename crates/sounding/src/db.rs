//! Decibels.

/// The least level told apart from silence, in decibels of full scale.
pub const SILENCE_DB: f64 = -120.0;

/// Returns a power in decibels, never below [`SILENCE_DB`].
pub fn of_power(power: f64) -> f64 {
    if power > 1e-12 { 10.0 * libm::log10(power) } else { SILENCE_DB }
}
