//! Sideways load on a dowel-type fastening through a plank into a frame: the yield limit equations.
//!
//! National Design Specification (2018) Table 12.3.1A, all modes, single and double shear. The lead (1 + 2Rₑ)
//! in k₂ was checked here by equilibrium; a public programme has (2 + Rₑ) there, right only for Rₑ = 1.

use crate::Fault;
use crate::unit::{IN_MM, LBF_N, PSI_MPA};
use std::fmt;

/// One member of the joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Member {
    /// Length of the fastening that bears in it, mm.
    pub bearing_mm: f64,
    /// Oven-dry specific gravity on oven-dry volume.
    pub gravity: f64,
    /// Angle between load and grain, degrees (0 along, 90 across). Counts only at 1/4 in and over.
    pub angle_deg: f64,
}

/// The fastening in the joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dowel {
    /// Nominal (shank) diameter in mm.
    pub diameter_mm: f64,
    /// Diameter that bends and bears in mm: the root where thread lies in the joint (12.3.7), else the shank.
    pub bearing_diameter_mm: f64,
    /// Bending yield strength in N/mm².
    pub yield_mpa: f64,
}

/// How many planes shear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shear {
    /// One plane: plank on frame.
    Single,
    /// Two planes: the main member between two alike.
    Double,
}

/// A way in which the joint yields.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// The frame (main member) is crushed along the whole fastening.
    Im,
    /// The plank (side member) is crushed along the whole fastening.
    Is,
    /// The fastening turns stiffly in both.
    II,
    /// The fastening bends in the plank and the frame is crushed.
    IIIm,
    /// The fastening bends in the frame and the plank is crushed.
    IIIs,
    /// The fastening bends in both.
    IV,
}

impl Mode {
    /// All modes, in the table's order.
    pub const ALL: [Mode; 6] = [Mode::Im, Mode::Is, Mode::II, Mode::IIIm, Mode::IIIs, Mode::IV];

    /// Returns what gives, in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Mode::Im => "the main member is crushed",
            Mode::Is => "the side member is crushed",
            Mode::II => "the fastening turns stiffly in both members",
            Mode::IIIm => "the fastening bends in the side member and crushes the main member",
            Mode::IIIs => "the fastening bends in the main member and crushes the side member",
            Mode::IV => "the fastening bends in both members",
        }
    }
}

impl fmt::Display for Mode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(self, f)
    }
}

/// The sideways load at yield by every mode, and the mode that governs.
#[derive(Clone, Debug, PartialEq)]
pub struct Lateral {
    /// Reference design value, N: the least of the modes.
    pub reference_n: f64,
    /// The mode that gives it.
    pub mode: Mode,
    /// Every mode that applies with its value in N.
    pub modes: Vec<(Mode, f64)>,
    /// Bearing strength of the main member, N/mm².
    pub main_bearing_mpa: f64,
    /// Bearing strength of the side member, N/mm².
    pub side_bearing_mpa: f64,
}

/// Returns the dowel bearing strength of wood in N/mm².
///
/// Under 1/4 in, any direction: 16,600 G^1.84 psi. From 1/4 in: along the grain 11,200 G; across
/// 6,100 G^1.45/√D (from memory as text, confirmed by reproducing the printed Table 12K); between by Hankinson.
///
/// # Errors
/// When a figure is out of range.
pub fn bearing_mpa(diameter_mm: f64, gravity: f64, angle_deg: f64) -> Result<f64, Fault> {
    let d = Fault::positive("diameter_mm", diameter_mm)? / IN_MM;
    let g = Fault::between("specific_gravity", gravity, 0.1, 1.5)?;
    let angle = Fault::between("angle_deg", angle_deg, 0.0, 90.0)?.to_radians();
    if d < 0.25 - 1e-9 {
        return Ok(16_600.0 * g.powf(1.84) * PSI_MPA);
    }
    let along = 11_200.0 * g;
    let across = 6_100.0 * g.powf(1.45) / d.sqrt();
    let (s, c) = (angle.sin().powi(2), angle.cos().powi(2));
    Ok(along * across / (along * s + across * c) * PSI_MPA)
}

/// Returns the reference sideways load of one fastening.
///
/// # Errors
/// When a figure is out of range.
pub fn lateral(dowel: Dowel, main: Member, side: Member, shear: Shear) -> Result<Lateral, Fault> {
    let main_bearing = bearing_mpa(dowel.diameter_mm, main.gravity, main.angle_deg)?;
    let side_bearing = bearing_mpa(dowel.diameter_mm, side.gravity, side.angle_deg)?;
    let theta = main.angle_deg.max(side.angle_deg);
    with_bearing(dowel, (main.bearing_mm, main_bearing), (side.bearing_mm, side_bearing), theta, shear)
}

