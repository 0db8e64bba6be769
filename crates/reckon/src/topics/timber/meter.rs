//! `meter`: a moisture meter's reading put right as far as it can be.

use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::Pen;
use drawing::chart::{Axis, Trace, curves};
use serde_json::Value;
use timber::decay::room_for_decay;
use timber::meter::{SOURCE, SpeciesTable, at_temperature, correct};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "meter",
    title: "Moisture meter reading, corrected",
    question: "What does this meter reading mean in this wood at this temperature?",
    version: 1,
    flags: &[
        Flag::required(
            "reading-percent",
            "reading of the meter",
            FlagKind::Number { unit: "%", least: 1.0, greatest: 100.0 },
        ),
        SPECIES,
        Flag::or(
            "temp-c",
            "temperature of the wood",
            FlagKind::Number { unit: "°C", least: -30.0, greatest: 60.0 },
            "20",
        ),
        Flag::optional(
            "species-correction-percent",
            "what the instrument's own table adds for this wood",
            FlagKind::Number { unit: "%", least: -15.0, greatest: 15.0 },
        ),
        Flag::optional(
            "species-a",
            "slope a of the instrument's line for this wood",
            FlagKind::Number { unit: "", least: 0.3, greatest: 3.0 },
        ),
        Flag::optional(
            "species-b",
            "offset b of that line",
            FlagKind::Number { unit: "%", least: -15.0, greatest: 15.0 },
        ),
        Flag::or("salt", "whether sea salt may be in the wood", FlagKind::Choice(&["no", "yes"]), "no"),
    ],
    figures: &[
        Figure { key: "mc_percent", label: "moisture, corrected", unit: "%", decimals: 1 },
        Figure { key: "low_percent", label: "from", unit: "%", decimals: 1 },
        Figure { key: "high_percent", label: "to", unit: "%", decimals: 1 },
        Figure { key: "temperature_correction_percent", label: "added for temperature", unit: "%", decimals: 1 },
        Figure { key: "species_correction_percent", label: "added for the wood", unit: "%", decimals: 1 },
        Figure { key: "decay", label: "room for decay", unit: "", decimals: 0 },
    ],
    equation: "MC = (R + 0.567 − 0.0260 t + 0.000051 t²)/(0.881 · 1.0056^t), then the wood's own line",
    sources: &[SOURCE, "limits: Forest Products Laboratory Report 2147 (1959) and FPL-GTR-6 (1988)"],
    not_covered: &[
        "Capacitance (pinless) meters, which read the surface and scale with density.",
        "Metal near the pins, graphite or copper paint, glue lines, preservatives, decay itself.",
    ],
    example: &[("reading-percent", "20"), ("species", "Douglas fir"), ("temp-c", "8")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let (reading, temp_c) = (inputs.need_number("reading-percent")?, inputs.need_number("temp-c")?);
    let table =
        match (inputs.number("species-correction-percent"), inputs.number("species-a"), inputs.number("species-b")) {
            (Some(added), _, _) => SpeciesTable::Add(added),
            (None, None, None) => SpeciesTable::None,
            (None, a, b) => SpeciesTable::Line { a: a.unwrap_or(1.0), b: b.unwrap_or(0.0) },
        };
    let corrected = correct(reading, wood, temp_c, table, inputs.words("salt") == Some("yes")).map_err(refusal)?;
    let mut answer = Answer::new()
        .with("mc_percent", corrected.mc_percent)
        .with("low_percent", corrected.low_percent)
        .with("high_percent", corrected.high_percent)
        .with("temperature_correction_percent", corrected.temperature_correction_percent)
        .with("species_correction_percent", corrected.species_correction_percent.map_or(Value::Null, Value::from))
        .with("decay", room_for_decay(corrected.mc_percent, None).sentence());
    answer = with_name_caution(answer, inputs);
    for caution in corrected.cautions {
        answer = answer.caution(caution);
    }
    let points = (-2..=8).map(|i| 5.0 * f64::from(i)).map(|t| (t, at_temperature(reading, t))).collect();
    let marked = (temp_c, reading + corrected.temperature_correction_percent);
    Ok(answer.sheet(curves(
        "A reading against temperature",
        &format!("What a reading of {reading:.0} % means as the wood's temperature changes, before anything is added for the wood."),
        &Axis::new("temperature of the wood", "°C", (-10.0f64).min(temp_c), 40.0f64.max(temp_c)),
        &Axis::new("moisture", "%", (0.7 * reading).floor(), (1.4 * reading).ceil()),
        &[
            Trace::Curve { name: format!("reads {reading:.0} %"), points, pen: Pen::MIDDLE },
            Trace::Mark { under: false, at: marked, word: format!("{:.1} %", marked.1) },
        ],
    )))
}
