//! `seam`: how far seams open ashore.

use super::grain_flags::{GRAIN, RING_ANGLE, rings};
use super::plank_flags as flags;
use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Pen, Sheet};
use serde_json::{Map, Value};
use timber::seam::{Forecast, forecast};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "seam",
    title: "Opening of a seam ashore",
    question: "How far should this seam have opened by now, and does what was measured fit?",
    version: 1,
    flags: &[
        SPECIES,
        flags::THICKNESS,
        Flag::required(
            "width-mm",
            "width of the planks",
            FlagKind::Length { unit: "mm", least: 10.0, greatest: 1000.0 },
        ),
        GRAIN,
        RING_ANGLE,
        flags::MC_START,
        flags::TEMP,
        flags::RH,
        flags::DAYS,
        flags::FACES,
        flags::BEHIND,
        flags::COATING,
        flags::EXPOSURE,
        flags::WEATHER,
        flags::FROM_MONTH,
        Flag::optional("measured-gap-mm", "gap measured", FlagKind::Length { unit: "mm", least: 0.0, greatest: 500.0 }),
    ],
    figures: &[
        Figure { key: "expected_gap_mm", label: "gap expected", unit: "mm", decimals: 1 },
        Figure { key: "gap_low_mm", label: "honest band, from", unit: "mm", decimals: 1 },
        Figure { key: "gap_high_mm", label: "honest band, to", unit: "mm", decimals: 1 },
        Figure { key: "swelling_mm", label: "planks swell into each other by", unit: "mm", decimals: 1 },
        Figure { key: "mean_mc_percent", label: "mean moisture", unit: "%", decimals: 1 },
        Figure { key: "emc_percent", label: "moisture the air draws it towards", unit: "%", decimals: 1 },
        Figure { key: "doubts_mm", label: "what the band is made of, mm either way", unit: "", decimals: 1 },
        Figure { key: "excess_mm", label: "measured over expected", unit: "mm", decimals: 1 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
    ],
    equation: "diffusion through the thickness, then ΔD = D (M₂ − M₁)/(100 F/S − F + M₁) on the part of the moisture that \
               moves the wood; one seam opens by one plank's change of width",
    sources: &[
        "drying as in `drying`: finite volumes; Siau (1984) or the red oak desorption equation of the Simpson (1993) type",
        "movement as in `movement`: Wood Handbook ch. 13, totals of Tables 4-3 and 4-4",
        "band: drying speed to a factor of 2 (3 above 18 %), equilibrium ±1.5 %, movement ±40 %, other sources' shrinkage, \
         joined as independent errors; a choice of our own",
    ],
    not_covered: &[
        "Compression set, caulking that was hardened in, frames and fastenings that hold planks apart.",
        "Strip-planked, cold-moulded and edge-glued work.",
    ],
    example: &[
        ("species", "white oak"),
        ("thickness-mm", "30"),
        ("width-mm", "125"),
        ("grain", "flat"),
        ("mc-start-percent", "28"),
        ("temp-c", "15"),
        ("rh-percent", "65"),
        ("days", "30"),
        ("measured-gap-mm", "5"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (wood, rings) = (species(inputs)?, rings(inputs)?);
    let (plank, surroundings) = flags::plank(inputs, wood)?;
    let found = forecast(&plank, inputs.need_number("width-mm")?, rings, &surroundings, inputs.need_number("days")?)
        .map_err(refusal)?;
    let end = found.end().ok_or_else(|| Refusal::Meaningless("The seam has no state at the end.".to_owned()))?;
    let doubts: Map<String, Value> =
        found.doubts_mm.iter().map(|(what, mm)| ((*what).to_owned(), Value::from(*mm))).collect();
    let mut answer = Answer::new()
        .with("expected_gap_mm", end.gap_mm.max(0.0))
        .with("gap_low_mm", end.low_mm.max(0.0))
        .with("gap_high_mm", end.high_mm.max(0.0))
        .with_some("swelling_mm", (end.gap_mm < -1e-9).then_some(-end.gap_mm))
        .with("mean_mc_percent", end.mean_mc_percent)
        .with("emc_percent", found.emc_percent)
        .with("doubts_mm", doubts);
    let measured = inputs.number("measured-gap-mm");
    if let Some(measured) = measured {
        let (excess_mm, reading) = end.compare(measured);
        answer = answer.with("excess_mm", excess_mm).with("reading", reading.words());
    }
    answer.sources = TOPIC.sources.iter().map(|s| (*s).to_owned()).chain(found.sources.iter().cloned()).collect();
    answer = with_name_caution(answer, inputs);
    for caution in &found.cautions {
        answer = answer.caution(caution.clone());
    }
    Ok(answer.sheet(sheet(&found, wood.common, measured)))
}

fn sheet(found: &Forecast, wood: &str, measured: Option<f64>) -> Sheet {
    let days = found.end().map_or(1.0, |o| o.day);
    let band: Vec<_> = found.openings.iter().map(|o| (o.day, o.low_mm.max(0.0), o.high_mm.max(0.0))).collect();
    let line = found.openings.iter().map(|o| (o.day, o.gap_mm.max(0.0))).collect();
    let top = band.iter().map(|b| b.2).fold(measured.unwrap_or(0.0).max(0.5), f64::max);
    let mut traces =
        vec![Trace::Band { points: band }, Trace::Curve { name: "expected".to_owned(), points: line, pen: Pen::THICK }];
    if let Some(measured) = measured {
        traces.push(Trace::Mark { under: false, at: (days, measured), word: "measured".to_owned() });
    }
    curves(
        "Seam opening",
        &format!("Opening of a seam between planks of {wood} over {days:.0} days ashore, with the honest band."),
        &Axis::new("days ashore", "", 0.0, days),
        &Axis::new("gap", "mm", 0.0, top),
        &traces,
    )
}
