//! Equilibrium moisture content: what wood comes to when it stays in air of one temperature and humidity.

use crate::fault::{self, Fault};

/// Band within which a real piece of wood lies about the equation: species differ, and drying wood sits above
/// wetting wood. Per cent moisture, either way; from memory of the usual hysteresis of 1 to 3 %.
pub const BAND_PERCENT: f64 = 1.5;

/// Source of the equation, for an answer.
pub const SOURCE: &str = "Wood Handbook FPL-GTR-190 (2010) Eq. 4-5 and Table 4-2 (Hailwood-Horrobin, two hydrates); \
                          Simpson, FPL-RN-0268 (1998)";

/// Returns the equilibrium moisture content in per cent.
///
/// EMC = 1800/W · [K h/(1 − K h) + (K₁ K h + 2 K₁ K₂ K² h²)/(1 + K₁ K h + K₁ K₂ K² h²)], h the relative humidity as
/// a fraction and W, K, K₁, K₂ quadratics in °C: Wood Handbook FPL-GTR-190 (2010) Eq. 4-5. Printed for about −1 to
/// 130 °C and held against its table from −1 to 66 °C.
///
/// # Errors
/// A temperature outside −40 to 100 °C, a humidity outside 0 to 100 % or one that reads as a fraction.
///
/// ```
/// let emc = timber::moisture::equilibrium_percent(21.1, 65.0).unwrap();
/// assert!((emc - 12.0).abs() < 0.1); // Wood Handbook Table 4-2, 70 °F and 65 %
/// ```
pub fn equilibrium_percent(temp_c: f64, rh_percent: f64) -> Result<f64, Fault> {
    fault::within("temp_c", temp_c, -40.0, 100.0, "°C")?;
    fault::humidity("rh_percent", rh_percent)?;
    Ok(emc(temp_c, rh_percent / 100.0))
}

/// Returns the relative humidity at which wood of a moisture content neither dries nor wets, in per cent; `None`
/// when the wood is at or above what the equation gives in saturated air.
///
/// # Errors
/// A temperature outside −40 to 100 °C or a moisture that cannot be meant.
pub fn humidity_for(temp_c: f64, mc_percent: f64) -> Result<Option<f64>, Fault> {
    fault::within("temp_c", temp_c, -40.0, 100.0, "°C")?;
    fault::moisture("mc_percent", mc_percent)?;
    if mc_percent >= emc(temp_c, 1.0) {
        return Ok(None);
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if emc(temp_c, middle) < mc_percent { low = middle } else { high = middle }
    }
    Ok(Some(50.0 * (low + high)))
}

/// Returns the relative humidity at a plank that the sun has made warmer than the air, in per cent: the same
/// vapour against a hotter face. Magnus formula, p_s = 0.61094 exp(17.625 t/(t + 243.04)) kPa.
pub fn humidity_at_plank(air_c: f64, rh_percent: f64, plank_c: f64) -> f64 {
    (rh_percent * saturation_pa(air_c) / saturation_pa(plank_c)).min(100.0)
}

/// Returns cautions that belong to an answer about air of this temperature and humidity.
pub fn cautions(temp_c: f64, rh_percent: f64) -> Vec<String> {
    let mut found = vec![format!(
        "The equation knows no species and no history: take the answer as within ±{BAND_PERCENT} % moisture (the width \
         of that band is from memory); drying wood sits above it and wetting wood below."
    )];
    if rh_percent > 75.0 {
        found.push(
            "Wood soaked with sea salt holds more water than this above about 75 % relative humidity (from memory)."
                .to_owned(),
        );
    }
    if !(-1.2..=66.0).contains(&temp_c) {
        found.push("The equation was held against its table from -1 to 66 °C only; this is outside.".to_owned());
    }
    if rh_percent > 95.0 {
        found.push("The table ends at 95 % relative humidity; above it the equation is carried on.".to_owned());
    }
    found
}

/// Saturation vapour pressure over water, Pa (Magnus).
pub(crate) fn saturation_pa(temp_c: f64) -> f64 {
    610.94 * (17.625 * temp_c / (temp_c + 243.04)).exp()
}

/// Equilibrium moisture in per cent for a humidity given as a fraction.
pub(crate) fn emc(t: f64, h: f64) -> f64 {
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    let k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    let kh = k * h;
    let hydrates = k1 * kh + k1 * k2 * kh * kh;
    1800.0 / w * (kh / (1.0 - kh) + (hydrates + k1 * k2 * kh * kh) / (1.0 + hydrates))
}
