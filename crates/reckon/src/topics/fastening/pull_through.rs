//! `pull-through`: the force that pulls a head through the plank.

use super::wood_flags::{DURATION, SPECIES, SPECIFIC_GRAVITY, WET, WOOD_FACTOR, need_wood, refusal, service};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::eurocode::pull_through_n;
use fastening::pull_through::{larger, pull_through};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "pull-through",
    title: "A head pulled through the plank",
    question: "What pull does this head, or a washer under the bung, bear before it comes through the plank?",
    version: 1,
    flags: &[
        Flag::required(
            "head-diameter-mm",
            "diameter of the head",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 200.0 },
        ),
        Flag::required(
            "thickness-mm",
            "wood left under the head: plank less counterbore",
            FlagKind::Length { unit: "mm", least: 0.5, greatest: 300.0 },
        ),
        SPECIES,
        SPECIFIC_GRAVITY,
        Flag::optional(
            "larger-head-mm",
            "a larger head or washer to compare",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 200.0 },
        ),
        Flag::optional(
            "plank-thickness-mm",
            "thickness of the whole plank",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 300.0 },
        ),
        Flag::optional(
            "characteristic-density-kg-m3",
            "characteristic density, for the European figure",
            FlagKind::Number { unit: "kg/m³", least: 100.0, greatest: 1300.0 },
        ),
        DURATION,
        WET,
        WOOD_FACTOR,
    ],
    figures: &[
        Figure { key: "reference_n", label: "reference design value", unit: "N", decimals: 0 },
        Figure { key: "adjustment", label: "duration × wet service × condition of wood", unit: "", decimals: 3 },
        Figure { key: "adjusted_n", label: "allowable as adjusted", unit: "N", decimals: 0 },
        Figure { key: "gravity_oven_dry", label: "specific gravity, oven-dry volume", unit: "", decimals: 3 },
        Figure { key: "thickness_over_head", label: "wood under the head, in head diameters", unit: "", decimals: 2 },
        Figure { key: "larger_reference_n", label: "reference of the larger head", unit: "N", decimals: 0 },
        Figure { key: "gain", label: "gain by the larger head", unit: "times", decimals: 2 },
        Figure { key: "eurocode_characteristic_n", label: "characteristic by Eurocode 5", unit: "N", decimals: 0 },
    ],
    equation: "W_H = 690 π D_H G² t for t ≤ 2.5 D_H, else 1725 π D_H² G² (lbf, in)",
    sources: &[
        "National Design Specification for Wood Construction (2018), 12.2.5: that it exists and is for round heads was \
         read; its coefficients are from memory",
        "EN 1995-1-1 (Eurocode 5) 8.5.2: characteristic, where a density is given",
    ],
    not_covered: &[
        "Countersunk heads wedging the plank, washers crushing it, splitting; no error band was found in print.",
    ],
    example: &[
        ("head-diameter-mm", "12.2"),
        ("thickness-mm", "14"),
        ("specific-gravity", "0.45"),
        ("larger-head-mm", "20"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (head, thickness) = (inputs.need_number("head-diameter-mm")?, inputs.need_number("thickness-mm")?);
    if let Some(plank) = inputs.number("plank-thickness-mm").filter(|plank| thickness > *plank) {
        let why = format!("this is more than the plank's thickness ({plank} mm)");
        return Err(Refusal::value(
            "thickness-mm",
            thickness,
            why,
            format!("what is left under the head, up to {plank} mm"),
        ));
    }
    let wood = need_wood(inputs, "species", "specific-gravity")?;
    let g = wood.gravity.oven_dry;
    let found = pull_through(head, thickness, g).map_err(refusal)?;
    let factor = service(inputs).factor().map_err(refusal)?;
    let mut answer = Answer::new()
        .with("reference_n", found.reference_n)
        .with("adjustment", factor)
        .with("adjusted_n", found.reference_n * factor)
        .with("gravity_oven_dry", g)
        .with("thickness_over_head", found.thickness_over_head);
    if let Some(wider) = inputs.number("larger-head-mm") {
        let larger = larger(head, wider, thickness, g).map_err(refusal)?;
        answer = answer.with("larger_reference_n", larger.reference_n).with("gain", larger.gain);
    }
    if let Some(density) = inputs.number("characteristic-density-kg-m3") {
        answer = answer.with("eurocode_characteristic_n", pull_through_n(head, density).map_err(refusal)?);
    }
    for caution in wood.cautions.into_iter().chain(found.cautions) {
        answer = answer.caution(caution);
    }
    Ok(answer)
}
