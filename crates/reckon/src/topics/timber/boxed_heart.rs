//! `boxed-heart`: the checks of a timber with the heart inside it.

use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::Pen;
use drawing::chart::{Axis, Trace, curves};
use timber::heart::checks;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "boxed-heart",
    title: "Checks of a timber with its heart boxed",
    question: "Are these checks no more than drying opens, or do they ask for another cause?",
    version: 1,
    flags: &[
        SPECIES,
        Flag::required(
            "radius-mm",
            "distance from the heart to the face looked at",
            FlagKind::Length { unit: "mm", least: 5.0, greatest: 1000.0 },
        ),
        Flag::required("mc-percent", "moisture now", FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 }),
        Flag::optional(
            "measured-mm",
            "sum of the mouths of all checks measured round it",
            FlagKind::Length { unit: "mm", least: 0.0, greatest: 1000.0 },
        ),
    ],
    figures: &[
        Figure { key: "sum_mm", label: "checks that drying may open, together", unit: "mm", decimals: 1 },
        Figure { key: "low_mm", label: "honest band, from", unit: "mm", decimals: 1 },
        Figure { key: "high_mm", label: "to", unit: "mm", decimals: 1 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
    ],
    equation: "Σ w = 2π r (S_T − S_R)/100 · (F − M)/F, unrelieved",
    sources: &[
        "geometry of unequal shrinkage (the problem of MacLean, FPL Report R1473, 1945), worked out here; shrinkage as `wood` lists it",
    ],
    not_covered: &["Checks from load, frost, decay or iron; how deep a check runs."],
    example: &[("species", "white oak"), ("radius-mm", "75"), ("mc-percent", "15"), ("measured-mm", "9")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let (radius, mc) = (inputs.need_number("radius-mm")?, inputs.need_number("mc-percent")?);
    let found = checks(wood, radius, mc, inputs.number("measured-mm")).map_err(refusal)?;
    let (mut line, mut band) = (Vec::new(), Vec::new());
    for i in 0..=30 {
        let at = f64::from(i);
        let here = checks(wood, radius, at, None).map_err(refusal)?;
        line.push((at, here.sum_mm));
        band.push((at, here.low_mm, here.high_mm));
    }
    let top = band.first().map_or(1.0, |p| p.2).max(inputs.number("measured-mm").unwrap_or(0.0));
    let mut traces = vec![
        Trace::Band { points: band },
        Trace::Curve { name: "drying alone".to_owned(), points: line, pen: Pen::MIDDLE },
    ];
    if let Some(measured) = inputs.number("measured-mm") {
        traces.push(Trace::Mark { under: false, at: (mc.min(30.0), measured), word: "measured".to_owned() });
    }
    let answer = Answer::new()
        .with("sum_mm", found.sum_mm)
        .with("low_mm", found.low_mm)
        .with("high_mm", found.high_mm)
        .with("reading", found.reading.join(" "))
        .caution(
            "The sum is for wood that nothing relieves, and a computed movement is good to about ±40 % either way: the \
             band carries that.",
        );
    Ok(with_name_caution(answer, inputs).sheet(curves(
        "Checks against moisture",
        &format!("Sum of check mouths {radius:.0} mm from the heart of {} as it dries.", wood.common),
        &Axis::new("moisture", "%", 0.0, 30.0),
        &Axis::new("checks together", "mm", 0.0, top),
        &traces,
    )))
}
