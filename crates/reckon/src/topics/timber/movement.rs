//! `movement`: how much a plank's width changes with its moisture.

use super::grain_flags::{GRAIN, RING_ANGLE, rings};
use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::Pen;
use drawing::chart::{Axis, Trace, curves};
use timber::movement::{Method, SOURCES, of_thickness_mm, of_width};
use timber::ring::Rings;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "movement",
    title: "Movement of a plank",
    question: "How much does this plank shrink or swell when its moisture changes?",
    version: 1,
    flags: &[
        SPECIES,
        GRAIN,
        RING_ANGLE,
        Flag::required("width-mm", "width of the plank", FlagKind::Length { unit: "mm", least: 1.0, greatest: 2000.0 }),
        Flag::required(
            "mc-from-percent",
            "moisture before",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 },
        ),
        Flag::required("mc-to-percent", "moisture after", FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 }),
        Flag::optional(
            "thickness-mm",
            "thickness, to have its change too",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 2000.0 },
        ),
    ],
    figures: &[
        Figure { key: "change_mm", label: "change of width", unit: "mm", decimals: 2 },
        Figure { key: "low_mm", label: "honest band, from", unit: "mm", decimals: 2 },
        Figure { key: "high_mm", label: "honest band, to", unit: "mm", decimals: 2 },
        Figure {
            key: "coefficient_per_percent",
            label: "change per 1 % moisture, as a share of the width",
            unit: "",
            decimals: 5,
        },
        Figure { key: "method", label: "by", unit: "", decimals: 0 },
        Figure { key: "by_totals_mm", label: "by total shrinkage it would be", unit: "mm", decimals: 2 },
        Figure { key: "fibre_saturation_percent", label: "fibre saturation taken", unit: "%", decimals: 0 },
        Figure { key: "thickness_change_mm", label: "change of thickness", unit: "mm", decimals: 2 },
    ],
    equation: "ΔD = D C (M₂ − M₁) within 6 to 14 % moisture, else ΔD = D (M₂ − M₁)/(100 F/S − F + M₁), with S and C turned \
               to the ring angle",
    sources: &SOURCES,
    not_covered: &[
        "Restraint by fastenings, frames and caulking; compression set; reaction wood; glued cross layers.",
        "Movement along the grain, 0.1 to 0.2 % from green to oven-dry in ordinary wood.",
    ],
    example: &[
        ("species", "white oak"),
        ("grain", "flat"),
        ("width-mm", "125"),
        ("mc-from-percent", "28"),
        ("mc-to-percent", "16"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (wood, rings) = (species(inputs)?, rings(inputs)?);
    let width_mm = inputs.need_number("width-mm")?;
    let (from, to) = (inputs.need_number("mc-from-percent")?, inputs.need_number("mc-to-percent")?);
    let moved = of_width(wood, rings, width_mm, from, to).map_err(refusal)?;
    let thickness = inputs.number("thickness-mm");
    let thickness =
        thickness.map(|t| of_thickness_mm(wood, rings, (t, width_mm), from, to)).transpose().map_err(refusal)?;
    let method = match moved.method {
        Method::Coefficient => "the printed coefficient",
        Method::Totals => "total shrinkage",
    };
    let mut answer = Answer::new()
        .with("change_mm", moved.change_mm)
        .with("low_mm", moved.low_mm)
        .with("high_mm", moved.high_mm)
        .with("coefficient_per_percent", moved.coefficient_per_percent)
        .with("method", method)
        .with_some("by_totals_mm", moved.other_method_mm)
        .with("fibre_saturation_percent", moved.fibre_saturation_percent)
        .with_some("thickness_change_mm", thickness);
    answer.sources = SOURCES.iter().map(|s| (*s).to_owned()).chain(moved.sources).collect();
    answer = with_name_caution(answer, inputs);
    for caution in moved.cautions {
        answer = answer.caution(caution);
    }
    let mut line = Vec::new();
    let mut band = Vec::new();
    for i in 0..=18 {
        let degrees = 5.0 * f64::from(i);
        let rings = Rings::at_degrees(degrees).map_err(refusal)?;
        let at = of_width(wood, rings, width_mm, from, to).map_err(refusal)?;
        line.push((degrees, at.change_mm));
        band.push((degrees, at.low_mm, at.high_mm));
    }
    let low = band.iter().map(|b| b.1).fold(0.0, f64::min);
    let high = band.iter().map(|b| b.2).fold(0.0, f64::max);
    Ok(answer.sheet(curves(
        "Movement by ring angle",
        &format!(
            "Change of width of {} {width_mm:.0} mm wide from {from:.0} to {to:.0} % against the angle of its rings, with \
             the honest band.",
            wood.common
        ),
        &Axis::new("rings to the wide face", "°", 0.0, 90.0),
        &Axis::new("change of width", "mm", low, high),
        &[
            Trace::Band { points: band },
            Trace::Curve { name: wood.common.to_owned(), points: line, pen: Pen::MIDDLE },
            Trace::Mark { under: false, at: (rings.degrees(), moved.change_mm), word: format!("{:.1} mm", moved.change_mm) },
        ],
    )))
}
