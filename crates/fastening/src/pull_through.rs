//! Heads pulled through the plank: usually the weak link under a deep bung.

use crate::Fault;
use crate::unit::{IN_MM, LBF_N};
use core::f64::consts::PI;

/// The force that pulls a head through, before any adjustment.
#[derive(Clone, Debug, PartialEq)]
pub struct PullThrough {
    /// Reference design value, N.
    pub reference_n: f64,
    /// Wood under the head over head diameter.
    pub thickness_over_head: f64,
    /// What the head bears on beyond which more thickness adds nothing, mm (2.5 head diameters).
    pub effective_thickness_mm: f64,
    /// What to be careful of, in sentences.
    pub cautions: Vec<String>,
}

/// Returns the pull-through of a head or washer of a diameter with `thickness_mm` of wood left under it (plank
/// less counterbore).
///
/// National Design Specification (2018) 12.2.5, round heads: W_H = 690 π D_H G² t for t ≤ 2.5 D_H, else
/// 1725 π D_H² G² (lbf, inches). That the clause exists and is for round heads was read; its coefficients are
/// from memory (they are continuous at 2.5 D_H). G is oven-dry on oven-dry volume.
///
/// # Errors
/// When a figure is not that of a head in a plank.
pub fn pull_through(head_diameter_mm: f64, thickness_mm: f64, oven_dry_gravity: f64) -> Result<PullThrough, Fault> {
    let head = Fault::between("head_diameter_mm", head_diameter_mm, 1.0, 200.0)?;
    let t = Fault::between("thickness_mm", thickness_mm, 0.5, 300.0)?;
    let g = Fault::between("specific_gravity", oven_dry_gravity, 0.1, 1.5)?;
    let effective = t.min(2.5 * head);
    let reference_n = 690.0 * PI * (head / IN_MM) * g * g * (effective / IN_MM) * LBF_N;
    let cautions = vec![
        "The coefficients are from memory of the National Design Specification 12.2.5, unconfirmed; that clause is \
         for round heads. A countersunk head in a counterbore also wedges the plank: use the figure to rank heads, \
         not as a strength."
            .to_owned(),
    ];
    Ok(PullThrough { reference_n, thickness_over_head: t / head, effective_thickness_mm: effective, cautions })
}

/// A head compared with a larger one or with a washer under the bung.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Larger {
    /// Diameter of the larger head or washer, mm.
    pub head_diameter_mm: f64,
    /// Its reference design value, N.
    pub reference_n: f64,
    /// How many times that of the first head.
    pub gain: f64,
}

/// Returns what a larger head or a washer would hold, over the first.
///
/// # Errors
/// As [`pull_through`].
pub fn larger(
    head_diameter_mm: f64,
    larger_mm: f64,
    thickness_mm: f64,
    oven_dry_gravity: f64,
) -> Result<Larger, Fault> {
    let first = pull_through(head_diameter_mm, thickness_mm, oven_dry_gravity)?.reference_n;
    let reference_n = pull_through(larger_mm, thickness_mm, oven_dry_gravity)?.reference_n;
    Ok(Larger { head_diameter_mm: larger_mm, reference_n, gain: reference_n / first })
}

/// Returns the most that a washer can bear on the plank's face in N: three times the compression strength
/// across the grain on its net area (EN 1995-1-1 8.5.2, from memory). A washer cannot pull through at less only
/// because its own pull-through figure is larger.
///
/// # Errors
/// When the washer is not larger than its hole.
pub fn washer_bearing_n(washer_mm: f64, hole_mm: f64, compression_perp_mpa: f64) -> Result<f64, Fault> {
    Fault::positive("hole_mm", hole_mm)?;
    Fault::positive("compression_perp_mpa", compression_perp_mpa)?;
    if washer_mm.is_nan() || washer_mm <= hole_mm {
        let accepted = format!("a diameter greater than {hole_mm} mm");
        return Err(Fault::value("washer_mm", washer_mm, "the washer is not larger than its hole", accepted));
    }
    Ok(3.0 * compression_perp_mpa * PI / 4.0 * (washer_mm.powi(2) - hole_mm.powi(2)))
}
