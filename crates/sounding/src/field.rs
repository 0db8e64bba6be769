//! Blows along the planking as a field: a value everywhere near a blow, how sure it is, and nothing where none was struck.
//!
//! A Gaussian process (kriging; any text of spatial statistics) over the planking unrolled. A seam between strakes and a frame
//! behind the planking are soft barriers: decay crosses them less readily than it runs along a plank. Distances are measured in
//! reaches, and each barrier crossed adds a step, which keeps the covariance proper because it is only another coordinate.

use crate::cholesky::Root;
use serde::{Deserialize, Serialize};

/// One blow, or one group of blows, on the unrolled planking.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Struck {
    /// Distance along the planking, in metres.
    pub along_m: f64,
    /// Distance across it from the keel, in metres.
    pub across_m: f64,
    /// The value, e.g. the probability of not sounding like sound wood.
    pub value: f64,
}

/// Where to give the field, and what lies between places.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Planking {
    /// Positions along at which the field is given, in metres, rising.
    pub along_m: Vec<f64>,
    /// Positions across at which the field is given, in metres, rising.
    pub across_m: Vec<f64>,
    /// Positions across of the seams, in metres.
    pub seams_m: Vec<f64>,
    /// Positions along of the frames, in metres.
    pub frames_m: Vec<f64>,
}

/// How far a blow speaks for its surroundings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Scales {
    /// Reach along the planking, in metres.
    pub along_m: f64,
    /// Reach across it, in metres.
    pub across_m: f64,
    /// Step of a seam or a frame crossed, in reaches.
    pub barrier: f64,
    /// Standard deviation of the field.
    pub spread: f64,
    /// Standard deviation of one blow about the field.
    pub scatter: f64,
}

/// The field at one point.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Value.
    pub value: f64,
    /// Standard deviation.
    pub sd: f64,
}

/// The field over a grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Points by rows across, each along; `None` where no blow was struck near.
    pub points: Vec<Vec<Option<Point>>>,
    /// The scales that were fitted.
    pub scales: Scales,
}

/// Why no field was made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoField {
    /// Too few or too many blows.
    #[error("A field needs 5 to 600 blows with a place on the planking; {0} were given.")]
    Count(usize),
    /// A number that is none.
    #[error("The place or value of blow {0} is not a number; accepted are finite numbers.")]
    NotFinite(usize),
    /// All blows alike, or none could be fitted.
    #[error("The blows could not be fitted: their values or places are all alike.")]
    Alike,
}

/// Share of the spread that must be settled by blows near by for a point to be given.
const SETTLED: f64 = 0.25;
/// Blows by which scales are fitted, at most.
const FITTED: usize = 160;

/// Gives the field over the planking, with scales fitted to the blows by their likelihood.
///
/// # Errors
/// Refuses fewer than 5 or more than 600 blows, places and values that are not finite, and blows all alike.
pub fn field(blows: &[Struck], planking: &Planking) -> Result<Field, NoField> {
    check(blows)?;
    let scales = fit(blows, planking).ok_or(NoField::Alike)?;
    with_scales(blows, planking, scales)
}

/// Gives the field with scales already known.
///
/// # Errors
/// As [`field`].
pub fn with_scales(blows: &[Struck], planking: &Planking, scales: Scales) -> Result<Field, NoField> {
    check(blows)?;
    let mean = blows.iter().map(|b| b.value).sum::<f64>() / blows.len() as f64;
    let at: Vec<(f64, f64)> = blows.iter().map(|b| warp(b.along_m, b.across_m, planking, &scales)).collect();
    let noise = (scales.scatter / scales.spread).powi(2);
    let root = Root::of(&covariance(&at, noise)).ok_or(NoField::Alike)?;
    let away: Vec<f64> = blows.iter().map(|b| b.value - mean).collect();
    let weights = root.solve(&away);
    let point = |along: f64, across: f64| {
        let here = warp(along, across, planking, &scales);
        let k: Vec<f64> = at.iter().map(|a| kernel(*a, here)).collect();
        let settled: f64 = root.half_solve(&k).iter().map(|v| v * v).sum();
        if settled < SETTLED {
            return None;
        }
        let value = mean + k.iter().zip(&weights).map(|(k, w)| k * w).sum::<f64>();
        Some(Point { value, sd: scales.spread * libm::sqrt((1.0 - settled).max(0.0)) })
    };
    let row = |across: &f64| planking.along_m.iter().map(|along| point(*along, *across)).collect();
    Ok(Field { points: planking.across_m.iter().map(row).collect(), scales })
}

