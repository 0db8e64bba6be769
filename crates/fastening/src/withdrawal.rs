//! Withdrawal of screws, nails, lag screws and drifts from the side grain of seasoned wood.
//!
//! Two families of values, on two bases of specific gravity ([`crate::gravity`]):
//! - *ultimate*, averages of short tests: Wood Handbook, FPL-GTR-190 (2010) ch. 8, Eqs. 8-1 (nails), 8-9
//!   (drifts), 8-10 (screws), 8-14 (lag screws);
//! - *reference*, allowable for ten years in dry service: National Design Specification (2018) 12.2.

use crate::Fault;
use crate::gravity::Gravity;
use crate::unit::{IN_MM, LBF_IN_N_MM};
use timber::Mark;

/// What is drawn out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Wood screw; penetration is that of the thread.
    WoodScrew,
    /// Smooth-shanked nail.
    Nail,
    /// Lag screw; penetration is that of the thread without the tapered point.
    LagScrew,
    /// Drift bolt. The equation is from memory.
    DriftBolt,
}

/// The force that draws a fastening, before any adjustment.
#[derive(Clone, Debug, PartialEq)]
pub struct Withdrawal {
    /// Reference design value for each mm of penetration, N/mm; `None` for drifts, which have none.
    pub reference_n_per_mm: Option<f64>,
    /// Reference design value, N.
    pub reference_n: Option<f64>,
    /// Average ultimate for each mm of penetration, N/mm.
    pub ultimate_n_per_mm: f64,
    /// Average ultimate, N.
    pub ultimate_n: f64,
    /// What the ultimate's equation rests on.
    pub ultimate_mark: Mark,
    /// Limits of the equations that are not met, in sentences. May be empty.
    pub limits: Vec<String>,
}

/// Returns the withdrawal of a fastening of diameter D (shank; for square nails that of equal perimeter) with a
/// penetration L into side grain.
///
/// With D and L in mm, p in N: screws p = 108.25 G² D L, nails 54.12 G^2.5 D L, lag screws
/// 125.4 G^1.5 D^0.75 L, drifts 45.51 G² D L (from memory). Reference, lbf per inch with D in inches: screws
/// 2850 G² D, nails 1380 G^2.5 D, lag screws 1800 G^1.5 D^0.75.
///
/// # Errors
/// When a figure is not that of a fastening.
pub fn withdrawal(kind: Kind, diameter_mm: f64, penetration_mm: f64, gravity: Gravity) -> Result<Withdrawal, Fault> {
    let d = Fault::between("diameter_mm", diameter_mm, 0.8, 60.0)?;
    let l = Fault::between("penetration_mm", penetration_mm, 0.5, 1500.0)?;
    let d_in = d / IN_MM;
    let (g, g0) = (gravity.at_12, gravity.oven_dry);
    let (per_mm, reference_lbf_in, mark) = match kind {
        Kind::WoodScrew => (108.25 * g.powi(2) * d, Some(2850.0 * g0.powi(2) * d_in), Mark::Read),
        Kind::Nail => (54.12 * g.powf(2.5) * d, Some(1380.0 * g0.powf(2.5) * d_in), Mark::Read),
        Kind::LagScrew => {
            (125.4 * g.powf(1.5) * d.powf(0.75), Some(1800.0 * g0.powf(1.5) * d_in.powf(0.75)), Mark::Read)
        }
        Kind::DriftBolt => (45.51 * g.powi(2) * d, None, Mark::FromMemory),
    };
    let reference_n_per_mm = reference_lbf_in.map(|w| w * LBF_IN_N_MM);
    Ok(Withdrawal {
        reference_n_per_mm,
        reference_n: reference_n_per_mm.map(|w| w * l),
        ultimate_n_per_mm: per_mm,
        ultimate_n: per_mm * l,
        ultimate_mark: mark,
        limits: limits(kind, d, l),
    })
}

fn limits(kind: Kind, d: f64, l: f64) -> Vec<String> {
    let mut limits = Vec::new();
    let depth = l / d;
    match kind {
        Kind::WoodScrew => {
            if depth < 6.0 {
                limits.push(format!(
                    "The thread goes in {depth:.1} diameters; the reference values are for at least 6 \
                     (National Design Specification 2018, 12.1.5.6)."
                ));
            }
            if depth < 7.0 {
                limits.push(format!(
                    "The thread goes in {depth:.1} diameters; the ultimate was fitted to screws with at least 7."
                ));
            }
        }
        Kind::LagScrew if depth < 4.0 => limits.push(format!(
            "The thread goes in {depth:.1} diameters; the reference values are for at least 4 \
             (National Design Specification 2018, 12.1.4.6)."
        )),
        Kind::Nail => limits.push(
            "The nail's ultimate is that just after driving into seasoned wood; a smooth nail loses much of it as \
             the wood wets and dries. A clenched or riveted nail holds by its clench, which is not reckoned here."
                .to_owned(),
        ),
        Kind::DriftBolt => limits.push("The equation for drifts is from memory, unconfirmed.".to_owned()),
        Kind::LagScrew => {}
    }
    limits
}

/// Returns the tension in N at which the root of a screw parts.
///
/// # Errors
/// When a figure is not greater than nothing.
pub fn root_tension_n(root_mm: f64, ultimate_mpa: f64) -> Result<f64, Fault> {
    let d = Fault::positive("root_mm", root_mm)?;
    Ok(Fault::positive("ultimate_mpa", ultimate_mpa)? * core::f64::consts::PI * d * d / 4.0)
}
