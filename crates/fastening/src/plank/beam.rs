//! A plank as a continuous beam forced to pass through given offsets, hinged at its last fastenings.
//!
//! The three-moment equation in its general form (Clapeyron, with settled supports), unequal bays allowed:
//! M₋ l₋ + 2 M (l₋ + l₊) + M₊ l₊ = 6 E I [(w − w₋)/l₋ − (w₊ − w)/l₊].

use crate::Fault;

/// Greatest number of rows reckoned with.
pub const GREATEST_ROWS: usize = 200;

/// Moments and pulls at the rows of fastenings.
#[derive(Clone, Debug, PartialEq)]
pub struct Forced {
    /// Bending moment at each row, N·mm; positive where the plank is bent convex outwards.
    pub moments_n_mm: Vec<f64>,
    /// Pull of each whole row on the plank, N: positive where the fastenings hold the plank in, negative where
    /// it bears on the frame.
    pub pulls_n: Vec<f64>,
}

/// Returns moments and pulls of a plank of bending stiffness E I forced through `offsets_mm` (outwards from a
/// straight line, on the plank as it would lie straight) at `positions_mm` along it.
///
/// # Errors
/// With fewer than two rows, positions not rising, or figures that are not numbers.
pub fn forced(stiffness_n_mm2: f64, positions_mm: &[f64], offsets_mm: &[f64]) -> Result<Forced, Fault> {
    let ei = Fault::positive("stiffness_n_mm2", stiffness_n_mm2)?;
    checked(positions_mm, offsets_mm)?;
    let n = positions_mm.len();
    let bays: Vec<f64> = positions_mm.windows(2).map(|p| p[1] - p[0]).collect();
    let slopes: Vec<f64> = offsets_mm.windows(2).zip(&bays).map(|(w, l)| (w[1] - w[0]) / l).collect();
    let moments = solved(&bays, &slopes, ei, n);
    let rise: Vec<f64> = moments.windows(2).zip(&bays).map(|(m, l)| (m[1] - m[0]) / l).collect();
    let pulls = (0..n).map(|i| rise.get(i).copied().unwrap_or(0.0) - if i == 0 { 0.0 } else { rise[i - 1] }).collect();
    Ok(Forced { moments_n_mm: moments, pulls_n: pulls })
}

/// Returns the standard deviation of each row's pull, N, when every offset was read with `sd_mm`. Offsets at close
/// frames make a poor measure of pull: an error of a millimetre counts as a hump.
///
/// # Errors
/// As [`forced`].
pub fn pull_sd_n(stiffness_n_mm2: f64, positions_mm: &[f64], sd_mm: f64) -> Result<Vec<f64>, Fault> {
    let sd = Fault::between("offset_sd_mm", sd_mm, 0.0, 1000.0)?;
    let n = positions_mm.len();
    let mut squares = vec![0.0; n];
    for i in 0..n {
        let mut one = vec![0.0; n];
        one[i] = sd;
        let pulls = forced(stiffness_n_mm2, positions_mm, &one)?.pulls_n;
        squares.iter_mut().zip(pulls).for_each(|(sum, pull)| *sum += pull * pull);
    }
    Ok(squares.into_iter().map(f64::sqrt).collect())
}

/// Returns the offsets in mm of a curve of constant curvature 1/mm, convex outwards when positive: w = −κ x²/2
/// with x from the middle. Arc length stands for x, so that curvature is kept exactly.
pub fn constant_curve(positions_mm: &[f64], curvature_per_mm: f64) -> Vec<f64> {
    let middle = match (positions_mm.first(), positions_mm.last()) {
        (Some(a), Some(b)) => (a + b) / 2.0,
        _ => 0.0,
    };
    positions_mm.iter().map(|x| -curvature_per_mm * (x - middle).powi(2) / 2.0).collect()
}

/// Solves the tridiagonal system; end moments are nothing.
fn solved(bays: &[f64], slopes: &[f64], ei: f64, n: usize) -> Vec<f64> {
    let mut moments = vec![0.0; n];
    if n < 3 {
        return moments;
    }
    let inner = n - 2;
    let (mut above, mut right) = (vec![0.0; inner], vec![0.0; inner]);
    for i in 0..inner {
        let below = if i == 0 { 0.0 } else { bays[i] };
        let load = 6.0 * ei * (slopes[i] - slopes[i + 1]);
        let (before_above, before_right) = if i == 0 { (0.0, 0.0) } else { (above[i - 1], right[i - 1]) };
        let pivot = 2.0 * (bays[i] + bays[i + 1]) - below * before_above;
        above[i] = bays[i + 1] / pivot;
        right[i] = (load - below * before_right) / pivot;
    }
    for i in (0..inner).rev() {
        moments[i + 1] = right[i] - if i + 1 < inner { above[i] * moments[i + 2] } else { 0.0 };
    }
    moments
}

fn checked(positions: &[f64], offsets: &[f64]) -> Result<(), Fault> {
    if positions.len() < 2 || positions.len() > GREATEST_ROWS {
        let accepted = format!("from 2 to {GREATEST_ROWS} rows");
        return Err(Fault::value("rows", positions.len() as f64, "this is no run of fastenings", accepted));
    }
    if positions.len() != offsets.len() {
        let why = format!("there are {} positions and {} offsets", positions.len(), offsets.len());
        return Err(Fault::Meaningless(format!("Each row needs a position and an offset: {why}.")));
    }
    if let Some(pair) = positions.windows(2).find(|p| !(p[1] - p[0]).is_finite() || p[1] - p[0] < 1.0) {
        let why = format!("it does not lie at least 1 mm beyond the one before it ({} mm)", pair[0]);
        return Err(Fault::value("positions_mm", pair[1], why, "positions that rise along the plank"));
    }
    match offsets.iter().find(|w| !w.is_finite()) {
        Some(bad) => Err(Fault::value("offsets_mm", *bad, "this is not a number", "offsets in mm")),
        None => Ok(()),
    }
}
