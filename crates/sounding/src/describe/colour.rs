//! Features of a power spectrum.

use crate::db;

/// Least frequency taken into account, in hertz.
pub const LEAST_HZ: f64 = 150.0;
/// Greatest frequency taken into account, in hertz.
pub const GREATEST_HZ: f64 = 10_000.0;
/// Bands whose share is given: corners in hertz.
pub const BANDS_HZ: [(f64, f64); 5] =
    [(150.0, 500.0), (500.0, 1000.0), (1000.0, 2000.0), (2000.0, 4000.0), (4000.0, 8000.0)];

/// Features of a power spectrum between [`LEAST_HZ`] and [`GREATEST_HZ`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Colour {
    /// Centre of the power, Σ f P / Σ P, in hertz.
    pub centroid_hz: f64,
    /// Spread of the power about it, √(Σ (f-μ)² P / Σ P), in hertz.
    pub bandwidth_hz: f64,
    /// Least frequency below which 85 % of the power lies, in hertz.
    pub rolloff_hz: f64,
    /// Geometric over arithmetic mean of the power.
    pub flatness: f64,
    /// Share of each of [`BANDS_HZ`] in all power, in decibels.
    pub bands_db: [f64; 5],
}

impl Colour {
    /// Describes a power spectrum whose bins are `bin_hz` apart, the first at 0 Hz. Silence has its centre at 0.
    pub fn of(power: &[f64], bin_hz: f64) -> Colour {
        let first = libm::ceil(LEAST_HZ / bin_hz - 1e-9) as usize;
        let last = (libm::floor(GREATEST_HZ / bin_hz + 1e-9) as usize + 1).min(power.len());
        let inside = power.get(first..last).unwrap_or(&[]);
        let all: f64 = inside.iter().sum();
        if all <= 0.0 || inside.is_empty() {
            return Colour {
                centroid_hz: 0.0,
                bandwidth_hz: 0.0,
                rolloff_hz: 0.0,
                flatness: 0.0,
                bands_db: [db::SILENCE_DB; 5],
            };
        }
        let hz = |i: usize| (first + i) as f64 * bin_hz;
        let centroid_hz = inside.iter().enumerate().map(|(i, p)| hz(i) * p).sum::<f64>() / all;
        let spread: f64 =
            inside.iter().enumerate().map(|(i, p)| (hz(i) - centroid_hz) * (hz(i) - centroid_hz) * p).sum();
        let mut below = 0.0;
        let rolled = inside.iter().position(|p| {
            below += p;
            below >= 0.85 * all
        });
        // A floor far below the sum keeps a bin of zero from making the geometric mean zero.
        let least = 1e-10 * all / inside.len() as f64;
        let logs = inside.iter().map(|p| libm::log(p.max(least))).sum::<f64>() / inside.len() as f64;
        let bands_db = BANDS_HZ.map(|(low, high)| {
            let (a, b) = (libm::ceil(low / bin_hz - 1e-9) as usize, libm::ceil(high / bin_hz - 1e-9) as usize);
            let share = power.get(a..b.min(power.len())).unwrap_or(&[]).iter().sum::<f64>() / all;
            db::of_power(share)
        });
        Colour {
            centroid_hz,
            bandwidth_hz: libm::sqrt(spread / all),
            rolloff_hz: hz(rolled.unwrap_or(0)),
            flatness: libm::exp(logs) / (all / inside.len() as f64),
            bands_db,
        }
    }
}
