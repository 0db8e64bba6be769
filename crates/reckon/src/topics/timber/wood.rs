//! `wood`: what the table holds of one wood, each figure with its mark.

use super::species_flag::{SPECIES, species, with_name_caution};
use crate::{Answer, Figure, Inputs, Refusal, Topic};
use serde_json::{Value, json};
use timber::{Known, Rating};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "wood",
    title: "A wood and what is known of it",
    question: "What is this wood called elsewhere, how heavy is it, how does it shrink, and how well does it resist decay?",
    version: 1,
    flags: &[SPECIES],
    figures: &[
        Figure { key: "common", label: "common name", unit: "", decimals: 0 },
        Figure { key: "botanical", label: "botanical name", unit: "", decimals: 0 },
        Figure { key: "also_called", label: "also called", unit: "", decimals: 0 },
        Figure { key: "gravity_basic", label: "specific gravity, green volume", unit: "", decimals: 2 },
        Figure { key: "gravity_12", label: "specific gravity at 12 %", unit: "", decimals: 2 },
        Figure { key: "density_12_kg_m3", label: "density at 12 %", unit: "kg/m³", decimals: 0 },
        Figure { key: "shrinkage", label: "shrinkage, green to oven-dry", unit: "", decimals: 1 },
        Figure { key: "decay_resistance_us", label: "decay resistance of heartwood, US lists", unit: "", decimals: 0 },
        Figure {
            key: "decay_class_en350",
            label: "decay class of heartwood, EN 350 (1 best, 5 worst)",
            unit: "",
            decimals: 0,
        },
        Figure { key: "note", label: "note", unit: "", decimals: 0 },
    ],
    equation: "none: a table",
    sources: &["as named beside each figure"],
    not_covered: &[
        "Sapwood, which is not durable whatever the wood.",
        "Which wood a plank is: a sample under the lens tells.",
    ],
    example: &[("species", "iroko")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let value = |k: Option<Known>| k.map_or(Value::Null, |k| Value::from(k.value));
    let rating = |r: Option<Rating>| r.map_or(Value::Null, |r| Value::from(r.words));
    let sets: Vec<Value> = wood
        .shrinkage
        .iter()
        .map(|s| {
            json!({
                "radial_percent": s.radial_percent,
                "tangential_percent": s.tangential_percent,
                "fibre_saturation_percent": s.fibre_saturation_percent,
                "mark": s.mark.words(),
                "source": s.source,
            })
        })
        .collect();
    let mut answer = Answer::new()
        .with("common", wood.common)
        .with("botanical", wood.botanical)
        .with("also_called", wood.synonyms.clone())
        .with("gravity_basic", value(wood.gravity_basic))
        .with("gravity_12", value(wood.gravity_at(12.0)))
        .with("density_12_kg_m3", value(wood.density_kg_m3(12.0)))
        .with("shrinkage", sets)
        .with("decay_resistance_us", rating(wood.decay_us))
        .with("decay_class_en350", rating(wood.decay_en350));
    if !wood.note.is_empty() {
        answer = answer.with("note", wood.note);
    }
    let mut sources: Vec<String> =
        [("specific gravity", wood.gravity_basic), ("specific gravity at 12 %", wood.gravity_12)]
            .into_iter()
            .filter_map(|(what, k)| k.map(|k| format!("{what} ({}): {}", k.mark.words(), k.source)))
            .collect();
    sources.extend(
        [("decay resistance, US", wood.decay_us), ("decay class, EN 350", wood.decay_en350)]
            .into_iter()
            .filter_map(|(what, r)| r.map(|r| format!("{what} ({}): {}", r.mark.words(), r.source))),
    );
    sources.extend(wood.shrinkage.iter().map(|s| format!("shrinkage ({}): {}", s.mark.words(), s.source)));
    answer.sources = sources;
    answer = with_name_caution(answer, inputs);
    if let Some(caution) = wood.gravity_basic.and_then(|g| g.caution(&format!("specific gravity of {}", wood.common))) {
        answer = answer.caution(caution);
    }
    if wood.shrinkage.len() > 1 {
        answer = answer
            .caution("Sources disagree about its shrinkage; each total belongs to its own fibre saturation point.");
    }
    Ok(answer.caution("Decay classes come from ground contact; they are not a boat's age."))
}
