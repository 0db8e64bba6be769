//! A timber with the heart boxed in it: why it must check, and how wide its checks may be from drying alone.

use crate::fault::{self, Fault};
use crate::movement::BAND;
use crate::species::Species;

/// How wide the checks of a heart-centred timber may be from drying.
#[derive(Clone, Debug, PartialEq)]
pub struct Checks {
    /// Sum of the mouths of all checks round the timber at that radius, mm.
    pub sum_mm: f64,
    /// Foot of the honest band: the least that any source gives, less 40 %, mm.
    pub low_mm: f64,
    /// Head of the honest band: the most that any source gives and 40 % over, mm.
    pub high_mm: f64,
    /// What to make of it, in sentences.
    pub reading: Vec<String>,
}

/// Reckons the checks of a timber whose heart is inside it. Every ring must shorten by the tangential shrinkage
/// but its radius only by the radial, so something must open:
/// Σ w = 2π r (S_T − S_R)/100 · (F − M)/F, the unrelieved sum at radius r (geometry of MacLean, FPL R1473, worked
/// out here).
///
/// # Errors
/// A radius or moisture that cannot be meant, or a wood whose shrinkage is not known.
pub fn checks(
    species: &'static Species,
    radius_mm: f64,
    mc_percent: f64,
    measured_mm: Option<f64>,
) -> Result<Checks, Fault> {
    fault::within("radius_mm", radius_mm, 5.0, 1000.0, "mm")?;
    fault::moisture("mc_percent", mc_percent)?;
    let sums: Vec<f64> = species
        .shrinkage
        .iter()
        .map(|s| {
            let f = s.fibre_saturation_percent;
            let dried = (f - mc_percent.min(f)) / f;
            let over = (s.tangential_percent - s.radial_percent).max(0.0) / 100.0;
            std::f64::consts::TAU * radius_mm * over * dried
        })
        .collect();
    let Some(&sum_mm) = sums.first() else {
        return Err(Fault::NotKnown { species: species.common, what: "shrinkage" });
    };
    let low_mm = (1.0 - BAND) * sums.iter().copied().fold(f64::INFINITY, f64::min);
    let high_mm = (1.0 + BAND) * sums.iter().copied().fold(0.0, f64::max);
    let mut reading = vec![
        "One main check usually takes most of it, opens on the face nearest the heart and stops at the heart; wetted \
         again it closes."
            .to_owned(),
    ];
    if let Some(measured) = measured_mm {
        fault::within("measured_mm", measured, 0.0, 1000.0, "mm")?;
        reading.push(if measured <= high_mm {
            "The checks measured are within what drying alone may open.".to_owned()
        } else {
            "The checks measured are wider than drying alone should open: look for another cause (load, frost, decay, \
             iron)."
                .to_owned()
        });
    }
    reading.push(
        "A check that crosses the heart, steps across the rings or has torn walls asks for another cause whatever \
         its width; checks hold water and are the usual way in for decay."
            .to_owned(),
    );
    Ok(Checks { sum_mm, low_mm, high_mm, reading })
}
