//! Strength of small clear wood at a moisture and a temperature, and under load that stays.

use crate::fault::{self, Fault};
use crate::species::{Species, Strength};
use crate::{Known, Mark};

/// Sources, for an answer.
pub const SOURCES: [&str; 3] = [
    "Wood Handbook FPL-GTR-190 (2010) Tables 5-3 and 5-5: averages of small clear pieces, green and at 12 %",
    "Wood Handbook (2021) Eq. 5-3 and Table 5-13: moisture",
    "Wood Handbook Table 5-15: temperature, immediate and reversible",
];

/// Coefficients of variation of Wood Handbook Table 5-6, %, with the property they belong to. Shear is from memory.
pub const VARIATION_PERCENT: [(&str, f64); 5] = [
    ("mor_mpa", 16.0),
    ("moe_mpa", 22.0),
    ("compression_parallel_mpa", 18.0),
    ("compression_perp_mpa", 28.0),
    ("shear_mpa", 14.0),
];

/// Strength of a wood at a moisture and temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// The strengths, with ranges and marks carried through. What is not known is `None`.
    pub strength: Strength,
    /// Specific gravity on oven-dry mass and volume at this moisture.
    pub specific_gravity: Option<Known>,
    /// Density with its water, kg/m³.
    pub density_kg_m3: Option<Known>,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Property {
    Bending,
    Stiffness,
    CompressionParallel,
    CompressionPerp,
    Shear,
    Hardness,
}

/// Returns the strength of small clear wood at a moisture content and temperature.
///
/// Moisture: P = P₁₂ (P₁₂/P_g)^((12 − M)/(M_p − 12)) below M_p, P_g above (Wood Handbook 2021 Eq. 5-3). Where no
/// green figure is known: 4 % of bending strength, 2 % of stiffness and 6 % of crushing strength per 1 % moisture
/// below M_p (an FPL wartime note). Temperature: straight lines from 20 °C to the figures of Table 5-15.
///
/// # Errors
/// A moisture that cannot be meant, a temperature outside −60 to 100 °C, or a wood of which no strength is known.
pub fn at(species: &'static Species, mc_percent: f64, temp_c: f64) -> Result<Adjusted, Fault> {
    fault::moisture("mc_percent", mc_percent)?;
    fault::within("temp_c", temp_c, -60.0, 100.0, "°C")?;
    if species.dry == Strength::default() && species.green == Strength::default() {
        return Err(Fault::NotKnown { species: species.common, what: "strength" });
    }
    let mut cautions = Vec::new();
    let mut quick = false;
    let mut put = |dry: Option<Known>, green: Option<Known>, property: Property, name: &str| {
        let moist = match (dry, green) {
            (Some(dry), Some(green)) => Some(at_moisture(dry, green, intersection_percent(species), mc_percent)),
            (Some(dry), None) if mc_percent == 12.0 => Some(dry),
            (Some(dry), None) => {
                let rate = quick_rate(property)?;
                quick = true;
                let below = mc_percent.min(intersection_percent(species)) - 12.0;
                Some(Known { mark: dry.mark.max(Mark::Derived), ..dry.map(|p| p * (1.0 - rate * below).max(0.0)) })
            }
            (None, Some(green)) if mc_percent >= intersection_percent(species) => Some(green),
            _ => None,
        }?;
        let factor = temperature_factor(property, mc_percent, temp_c);
        if let Some(caution) = moist.caution(&format!("{name} of {}", species.common)) {
            cautions.push(caution);
        }
        Some(if factor == 1.0 {
            moist
        } else {
            Known { mark: moist.mark.max(Mark::Derived), ..moist.map(|p| p * factor) }
        })
    };
    let (d, g) = (&species.dry, &species.green);
    let strength = Strength {
        mor_mpa: put(d.mor_mpa, g.mor_mpa, Property::Bending, "bending strength (MPa)"),
        moe_mpa: put(d.moe_mpa, g.moe_mpa, Property::Stiffness, "modulus of elasticity (MPa)"),
        compression_parallel_mpa: put(
            d.compression_parallel_mpa,
            g.compression_parallel_mpa,
            Property::CompressionParallel,
            "crushing strength (MPa)",
        ),
        compression_perp_mpa: put(
            d.compression_perp_mpa,
            g.compression_perp_mpa,
            Property::CompressionPerp,
            "strength across the grain (MPa)",
        ),
        shear_mpa: put(d.shear_mpa, g.shear_mpa, Property::Shear, "shear strength (MPa)"),
        hardness_n: put(d.hardness_n, g.hardness_n, Property::Hardness, "hardness (N)"),
    };
    cautions.insert(0, general(species));
    if quick {
        cautions.push(format!(
            "No green strengths are known for {}: moisture was allowed for by the quick rule, 4 % of bending strength, \
             2 % of stiffness and 6 % of crushing strength per 1 % moisture.",
            species.common
        ));
    }
    limits(mc_percent, temp_c, &mut cautions);
    let specific_gravity = species.gravity_at(mc_percent);
    cautions.extend(specific_gravity.and_then(|g| g.caution(&format!("specific gravity of {}", species.common))));
    Ok(Adjusted { strength, specific_gravity, density_kg_m3: species.density_kg_m3(mc_percent), cautions })
}

