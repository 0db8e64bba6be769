//! `withdrawal`: the force that draws a screw, nail or lag screw from side grain.

use super::wood_flags::{
    DURATION, SPECIES, SPECIFIC_GRAVITY, WET, WOOD_FACTOR, need_wood, refusal, refusal_as, service,
};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::kinds::{LagScrew, Nail, Section, WoodScrew};
use fastening::wasted::{Drawn, holding, remaining};
use fastening::withdrawal::{Kind, root_tension_n, withdrawal};

const DIAMETER: FlagKind = FlagKind::Length { unit: "mm", least: 0.8, greatest: 60.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "withdrawal",
    title: "Withdrawal of a fastening from side grain",
    question: "What pull does a screw, nail or lag screw hold in this wood, new or wasted?",
    version: 1,
    flags: &[
        Flag::required("kind", "kind", FlagKind::Choice(&["wood-screw", "nail", "lag-screw", "drift-bolt"])),
        Flag::optional(
            "gauge",
            "gauge of a wood screw, or wire gauge of a copper nail",
            FlagKind::Count { least: 0, greatest: 32 },
        ),
        Flag::optional("diameter-mm", "diameter of the shank, when no gauge is given", DIAMETER),
        Flag::or("section", "section of a nail", FlagKind::Choice(&["round", "square"]), "round"),
        Flag::required(
            "penetration-mm",
            "length of thread (or nail) in the holding wood",
            FlagKind::Length { unit: "mm", least: 0.5, greatest: 1500.0 },
        ),
        Flag::optional(
            "frame-depth-mm",
            "depth of the wood it sits in",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 2000.0 },
        ),
        SPECIES,
        SPECIFIC_GRAVITY,
        DURATION,
        WET,
        WOOD_FACTOR,
        Flag::optional("metal", "metal, for the tension at the root", FlagKind::Words),
        Flag::optional("measured-root-mm", "least diameter of root or shank after drawing", DIAMETER),
        Flag::optional("measured-crest-mm", "least diameter over the thread after drawing", DIAMETER),
        Flag::optional(
            "sound-thread-mm",
            "length of thread still sound",
            FlagKind::Length { unit: "mm", least: 0.0, greatest: 300.0 },
        ),
        Flag::optional("measured-head-mm", "diameter of the head after drawing", DIAMETER),
        Flag::optional(
            "length-mm",
            "length of the screw over all, for one drawn and measured",
            FlagKind::Length { unit: "mm", least: 3.0, greatest: 300.0 },
        ),
    ],
    figures: &[
        Figure { key: "diameter_mm", label: "diameter reckoned with", unit: "mm", decimals: 2 },
        Figure { key: "gravity_at_12", label: "specific gravity, volume at 12 %", unit: "", decimals: 3 },
        Figure { key: "gravity_oven_dry", label: "specific gravity, oven-dry volume", unit: "", decimals: 3 },
        Figure { key: "ultimate_n_per_mm", label: "average ultimate a millimetre", unit: "N/mm", decimals: 1 },
        Figure { key: "ultimate_n", label: "average ultimate, new, dry, short", unit: "N", decimals: 0 },
        Figure { key: "reference_n_per_mm", label: "reference design value a millimetre", unit: "N/mm", decimals: 2 },
        Figure { key: "reference_n", label: "reference design value", unit: "N", decimals: 0 },
        Figure { key: "adjustment", label: "duration × wet service × condition of wood", unit: "", decimals: 3 },
        Figure { key: "adjusted_n", label: "allowable as adjusted", unit: "N", decimals: 0 },
        Figure { key: "root_tension_low_n", label: "new root parts at, low", unit: "N", decimals: 0 },
        Figure { key: "root_tension_high_n", label: "new root parts at, high", unit: "N", decimals: 0 },
        Figure { key: "tension_left_percent", label: "tension left at the root", unit: "%", decimals: 0 },
        Figure { key: "thread_left_percent", label: "thread left in the wood", unit: "%", decimals: 0 },
        Figure { key: "bending_left_percent", label: "bending left in the shank", unit: "%", decimals: 0 },
        Figure { key: "head_left_percent", label: "head left", unit: "%", decimals: 0 },
        Figure { key: "weakest", label: "weakest part of it", unit: "", decimals: 0 },
        Figure { key: "wasted_withdrawal_n", label: "ultimate withdrawal as wasted", unit: "N", decimals: 0 },
        Figure { key: "wasted_tension_low_n", label: "root parts as wasted, low", unit: "N", decimals: 0 },
        Figure { key: "governs", label: "what gives first as wasted", unit: "", decimals: 0 },
    ],
    equation: "ultimate: screws p = 108.25 G² D L, nails 54.12 G^2.5 D L, lag screws 125.4 G^1.5 D^0.75 L (N, mm); \
               reference: 2850 G² D, 1380 G^2.5 D, 1800 G^1.5 D^0.75 (lbf/in, in)",
    sources: &[
        "Wood Handbook, FPL-GTR-190 (2010), ch. 8, Eqs. 8-1, 8-9, 8-10, 8-14: ultimate",
        "National Design Specification for Wood Construction (2018), 12.2.1 to 12.2.3: reference",
        "National Design Specification (2018) Table 2.3.2: duration; wet service from memory of Table 11.3.3",
    ],
    not_covered: &[
        "End grain (about three quarters for lag screws; wood screws should not be used so), splitting, clenches and \
         roves, trenails (no published holding power was found).",
        "Wood driven into when green, which holds less once dry.",
    ],
    example: &[("kind", "wood-screw"), ("gauge", "12"), ("penetration-mm", "25.4"), ("species", "white oak")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let penetration = inputs.need_number("penetration-mm")?;
    if let Some(depth) = inputs.number("frame-depth-mm").filter(|depth| penetration > *depth) {
        let why = format!("this is longer than the wood it sits in ({depth} mm): the point is through");
        return Err(Refusal::value("penetration-mm", penetration, why, format!("a length up to {depth} mm")));
    }
    let (kind, diameter, screw, mut cautions) = what(inputs)?;
    let wood = need_wood(inputs, "species", "specific-gravity")?;
    let found = withdrawal(kind, diameter, penetration, wood.gravity).map_err(refusal)?;
    let service = service(inputs);
    let factor = if kind == Kind::Nail { service.nail_factor() } else { service.factor() }.map_err(refusal)?;
    let mut answer = Answer::new()
        .with("diameter_mm", diameter)
        .with("gravity_at_12", wood.gravity.at_12)
        .with("gravity_oven_dry", wood.gravity.oven_dry)
        .with("ultimate_n_per_mm", found.ultimate_n_per_mm)
        .with("ultimate_n", found.ultimate_n)
        .with_some("reference_n_per_mm", found.reference_n_per_mm)
        .with_some("reference_n", found.reference_n)
        .with("adjustment", factor)
        .with_some("adjusted_n", found.reference_n.map(|n| n * factor));
    if let Some(screw) = &screw {
        answer = screw_answer(answer, inputs, screw, &wood, &mut cautions)?;
    }
    if service.wet {
        cautions.push("The wet-service factor is from memory, unconfirmed.".to_owned());
    }
    for caution in wood.cautions.into_iter().chain(found.limits).chain(cautions) {
        answer = answer.caution(caution);
    }
    Ok(answer)
}

