//! The published small-craft rule's design pressure and panel thickness, for comparison.
//!
//! Source: ISO 12215-5, motor craft in displacement mode, clause numbers of the 2008 edition, as restated in a public
//! source that names the clauses (second-hand; the standard itself was not seen). The 2019 edition covers glued wood
//! and plywood and **expressly excludes traditional wooden construction**: for carvel and clinker its figures are a
//! comparison only.

use crate::HullError;

/// Design category of the rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Category {
    /// Ocean.
    A,
    /// Offshore.
    B,
    /// Inshore.
    C,
    /// Sheltered waters.
    D,
}

impl Category {
    /// Returns the category of a letter.
    pub fn from_letter(letter: &str) -> Option<Category> {
        match letter {
            "A" | "a" => Some(Category::A),
            "B" | "b" => Some(Category::B),
            "C" | "c" => Some(Category::C),
            "D" | "d" => Some(Category::D),
            _ => None,
        }
    }

    /// Returns k_DC (7.2).
    pub const fn factor(self) -> f64 {
        match self {
            Category::A => 1.0,
            Category::B => 0.8,
            Category::C => 0.6,
            Category::D => 0.4,
        }
    }
}

/// What the rule asks of the boat and the panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Loaded mass, in kilograms.
    pub mass_kg: f64,
    /// Length on the waterline, in metres; without it the side's pressure and the least values cannot be had.
    pub waterline_m: Option<f64>,
    /// Category.
    pub category: Category,
    /// Short unsupported side, in millimetres.
    pub short_mm: f64,
    /// Long unsupported side, in millimetres.
    pub long_mm: f64,
    /// Where the panel stands, as a share of the waterline's length from its after end.
    pub station: f64,
    /// (Z - h)/Z: 1 at the waterline, 0 at the deck; for the side.
    pub side_share: f64,
}

/// The rule's figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressures {
    /// Design area A_D, in square metres.
    pub area_m2: f64,
    /// Area factor k_AR (7.5).
    pub area_factor: f64,
    /// Length factor k_L (7.4).
    pub length_factor: f64,
    /// Bottom pressure (8.1.2), in kilopascals, with its least value applied when the waterline is known.
    pub bottom_kpa: f64,
    /// Side pressure (8.1.4), in kilopascals, with its least value applied; none without the waterline.
    pub side_kpa: Option<f64>,
}

/// Reckons the rule's design pressures.
///
/// # Errors
/// Refuses masses, lengths and panels not above 0.
pub fn pressures(panel: &Panel) -> Result<Pressures, HullError> {
    let p = panel;
    let figures = [p.mass_kg, p.waterline_m.unwrap_or(1.0), p.short_mm, p.long_mm];
    if figures.iter().any(|v| !(*v > 0.0 && v.is_finite())) {
        return Err(HullError::value("Mass, waterline or panel", format!("{figures:?}"), "more than 0 each"));
    }
    let (short, long) = (p.short_mm.min(p.long_mm), p.short_mm.max(p.long_mm));
    let area_m2 = (long * short).min(2.5 * short * short) * 1e-6;
    let k_r = 1.5 - 3e-4 * short;
    let area_factor = (k_r * 0.1 * libm::pow(p.mass_kg, 0.15) / libm::pow(area_m2, 0.3)).clamp(0.25, 1.0);
    // Displacement craft: n_CG = 3.
    let n = 3.0;
    let length_factor =
        if p.station > 0.6 { 1.0 } else { ((1.0 - 0.167 * n) / 0.6 * p.station.max(0.0) + 0.167 * n).min(1.0) };
    let k_dc = p.category.factor();
    let root = libm::pow(p.mass_kg, 0.33);
    let base = 2.4 * root + 20.0;
    let common = area_factor * k_dc * length_factor;
    let bottom_kpa = (base * common).max(p.waterline_m.map_or(0.0, |l| 0.45 * root + 0.9 * l * k_dc));
    let side_kpa = p.waterline_m.map(|l| {
        let deck = 0.35 * l + 14.6;
        let side = deck + p.side_share.clamp(0.0, 1.0) * (base - deck);
        (side * common).max(0.9 * l * k_dc)
    });
    Ok(Pressures { area_m2, area_factor, length_factor, bottom_kpa, side_kpa })
}

/// Returns the rule's single-skin thickness (10.1.2), in millimetres: b √(P k₂ / (1000 s_d)), with s_d the design stress
/// in megapascals. k₂ is 0.5 from an aspect of 2 up.
pub fn thickness_mm(short_mm: f64, long_mm: f64, pressure_kpa: f64, design_stress_mpa: f64) -> f64 {
    let r = (long_mm / short_mm).max(1.0);
    let k2 = if r >= 2.0 {
        0.5
    } else {
        ((0.271 * r * r + 0.910 * r - 0.554) / (r * r - 0.313 * r + 1.351)).clamp(0.308, 0.5)
    };
    short_mm * (pressure_kpa * k2 / (1000.0 * design_stress_mpa)).sqrt()
}
