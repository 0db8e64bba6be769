//! How much a plank's width changes when its moisture changes.

use crate::Mark;
use crate::fault::{self, Fault};
use crate::ring::Rings;
use crate::species::{Shrinkage, Species};

/// Error to carry on any computed movement, either way: the computation was held against a published movement
/// table (opepe, 90 to 60 % relative humidity: 1.0 and 2.0 % printed, 1.7 and 2.9 % computed, and the other way in
/// drier air), with errors of both signs.
pub const BAND: f64 = 0.40;

/// Sources of the equations, for an answer.
pub const SOURCES: [&str; 2] = [
    "Wood Handbook FPL-GTR-190 (2010) ch. 13, change by dimensional change coefficient (6 to 14 % moisture), Table 13-5",
    "Wood Handbook ch. 13, change by total shrinkage on green dimensions (below fibre saturation), Tables 4-3 and 4-4; \
     form from memory, confirmed against 116 of 128 printed coefficients",
];

/// Which of the handbook's two equations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// ΔD = D C (M₂ − M₁) with the printed coefficient, for 6 to 14 % moisture.
    Coefficient,
    /// ΔD = D (M₂ − M₁)/(100 F/S − F + M₁), both moistures held at F (fibre saturation) and below.
    Totals,
}

/// A change of width.
#[derive(Clone, Debug, PartialEq)]
pub struct Movement {
    /// Change of width, mm; negative when the plank shrinks.
    pub change_mm: f64,
    /// The end of the honest band that is less in the number line: all sources, ±40 %, mm.
    pub low_mm: f64,
    /// The other end of the band, mm.
    pub high_mm: f64,
    /// Change per 1 % moisture as a share of the width, at this ring angle: the printed coefficient, or what the
    /// totals come to over the part of the change that moves the wood. 0 when nothing moves.
    pub coefficient_per_percent: f64,
    /// Equation used for `change_mm`.
    pub method: Method,
    /// Change by the other equation where it can be used, mm.
    pub other_method_mm: Option<f64>,
    /// Fibre saturation point taken, % moisture.
    pub fibre_saturation_percent: f64,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
    /// Sources of the figures used.
    pub sources: Vec<String>,
}

/// Reckons the change of a plank's width. The printed coefficient is taken between 6 and 14 % moisture where the
/// wood has one; outside, the totals with their own fibre saturation point.
///
/// # Errors
/// A width or a moisture that cannot be meant, or a wood whose shrinkage is not known.
///
/// ```
/// use timber::{movement, ring::Rings, species};
/// let oak = species::find("white oak").unwrap();
/// let dried = movement::of_width(oak, Rings::FLAT, 100.0, 12.0, 8.0).unwrap();
/// assert!((dried.change_mm + 100.0 * 0.00365 * 4.0).abs() < 1e-9);
/// ```
pub fn of_width(
    species: &'static Species,
    rings: Rings,
    width_mm: f64,
    mc_from_percent: f64,
    mc_to_percent: f64,
) -> Result<Movement, Fault> {
    fault::within("width_mm", width_mm, 1.0, 2000.0, "mm")?;
    fault::moisture("mc_from_percent", mc_from_percent)?;
    fault::moisture("mc_to_percent", mc_to_percent)?;
    let Some(first) = species.shrinkage.first() else {
        return Err(Fault::NotKnown { species: species.common, what: "shrinkage" });
    };
    let by_set = |set: &Shrinkage| width_mm * share_by_totals(set, rings, mc_from_percent, mc_to_percent);
    let totals_mm = by_set(first);
    let inside = |mc: f64| (6.0..=14.0).contains(&mc);
    let printed = species.coefficients.filter(|_| inside(mc_from_percent) && inside(mc_to_percent));
    let printed_mm = printed.map(|c| {
        let c = rings.across_width(c.radial_per_percent, c.tangential_per_percent);
        (c, by_coefficient(width_mm, c, mc_from_percent, mc_to_percent))
    });

    let mut every: Vec<f64> = species.shrinkage.iter().map(by_set).collect();
    every.extend(printed_mm.map(|(_, mm)| mm));
    let least = every.iter().copied().fold(f64::INFINITY, f64::min);
    let most = every.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let (change_mm, coefficient, method, other) = match printed_mm {
        Some((c, mm)) => (mm, c, Method::Coefficient, Some(totals_mm)),
        None => {
            let f = first.fibre_saturation_percent;
            let moved = mc_to_percent.min(f) - mc_from_percent.min(f);
            let c = if moved == 0.0 { 0.0 } else { totals_mm / width_mm / moved };
            (totals_mm, c, Method::Totals, None)
        }
    };
    let mut sources = vec![format!("{}: {}", species.common, first.source)];
    if let Some(c) = printed {
        sources.insert(0, format!("{}: {}", species.common, c.source));
    }
    Ok(Movement {
        change_mm,
        low_mm: if least < 0.0 { least * (1.0 + BAND) } else { least * (1.0 - BAND) },
        high_mm: if most < 0.0 { most * (1.0 - BAND) } else { most * (1.0 + BAND) },
        coefficient_per_percent: coefficient,
        method,
        other_method_mm: other,
        fibre_saturation_percent: first.fibre_saturation_percent,
        cautions: cautions(species, first, printed.map(|c| c.mark), &every, mc_from_percent.max(mc_to_percent)),
        sources,
    })
}

