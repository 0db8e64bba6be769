//! European figures beside the American ones: characteristic withdrawal, pull-through and yield moment.
//!
//! EN 1995-1-1 (Eurocode 5, 2004 with A1 and A2), read in a textbook reprint; and tests on dense European
//! hardwoods. Characteristic values: they want the characteristic density of the wood, not its average.

use crate::Fault;

/// Returns the characteristic withdrawal of one screw in N: f = 0.52 d^−0.5 l^−0.1 ρ^0.8 N/mm²,
/// F = f d l k_d / (1.2 cos²α + sin²α), k_d = min(d/8, 1) (8.7.2). For 6 ≤ d ≤ 12 mm (from memory).
///
/// # Errors
/// When a figure is not greater than nothing.
pub fn screw_withdrawal_n(
    diameter_mm: f64,
    penetration_mm: f64,
    characteristic_density_kg_m3: f64,
    angle_to_grain_deg: f64,
) -> Result<f64, Fault> {
    let d = Fault::positive("diameter_mm", diameter_mm)?;
    let l = Fault::positive("penetration_mm", penetration_mm)?;
    let rho = Fault::between("characteristic_density_kg_m3", characteristic_density_kg_m3, 100.0, 1300.0)?;
    let a = Fault::between("angle_to_grain_deg", angle_to_grain_deg, 0.0, 90.0)?.to_radians();
    let f = 0.52 * d.powf(-0.5) * l.powf(-0.1) * rho.powf(0.8);
    Ok(f * d * l * (d / 8.0).min(1.0) / (1.2 * a.cos().powi(2) + a.sin().powi(2)))
}

/// Returns the characteristic withdrawal of a screw in ash, beech or robinia in N: F = f π d l,
/// f = 7·10⁻⁴ ρ^1.6 d^−0.34 for 30° to 90° to the grain, falling in line to 70 % along it (Hübner, CIB-W18
/// 46-7-4, abstract). `penetration_mm` is less 1.1 d for the point.
///
/// # Errors
/// When a figure is not greater than nothing.
pub fn hardwood_screw_withdrawal_n(
    diameter_mm: f64,
    penetration_mm: f64,
    characteristic_density_kg_m3: f64,
    angle_to_grain_deg: f64,
) -> Result<f64, Fault> {
    let d = Fault::positive("diameter_mm", diameter_mm)?;
    let l = Fault::positive("penetration_mm", penetration_mm)?;
    let rho = Fault::between("characteristic_density_kg_m3", characteristic_density_kg_m3, 100.0, 1300.0)?;
    let a = Fault::between("angle_to_grain_deg", angle_to_grain_deg, 0.0, 90.0)?;
    let along = 0.7 + 0.3 * (a / 30.0).min(1.0);
    Ok(7e-4 * rho.powf(1.6) * d.powf(-0.34) * core::f64::consts::PI * d * l * along)
}

/// Returns what is left of a screw's withdrawal when the wood is wetter than 12 %: 2.4 % lost for each percent
/// across the grain (same tests), held at 30 %.
pub fn moisture_factor(mc_percent: f64) -> f64 {
    1.0 - 0.024 * (mc_percent.clamp(12.0, 30.0) - 12.0)
}

/// Returns the characteristic pull-through of a head in N: F = 70·10⁻⁶ ρ² d_h² (8.5.2 and 8.3.2).
///
/// # Errors
/// When a figure is not greater than nothing.
pub fn pull_through_n(head_diameter_mm: f64, characteristic_density_kg_m3: f64) -> Result<f64, Fault> {
    let head = Fault::positive("head_diameter_mm", head_diameter_mm)?;
    let rho = Fault::between("characteristic_density_kg_m3", characteristic_density_kg_m3, 100.0, 1300.0)?;
    Ok(70e-6 * rho * rho * head * head)
}

/// Returns the characteristic yield moment of a nail in N·mm: 0.3 f_u d^2.6 round, 0.45 f_u d^2.6 square (8.3.1).
///
/// # Errors
/// When a figure is not greater than nothing.
pub fn nail_yield_moment_n_mm(size_mm: f64, square: bool, ultimate_mpa: f64) -> Result<f64, Fault> {
    let d = Fault::positive("diameter_mm", size_mm)?;
    let fu = Fault::positive("ultimate_mpa", ultimate_mpa)?;
    Ok(if square { 0.45 } else { 0.3 } * fu * d.powf(2.6))
}