/// Returns the same for bearing strengths given (N/mm²), as for a side plate of steel. `theta_deg` is the
/// greatest angle between load and grain in any member.
///
/// # Errors
/// When a figure is out of range.
pub fn with_bearing(
    dowel: Dowel,
    (main_mm, main_bearing_mpa): (f64, f64),
    (side_mm, side_bearing_mpa): (f64, f64),
    theta_deg: f64,
    shear: Shear,
) -> Result<Lateral, Fault> {
    let nominal = Fault::between("diameter_mm", dowel.diameter_mm, 0.8, 60.0)? / IN_MM;
    let d = Fault::between("bearing_diameter_mm", dowel.bearing_diameter_mm, 0.3, 60.0)? / IN_MM;
    if d > nominal * (1.0 + 1e-9) {
        let accepted = format!("a diameter up to {} mm", dowel.diameter_mm);
        let why = "the root is larger than the shank";
        return Err(Fault::value("bearing_diameter_mm", dowel.bearing_diameter_mm, why, accepted));
    }
    let lm = Fault::between("main_thickness_mm", main_mm, 0.5, 2000.0)? / IN_MM;
    let ls = Fault::between("side_thickness_mm", side_mm, 0.5, 2000.0)? / IN_MM;
    let fyb = Fault::between("yield_mpa", dowel.yield_mpa, 20.0, 2000.0)? / PSI_MPA;
    let fem = Fault::positive("main_bearing_mpa", main_bearing_mpa)? / PSI_MPA;
    let fes = Fault::positive("side_bearing_mpa", side_bearing_mpa)? / PSI_MPA;
    let theta = Fault::between("angle_deg", theta_deg, 0.0, 90.0)?;

    let (re, rt) = (fem / fes, lm / ls);
    let k1 = ((re + 2.0 * re.powi(2) * (1.0 + rt + rt.powi(2)) + rt.powi(2) * re.powi(3)).sqrt() - re * (1.0 + rt))
        / (1.0 + re);
    let k2 = -1.0 + (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm)).sqrt();
    let k3 = -1.0 + (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls)).sqrt();
    let single = |mode: Mode| {
        let rd = reduction(mode, nominal, d, theta);
        let z_lbf = match mode {
            Mode::Im => d * lm * fem / rd,
            Mode::Is => d * ls * fes / rd,
            Mode::II => k1 * d * ls * fes / rd,
            Mode::IIIm => k2 * d * lm * fem / ((1.0 + 2.0 * re) * rd),
            Mode::IIIs => k3 * d * ls * fem / ((2.0 + re) * rd),
            Mode::IV => d * d / rd * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
        };
        z_lbf * LBF_N
    };
    let modes: Vec<(Mode, f64)> = match shear {
        Shear::Single => Mode::ALL.iter().map(|m| (*m, single(*m))).collect(),
        // In double shear modes II and IIIm cannot happen; all but Im act twice.
        Shear::Double => [(Mode::Im, 1.0), (Mode::Is, 2.0), (Mode::IIIs, 2.0), (Mode::IV, 2.0)]
            .into_iter()
            .map(|(m, planes)| (m, planes * single(m)))
            .collect(),
    };
    let least = modes.iter().copied().min_by(|a, b| a.1.total_cmp(&b.1));
    let (mode, reference_n) = least.unwrap_or((Mode::Im, 0.0));
    Ok(Lateral { reference_n, mode, modes, main_bearing_mpa, side_bearing_mpa })
}

/// The reduction term R_d, Table 12.3.1B: K_D under 1/4 in (2.2, or 10 D + 0.5 over 0.17 in); from 1/4 in 4, 3.6
/// or 3.2 times K_θ = 1 + 0.25 θ/90°; K_D K_θ where the nominal diameter is 1/4 in or more and the root is less.
fn reduction(mode: Mode, nominal_in: f64, d_in: f64, theta_deg: f64) -> f64 {
    let k_theta = 1.0 + 0.25 * theta_deg / 90.0;
    if d_in < 0.25 - 1e-9 {
        let k_d = if d_in <= 0.17 { 2.2 } else { 10.0 * d_in + 0.5 };
        return if nominal_in >= 0.25 - 1e-9 { k_d * k_theta } else { k_d };
    }
    let by_mode = match mode {
        Mode::Im | Mode::Is => 4.0,
        Mode::II => 3.6,
        Mode::IIIm | Mode::IIIs | Mode::IV => 3.2,
    };
    by_mode * k_theta
}

/// Returns the bending yield strength in N/mm² of common steel nails and wood screws by shank, National Design
/// Specification (2018) Appendix I, from memory but for #10 screws: up to 0.142 in 100,000 psi, to 0.177
/// 90,000, to 0.236 80,000, to 0.273 70,000, to 0.344 60,000, above 45,000.
pub fn steel_yield_mpa(diameter_mm: f64) -> f64 {
    let d = diameter_mm / IN_MM + 1e-9;
    let psi = match d {
        d if d <= 0.1425 => 100_000.0,
        d if d <= 0.1775 => 90_000.0,
        d if d <= 0.2365 => 80_000.0,
        d if d <= 0.2735 => 70_000.0,
        d if d <= 0.3445 => 60_000.0,
        _ => 45_000.0,
    };
    psi * PSI_MPA
}