/// Returns the moisture at which drying begins to strengthen a wood, %: M_p of Wood Handbook Table 5-13, 25 for
/// woods it does not list.
pub fn intersection_percent(species: &Species) -> f64 {
    match species.id {
        "white-ash" | "douglas-fir-coast" | "tamarack" => 24.0,
        "western-larch" => 28.0,
        "longleaf-pine" => 21.0,
        "sitka-spruce" => 27.0,
        _ => 25.0,
    }
}

/// Returns the share of short-term strength that a load may use if it stays for a time:
/// (18.3 + 108.4 t^−0.0464)/100, t in seconds (Wood, FPL 1951, the Madison curve). Never above 1.
pub fn share_under_lasting_load(seconds: f64) -> f64 {
    ((18.3 + 108.4 * seconds.max(1.0).powf(-0.0464)) / 100.0).min(1.0)
}

/// Returns a property at a moisture content from its value at 12 % and green (equation at [`at`]).
pub fn at_moisture(dry: Known, green: Known, intersection_percent: f64, mc_percent: f64) -> Known {
    if mc_percent == 12.0 {
        return dry;
    }
    if mc_percent >= intersection_percent {
        return green;
    }
    let power = (12.0 - mc_percent) / (intersection_percent - 12.0);
    let one = |p12: f64, pg: f64| p12 * (p12 / pg).powf(power);
    let ends = [one(dry.low, green.low), one(dry.high, green.high), one(dry.low, green.high), one(dry.high, green.low)];
    let source = if mc_percent > 18.0 { green.source } else { dry.source };
    Known {
        value: one(dry.value, green.value),
        low: ends.iter().copied().fold(f64::INFINITY, f64::min),
        high: ends.iter().copied().fold(0.0, f64::max),
        mark: dry.mark.max(green.mark).max(Mark::Derived),
        source,
    }
}

fn quick_rate(property: Property) -> Option<f64> {
    match property {
        Property::Bending => Some(0.04),
        Property::Stiffness => Some(0.02),
        Property::CompressionParallel => Some(0.06),
        _ => None,
    }
}

/// Factor on a property for temperature, from the rows of Wood Handbook Table 5-15: (moisture, % at −50, % at +50).
fn temperature_factor(property: Property, mc: f64, temp_c: f64) -> f64 {
    let rows: &[(f64, f64, f64)] = match property {
        Property::Bending => &[(4.0, 18.0, -10.0), (13.0, 35.0, -20.0), (19.0, 60.0, -25.0), (30.0, 110.0, -25.0)],
        // No figure is printed for hot wood above fibre saturation; that at 12 % is held.
        Property::Stiffness => &[(0.0, 11.0, -6.0), (12.0, 17.0, -7.0), (30.0, 50.0, -7.0)],
        Property::CompressionParallel => &[(0.0, 20.0, -10.0), (12.0, 50.0, -25.0)],
        // Nothing is printed for the cold side of the next two: wood is stronger cold, so leaving it is safe.
        Property::CompressionPerp => &[(6.0, 0.0, -20.0), (10.0, 0.0, -35.0)],
        Property::Shear => &[(0.0, 0.0, -25.0)],
        Property::Hardness => &[(0.0, 0.0, 0.0)],
    };
    let cold = temp_c < 20.0;
    let pick = |row: &(f64, f64, f64)| if cold { row.1 } else { row.2 };
    let percent = match rows.iter().position(|row| mc <= row.0) {
        Some(0) => pick(&rows[0]),
        Some(i) => {
            let (a, b) = (&rows[i - 1], &rows[i]);
            pick(a) + (pick(b) - pick(a)) * (mc - a.0) / (b.0 - a.0)
        }
        None => rows.last().map_or(0.0, pick),
    };
    let share = if cold { (20.0 - temp_c) / 70.0 } else { (temp_c - 20.0) / 30.0 };
    1.0 + percent / 100.0 * share.min(1.0)
}

fn general(species: &Species) -> String {
    format!(
        "Averages of small clear straight pieces of {}: single pieces vary (coefficient of variation 16 % in bending, \
         22 % in stiffness, 28 % across the grain), and knots, sloping grain, fastening holes, decay and age take \
         more off. They are not design values.",
        species.common
    )
}

fn limits(mc_percent: f64, temp_c: f64, cautions: &mut Vec<String>) {
    if mc_percent < 8.0 {
        cautions.push("Below 8 % moisture the moisture equation is carried beyond its printed example.".to_owned());
    }
    if !(-50.0..=50.0).contains(&temp_c) {
        cautions.push("The temperature table ends at -50 and +50 °C; its end figure was held.".to_owned());
    }
    if temp_c < 0.0 && mc_percent > 20.0 {
        cautions.push("Frozen wet wood seems sound and strong even when far decayed; test it thawed.".to_owned());
    }
}