/// Returns the change of thickness that goes with a change of width, mm, by the totals (rings through the thickness are
/// what rings across the width are not).
///
/// # Errors
/// A thickness or moisture that cannot be meant, a plank thicker than wide, or a wood whose shrinkage is not known.
pub fn of_thickness_mm(
    species: &'static Species,
    rings: Rings,
    (thickness_mm, width_mm): (f64, f64),
    mc_from_percent: f64,
    mc_to_percent: f64,
) -> Result<f64, Fault> {
    fault::within("thickness_mm", thickness_mm, 1.0, 2000.0, "mm")?;
    fault::plank_section(thickness_mm, width_mm)?;
    fault::moisture("mc_from_percent", mc_from_percent)?;
    fault::moisture("mc_to_percent", mc_to_percent)?;
    let set = species.shrinkage.first();
    let set = set.ok_or(Fault::NotKnown { species: species.common, what: "shrinkage" })?;
    let turned = Shrinkage { radial_percent: set.tangential_percent, tangential_percent: set.radial_percent, ..*set };
    Ok(thickness_mm * share_by_totals(&turned, rings, mc_from_percent, mc_to_percent))
}

/// Returns a change of dimension by a dimensional change coefficient: ΔD = D C (M₂ − M₁), for 6 to 14 % moisture
/// (Wood Handbook FPL-GTR-190 (2010) ch. 13). In the unit of `dimension`.
pub fn by_coefficient(dimension: f64, per_percent: f64, mc_from_percent: f64, mc_to_percent: f64) -> f64 {
    dimension * per_percent * (mc_to_percent - mc_from_percent)
}

/// Returns the change of width as a share of the width at the first moisture, by total shrinkage on green size.
///
/// ΔD/D = (M₂ − M₁)/(100 F/S − F + M₁), M₁ and M₂ held at F and below: Wood Handbook ch. 13, equation on green
/// dimensions. It is exact for shrinkage in proportion to moisture below F, so there and back gives nothing.
pub fn share_by_totals(set: &Shrinkage, rings: Rings, mc_from_percent: f64, mc_to_percent: f64) -> f64 {
    let f = set.fibre_saturation_percent;
    let s = rings.across_width(set.radial_percent, set.tangential_percent);
    let (from, to) = (mc_from_percent.min(f), mc_to_percent.min(f));
    (to - from) / (100.0 * f / s - f + from)
}

/// Returns shrinkage in per cent of green size from green to a moisture content: S (F − M)/F below F, else 0
/// (Wood Handbook 2021 Eq. 4-9). `total_percent` is S in the direction asked for.
pub fn shrinkage_from_green_percent(total_percent: f64, fibre_saturation_percent: f64, mc_percent: f64) -> f64 {
    total_percent * (fibre_saturation_percent - mc_percent.min(fibre_saturation_percent)) / fibre_saturation_percent
}

/// Returns the dimensional change coefficient at 10 % moisture that a total shrinkage implies:
/// C = S/(100 F − S (F − 10)), per 1 % moisture. At F = 30 it gives back the printed coefficients of Table 13-5.
pub fn coefficient_from_total(total_percent: f64, fibre_saturation_percent: f64) -> f64 {
    let f = fibre_saturation_percent;
    total_percent / (100.0 * f - total_percent * (f - 10.0))
}

fn cautions(species: &Species, first: &Shrinkage, printed: Option<Mark>, every: &[f64], wettest: f64) -> Vec<String> {
    let mut found = vec![
        "A computed movement is good to about ±40 % either way: held against a published movement table it erred by \
         as much with both signs. The range given carries that."
            .to_owned(),
    ];
    let least = every.iter().map(|mm| mm.abs()).fold(f64::INFINITY, f64::min);
    let most = every.iter().map(|mm| mm.abs()).fold(0.0, f64::max);
    if most > 1.02 * least && most > 0.0 {
        found.push(format!(
            "Sources for {} disagree: they give {least:.2} to {most:.2} mm before that band.",
            species.common
        ));
    }
    if first.mark == Mark::FromMemory {
        found.push(format!("The shrinkage of {} is from memory, unconfirmed ({}).", species.common, first.source));
    }
    if printed == Some(Mark::FromMemory) {
        found.push(format!("The coefficient of {} is from memory, unconfirmed.", species.common));
    }
    if wettest > first.fibre_saturation_percent {
        found.push(format!(
            "Above fibre saturation, taken as {} % for {}, wood does not move.",
            first.fibre_saturation_percent, species.common
        ));
    }
    found
}