/// Returns kind, diameter to reckon with, the screw if it is one, and cautions.
fn what(inputs: &Inputs) -> Result<(Kind, f64, Option<WoodScrew>, Vec<String>), Refusal> {
    let length = inputs.number("length-mm").unwrap_or(50.0);
    let gauge = inputs.count("gauge").and_then(|g| u32::try_from(g).ok());
    let diameter = || {
        inputs.number("diameter-mm").ok_or_else(|| Refusal::Missing {
            flag: "diameter-mm".to_owned(),
            accepted: "a diameter from 0.8 to 60 mm, or --gauge".to_owned(),
        })
    };
    let mut cautions = Vec::new();
    match inputs.need_words("kind")? {
        "nail" => {
            let section = if inputs.words("section") == Some("square") { Section::Square } else { Section::Round };
            let nail = match gauge {
                Some(gauge) => Nail::copper(gauge, length).map_err(refusal)?,
                None => Nail::new(diameter()?, section, length).map_err(refusal)?,
            };
            if gauge.is_some() {
                cautions
                    .push("A square copper nail of that wire gauge was taken; the gauge is from memory.".to_owned());
            }
            Ok((Kind::Nail, nail.equivalent_mm(), None, cautions))
        }
        "lag-screw" => {
            let d = diameter()?;
            if LagScrew::of_diameter(d, length.max(10.0)).is_err() {
                cautions.push(format!("{d} mm is not a lag screw of the published tables (1/4 to 1 1/4 in)."));
            }
            Ok((Kind::LagScrew, d, None, cautions))
        }
        "drift-bolt" => Ok((Kind::DriftBolt, diameter()?, None, cautions)),
        _ => match gauge {
            Some(gauge) => {
                let screw = WoodScrew::of_gauge(gauge, length).map_err(refusal)?;
                if !screw.is_tabled() {
                    cautions.push(format!("No published root and head for #{gauge}: they were made up by rule."));
                }
                Ok((Kind::WoodScrew, screw.shank_mm(), Some(screw), cautions))
            }
            None => {
                let d = diameter()?;
                Ok((Kind::WoodScrew, d, WoodScrew::of_shank(d, length).ok(), cautions))
            }
        },
    }
}