fn check(blows: &[Struck]) -> Result<(), NoField> {
    if !(5..=600).contains(&blows.len()) {
        return Err(NoField::Count(blows.len()));
    }
    match blows.iter().position(|b| !(b.along_m.is_finite() && b.across_m.is_finite() && b.value.is_finite())) {
        Some(i) => Err(NoField::NotFinite(i + 1)),
        None => Ok(()),
    }
}

/// Coordinates in reaches, with a step at every barrier.
fn warp(along: f64, across: f64, planking: &Planking, scales: &Scales) -> (f64, f64) {
    let passed = |barriers: &[f64], at: f64| barriers.iter().filter(|b| **b < at).count() as f64;
    (
        along / scales.along_m + scales.barrier * passed(&planking.frames_m, along),
        across / scales.across_m + scales.barrier * passed(&planking.seams_m, across),
    )
}

/// Matérn covariance of order 3/2 along times the same across.
fn kernel(a: (f64, f64), b: (f64, f64)) -> f64 {
    let one = |d: f64| {
        let r = 3.0_f64.sqrt() * d.abs();
        (1.0 + r) * libm::exp(-r)
    };
    one(a.0 - b.0) * one(a.1 - b.1)
}

fn covariance(at: &[(f64, f64)], noise: f64) -> Vec<Vec<f64>> {
    let entry = |i: usize, j: usize| kernel(at[i], at[j]) + if i == j { noise } else { 0.0 };
    (0..at.len()).map(|i| (0..at.len()).map(|j| entry(i, j)).collect()).collect()
}

/// Chooses the scales of greatest likelihood among a table of them, the spread in closed form; a weak preference for reaches
/// about 0.8 m along and 0.35 m across keeps few blows from telling a story of their own.
fn fit(blows: &[Struck], planking: &Planking) -> Option<Scales> {
    let step = blows.len().div_ceil(FITTED);
    let some: Vec<Struck> = blows.iter().step_by(step).copied().collect();
    let n = some.len() as f64;
    let mean = some.iter().map(|b| b.value).sum::<f64>() / n;
    let away: Vec<f64> = some.iter().map(|b| b.value - mean).collect();
    if away.iter().all(|a| a.abs() < 1e-12) {
        return None;
    }
    let mut best: Option<(f64, Scales)> = None;
    for along in [0.25, 0.5, 0.8, 1.3, 2.0, 3.5] {
        for across in [0.12, 0.2, 0.35, 0.6, 1.0] {
            for barrier in [0.0, 0.25, 0.6] {
                for noise in [0.05, 0.2, 0.6, 1.5] {
                    let scales = Scales { along_m: along, across_m: across, barrier, spread: 1.0, scatter: 0.0 };
                    let at: Vec<(f64, f64)> =
                        some.iter().map(|b| warp(b.along_m, b.across_m, planking, &scales)).collect();
                    let Some(root) = Root::of(&covariance(&at, noise)) else { continue };
                    let square: f64 = root.half_solve(&away).iter().map(|v| v * v).sum::<f64>() / n;
                    let (a, b) = (libm::log(along / 0.8) / 0.8, libm::log(across / 0.35) / 0.8);
                    let likelihood =
                        -0.5 * n * libm::log(square) - 0.5 * root.log_determinant() - 0.5 * (a * a + b * b);
                    let spread = libm::sqrt(square);
                    if best.is_none_or(|(l, _)| likelihood > l) {
                        best = Some((likelihood, Scales { spread, scatter: spread * libm::sqrt(noise), ..scales }));
                    }
                }
            }
        }
    }
    best.map(|(_, scales)| scales)
}
