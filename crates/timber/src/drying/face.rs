//! What stands between a plank's face and the air.

use crate::moisture;

/// How freely air moves over the plank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Exposure {
    /// Out of doors in a breeze: emission coefficient 1·10⁻⁷ m/s on a moisture basis.
    #[default]
    Breeze,
    /// Still shed or under a cover: 3·10⁻⁸ m/s.
    Shed,
    /// Another emission coefficient, m/s.
    Emission(f64),
}

impl Exposure {
    /// Returns the surface emission coefficient, m/s on a moisture basis. The two defaults lie in the order of
    /// 10⁻⁸ to 10⁻⁶ m/s (from memory); no measured value for a boat ashore is known here.
    pub fn emission_m_s(self) -> f64 {
        match self {
            Exposure::Breeze => 1e-7,
            Exposure::Shed => 3e-8,
            Exposure::Emission(s) => s,
        }
    }
}

/// What the face is coated with.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Coating {
    /// Bare wood.
    #[default]
    Bare,
    /// Worn or crazed paint: air-layer thickness 0.14 m.
    WornPaint,
    /// Sound oil or alkyd paint: air-layer thickness 1.4 m.
    OilPaint,
    /// Sound epoxy, sheathed or not: air-layer thickness 50 m.
    Epoxy,
    /// A film of which the maker prints the equivalent air-layer thickness s_d, in metres.
    AirLayer(f64),
}

impl Coating {
    /// Returns the equivalent air-layer thickness for water vapour, m. 0.14 and 1.4 m are the bounds of the classes
    /// of EN 1062-1; that these coatings lie near them, and 50 m for epoxy, is from memory. No value measured on a
    /// boat is known here: a factor of three either way.
    pub fn air_layer_m(self) -> f64 {
        match self {
            Coating::Bare => 0.0,
            Coating::WornPaint => 0.14,
            Coating::OilPaint => 1.4,
            Coating::Epoxy => 50.0,
            Coating::AirLayer(metres) => metres,
        }
    }
}

/// Conductance of air film and coating in series, m/s on a moisture basis.
///
/// A coating of air-layer thickness s_d lets through (δ/s_d) Δp, δ the vapour permeability of still air; on a
/// moisture basis that is S = δ/s_d · dp/du / ρ₀ with u the moisture as a fraction, dp/du from the slope of the
/// equilibrium moisture in the middle of its range (65 %), ρ₀ the oven-dry density.
pub fn conductance_m_s(exposure: Exposure, coating: Coating, temp_c: f64, oven_dry_kg_m3: f64) -> f64 {
    let film = exposure.emission_m_s();
    let layer = coating.air_layer_m();
    if layer <= 0.0 {
        return film;
    }
    const AIR_KG_M_S_PA: f64 = 1.9e-10;
    let slope = (moisture::emc(temp_c, 0.75) - moisture::emc(temp_c, 0.55)) / 0.20 / 100.0;
    let paint = AIR_KG_M_S_PA / layer * moisture::saturation_pa(temp_c) / slope / oven_dry_kg_m3;
    1.0 / (1.0 / film + 1.0 / paint)
}
