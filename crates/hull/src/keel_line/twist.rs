//! Twist between two lines, and racking from diagonals.

use crate::{HullError, spline::invert};

/// A pair of marks at one station, meant to be level athwart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Athwart {
    /// Distance along, in metres.
    pub x_m: f64,
    /// Height of the port mark, in millimetres, upwards.
    pub port_mm: f64,
    /// Height of the starboard mark.
    pub starboard_mm: f64,
    /// Distance between the marks, in metres.
    pub breadth_m: f64,
    /// Standard deviation of each height, in millimetres.
    pub sd_mm: f64,
}

/// How the athwart slope runs along the boat: α = α₀ + τ x, weighted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Twist {
    /// How she stands: slope at the middle of the marks, in degrees, positive with the port side up.
    pub list_deg: f64,
    /// Twist, in degrees a metre.
    pub twist_deg_per_m: f64,
    /// Its standard deviation.
    pub sd_deg_per_m: f64,
    /// Root mean square of what is left, in degrees.
    pub residual_deg: f64,
}

/// Fits twist to pairs of marks.
///
/// # Errors
/// Refuses fewer than two stations, and breadths or standard deviations not above 0.
pub fn twist(pairs: &[Athwart]) -> Result<Twist, HullError> {
    if let Some(bad) = pairs.iter().find(|p| !(p.breadth_m > 0.0 && p.sd_mm > 0.0 && p.x_m.is_finite())) {
        let what = format!("The pair of marks at x = {} m", bad.x_m);
        return Err(HullError::value(
            what,
            format!("{} m, {} mm", bad.breadth_m, bad.sd_mm),
            "a breadth and a standard deviation above 0",
        ));
    }
    let none =
        || HullError::value("The stations with a pair of marks", pairs.len(), "two at least, at different places");
    if pairs.len() < 2 {
        return Err(none());
    }
    let slopes: Vec<(f64, f64, f64)> = pairs
        .iter()
        .map(|p| {
            let rise = (p.port_mm - p.starboard_mm) / 1000.0 / p.breadth_m;
            let sd = p.sd_mm / 1000.0 * std::f64::consts::SQRT_2 / p.breadth_m / (1.0 + rise * rise);
            (p.x_m, libm::atan(rise).to_degrees(), sd.to_degrees())
        })
        .collect();
    let weight: f64 = slopes.iter().map(|s| 1.0 / (s.2 * s.2)).sum();
    let middle = slopes.iter().map(|s| s.0 / (s.2 * s.2)).sum::<f64>() / weight;
    let mut normal = vec![vec![0.0; 2]; 2];
    let mut right = [0.0; 2];
    for (x, a, sd) in &slopes {
        let row = [1.0, x - middle];
        for i in 0..2 {
            right[i] += row[i] * a / (sd * sd);
            for j in 0..2 {
                normal[i][j] += row[i] * row[j] / (sd * sd);
            }
        }
    }
    let covariance = invert(normal).ok_or_else(none)?;
    let term = |i: usize| covariance[i][0] * right[0] + covariance[i][1] * right[1];
    let (list, turn) = (term(0), term(1));
    let left: f64 = slopes.iter().map(|(x, a, _)| (a - list - turn * (x - middle)).powi(2)).sum();
    Ok(Twist {
        list_deg: list,
        twist_deg_per_m: turn,
        sd_deg_per_m: covariance[1][1].sqrt(),
        residual_deg: (left / slopes.len() as f64).sqrt(),
    })
}

/// How far one side lies abaft the other, from the two diagonals between a pair of stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Racking {
    /// Port further aft than starboard by so many metres, if the stations are square otherwise.
    pub port_aft_m: f64,
    /// Its standard deviation.
    pub sd_m: f64,
}

/// Reckons racking from diagonals: D₂² - D₁² = 4 l e, D₁ from port forward to starboard aft, D₂ from starboard
/// forward to port aft, l the distance between the stations. One pair of diagonals cannot tell this from an after
/// station shifted sideways; a third measure from the stem can.
///
/// # Errors
/// Refuses lengths not above 0.
pub fn racking(d1_m: f64, d2_m: f64, apart_m: f64, sd_m: f64) -> Result<Racking, HullError> {
    if !(d1_m > 0.0 && d2_m > 0.0 && apart_m > 0.0 && sd_m >= 0.0) {
        return Err(HullError::value(
            "A diagonal or distance",
            format!("{d1_m}, {d2_m}, {apart_m}"),
            "lengths above 0 m",
        ));
    }
    Ok(Racking {
        port_aft_m: (d2_m * d2_m - d1_m * d1_m) / (4.0 * apart_m),
        sd_m: sd_m * (d1_m * d1_m + d2_m * d2_m).sqrt() / (2.0 * apart_m),
    })
}