fn screw_answer(
    mut answer: Answer,
    inputs: &Inputs,
    screw: &WoodScrew,
    wood: &super::wood_flags::Wood,
    cautions: &mut Vec<String>,
) -> Result<Answer, Refusal> {
    let metal = inputs.words("metal").map(fastening::metal::find).transpose().map_err(refusal)?;
    if let Some(metal) = metal {
        let at = |mpa| root_tension_n(screw.root_mm(), mpa).map_err(refusal);
        answer = answer.with("root_tension_low_n", at(metal.ultimate_mpa.0)?);
        answer = answer.with("root_tension_high_n", at(metal.ultimate_mpa.1)?);
        cautions.extend(metal.caution());
    }
    let Some(root) = inputs.number("measured-root-mm") else { return Ok(answer) };
    if inputs.number("length-mm").is_none() {
        let accepted = "the length of the screw over all, when one drawn was measured".to_owned();
        return Err(Refusal::Missing { flag: "length-mm".to_owned(), accepted });
    }
    let drawn = Drawn {
        new: *screw,
        crest_mm: inputs.number("measured-crest-mm").unwrap_or_else(|| screw.shank_mm()),
        root_mm: root,
        sound_thread_mm: inputs.number("sound-thread-mm").unwrap_or_else(|| screw.thread_mm()),
        head_mm: inputs.number("measured-head-mm").unwrap_or_else(|| screw.head_mm()),
    };
    let named = |fault| match &fault {
        fastening::Fault::Value { name: "root_mm", .. } => refusal_as("measured-root-mm")(fault),
        fastening::Fault::Value { name: "crest_mm", .. } => refusal_as("measured-crest-mm")(fault),
        fastening::Fault::Value { name: "head_mm", .. } => refusal_as("measured-head-mm")(fault),
        _ => refusal(fault),
    };
    let left = remaining(&drawn).map_err(named)?;
    answer = answer
        .with("tension_left_percent", 100.0 * left.tension)
        .with("thread_left_percent", 100.0 * left.thread)
        .with("bending_left_percent", 100.0 * left.bending)
        .with("head_left_percent", 100.0 * left.head)
        .with("weakest", left.weakest);
    if let Some(metal) = metal {
        let held = holding(&drawn, wood.gravity, metal).map_err(named)?;
        answer = answer
            .with("wasted_withdrawal_n", held.withdrawal_n)
            .with("wasted_tension_low_n", held.tension_n.0)
            .with("governs", held.governs);
    }
    cautions
        .push("What is left is reckoned from plain mechanics on the diameters measured; no rule gives it.".to_owned());
    Ok(answer)
}
