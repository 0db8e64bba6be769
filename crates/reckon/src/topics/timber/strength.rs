//! `strength`: strength of small clear wood at a moisture and temperature.

use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Pen, Sheet};
use serde_json::{Map, Value};
use timber::Known;
use timber::species::Species;
use timber::strength::{SOURCES, at, share_under_lasting_load};

const YEAR_S: f64 = 365.25 * 86_400.0;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "strength",
    title: "Strength of clear wood",
    question: "How strong and stiff is clear wood of this kind at this moisture and temperature?",
    version: 1,
    flags: &[
        SPECIES,
        Flag::required("mc-percent", "moisture", FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 }),
        Flag::or(
            "temp-c",
            "temperature of the wood",
            FlagKind::Number { unit: "°C", least: -60.0, greatest: 100.0 },
            "20",
        ),
        Flag::optional(
            "load-years",
            "years that the load stays",
            FlagKind::Number { unit: "years", least: 0.0, greatest: 200.0 },
        ),
    ],
    figures: &[
        Figure { key: "specific_gravity", label: "specific gravity at this moisture", unit: "", decimals: 2 },
        Figure { key: "density_kg_m3", label: "density with its water", unit: "kg/m³", decimals: 0 },
        Figure { key: "mor_mpa", label: "bending strength", unit: "MPa", decimals: 1 },
        Figure { key: "moe_mpa", label: "modulus of elasticity", unit: "MPa", decimals: 0 },
        Figure {
            key: "compression_parallel_mpa",
            label: "crushing strength along the grain",
            unit: "MPa",
            decimals: 1,
        },
        Figure {
            key: "compression_perp_mpa",
            label: "strength across the grain at proportional limit",
            unit: "MPa",
            decimals: 1,
        },
        Figure { key: "shear_mpa", label: "shear strength along the grain", unit: "MPa", decimals: 1 },
        Figure { key: "hardness_n", label: "side hardness", unit: "N", decimals: 0 },
        Figure { key: "ranges", label: "where sources differ, from and to", unit: "", decimals: 2 },
        Figure {
            key: "lasting_load_percent",
            label: "share of it that a lasting load may use",
            unit: "%",
            decimals: 0,
        },
        Figure { key: "mor_lasting_mpa", label: "bending strength under that load", unit: "MPa", decimals: 1 },
    ],
    equation: "P = P₁₂ (P₁₂/P_g)^((12 − M)/(M_p − 12)); temperature by straight lines; lasting load by the Madison curve",
    sources: &[
        SOURCES[0],
        SOURCES[1],
        SOURCES[2],
        "Wood (FPL, 1951), the Madison curve, read in Forests 12 (2021) 1148: lasting load",
    ],
    not_covered: &["Knots, sloping grain, decay, holes, wet-dry cycles, fatigue; design values, which codes set."],
    example: &[("species", "Douglas fir"), ("mc-percent", "18"), ("temp-c", "20"), ("load-years", "10")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let (mc, temp_c) = (inputs.need_number("mc-percent")?, inputs.need_number("temp-c")?);
    let found = at(wood, mc, temp_c).map_err(refusal)?;
    let s = &found.strength;
    let figures: [(&str, Option<Known>); 8] = [
        ("specific_gravity", found.specific_gravity),
        ("density_kg_m3", found.density_kg_m3),
        ("mor_mpa", s.mor_mpa),
        ("moe_mpa", s.moe_mpa),
        ("compression_parallel_mpa", s.compression_parallel_mpa),
        ("compression_perp_mpa", s.compression_perp_mpa),
        ("shear_mpa", s.shear_mpa),
        ("hardness_n", s.hardness_n),
    ];
    let mut answer = Answer::new();
    let mut ranges = Map::new();
    let mut from: Vec<(&str, Vec<&str>)> = Vec::new();
    for (key, known) in figures {
        answer = answer.with(key, known.map_or(Value::Null, |k| Value::from(k.value)));
        let Some(known) = known else { continue };
        if known.is_in_conflict() {
            ranges.insert(key.to_owned(), Value::from(vec![known.low, known.high]));
        }
        if key == "density_kg_m3" {
            continue;
        }
        let name = TOPIC.figures.iter().find(|figure| figure.key == key).map_or(key, |figure| figure.label);
        match from.iter_mut().find(|(source, _)| *source == known.source) {
            Some((_, names)) => names.push(name),
            None => from.push((known.source, vec![name])),
        }
    }
    if !ranges.is_empty() {
        answer = answer.with("ranges", ranges);
    }
    if let Some(years) = inputs.number("load-years") {
        let share = share_under_lasting_load(years * YEAR_S);
        answer = answer
            .with("lasting_load_percent", 100.0 * share)
            .with_some("mor_lasting_mpa", s.mor_mpa.map(|k| k.value * share))
            .caution("Wetting and drying under load makes lasting strength worse than this curve; sprung frames and hogged keels live there.");
    }
    answer.sources = TOPIC.sources.iter().map(|s| (*s).to_owned()).collect();
    answer.sources.extend(from.iter().map(|(source, names)| format!("{}: {source}", names.join(", "))));
    answer = with_name_caution(answer, inputs);
    for caution in found.cautions {
        answer = answer.caution(caution);
    }
    Ok(match sheet(wood, mc, temp_c) {
        Some(sheet) => answer.sheet(sheet),
        None => answer,
    })
}

fn sheet(wood: &'static Species, mc: f64, temp_c: f64) -> Option<Sheet> {
    let mor = |mc: f64| at(wood, mc, temp_c).ok().and_then(|a| a.strength.mor_mpa);
    let known: Vec<(f64, Known)> = (6..=34).map(f64::from).filter_map(|mc| Some((mc, mor(mc)?))).collect();
    let here = mor(mc)?.value;
    let top = known.iter().map(|(_, k)| k.high).fold(here, f64::max);
    Some(curves(
        "Bending strength against moisture",
        &format!("Bending strength of clear {} against moisture at {temp_c:.0} °C.", wood.common),
        &Axis::new("moisture", "%", 6.0f64.min(mc), 34.0),
        &Axis::new("bending strength", "MPa", 0.0, top),
        &[
            Trace::Band { points: known.iter().map(|(m, k)| (*m, k.low, k.high)).collect() },
            Trace::Curve {
                name: wood.common.to_owned(),
                points: known.iter().map(|(m, k)| (*m, k.value)).collect(),
                pen: Pen::MIDDLE,
            },
            Trace::Mark { under: false, at: (mc, here), word: format!("{here:.0} MPa") },
        ],
    ))
}
