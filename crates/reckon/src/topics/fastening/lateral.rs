//! `lateral`: the sideways load at which a fastening yields.

use super::wood_flags::{
    DURATION, GRAVITY, SPECIES, SPECIFIC_GRAVITY, WET, WOOD_FACTOR, Wood, need_wood, refusal, service, wood,
};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::kinds::{LagScrew, WoodScrew};
use fastening::lateral::{Dowel, Member, Shear, lateral, steel_yield_mpa};
use serde_json::{Map, Value};

const LENGTH: FlagKind = FlagKind::Length { unit: "mm", least: 0.5, greatest: 2000.0 };
const ANGLE: FlagKind = FlagKind::Number { unit: "°", least: 0.0, greatest: 90.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "lateral",
    title: "Sideways load on a fastening",
    question: "At what sideways load does a fastening through a plank into a frame yield, and what gives?",
    version: 1,
    flags: &[
        Flag::required("kind", "kind", FlagKind::Choice(&["wood-screw", "nail", "lag-screw", "bolt"])),
        Flag::optional("gauge", "gauge of a wood screw", FlagKind::Count { least: 0, greatest: 32 }),
        Flag::optional(
            "diameter-mm",
            "diameter of the shank, when no gauge is given",
            FlagKind::Length { unit: "mm", least: 0.8, greatest: 60.0 },
        ),
        Flag::optional(
            "root-diameter-mm",
            "diameter of the root, as measured",
            FlagKind::Length { unit: "mm", least: 0.3, greatest: 60.0 },
        ),
        Flag::required("main-thickness-mm", "length of it in the frame (main member)", LENGTH),
        Flag::required("side-thickness-mm", "length of it in the plank (side member)", LENGTH),
        Flag::optional(
            "yield-mpa",
            "bending yield strength of the metal; common steel when not given",
            FlagKind::Number { unit: "N/mm²", least: 20.0, greatest: 2000.0 },
        ),
        SPECIES,
        SPECIFIC_GRAVITY,
        Flag::optional("main-species", "wood of the frame, where another", FlagKind::Words),
        Flag::optional("main-specific-gravity", "specific gravity of the frame", GRAVITY),
        Flag::optional("side-species", "wood of the plank, where another", FlagKind::Words),
        Flag::optional("side-specific-gravity", "specific gravity of the plank", GRAVITY),
        Flag::or("main-angle-deg", "angle of load to the frame's grain", ANGLE, "0"),
        Flag::or("side-angle-deg", "angle of load to the plank's grain", ANGLE, "0"),
        Flag::or("shear", "planes that shear", FlagKind::Choice(&["single", "double"]), "single"),
        DURATION,
        WET,
        WOOD_FACTOR,
    ],
    figures: &[
        Figure { key: "reference_n", label: "reference design value", unit: "N", decimals: 0 },
        Figure { key: "mode", label: "mode that governs", unit: "", decimals: 0 },
        Figure { key: "mode_in_words", label: "what gives", unit: "", decimals: 0 },
        Figure { key: "modes_n", label: "every mode (N)", unit: "", decimals: 0 },
        Figure { key: "adjustment", label: "duration × wet service × condition of wood", unit: "", decimals: 3 },
        Figure { key: "adjusted_n", label: "allowable as adjusted", unit: "N", decimals: 0 },
        Figure { key: "bearing_diameter_mm", label: "diameter that bends and bears", unit: "mm", decimals: 2 },
        Figure { key: "yield_mpa", label: "bending yield strength taken", unit: "N/mm²", decimals: 0 },
        Figure { key: "main_bearing_mpa", label: "bearing strength of the frame", unit: "N/mm²", decimals: 1 },
        Figure { key: "side_bearing_mpa", label: "bearing strength of the plank", unit: "N/mm²", decimals: 1 },
    ],
    equation: "yield limit equations, modes Im, Is, II, IIIm, IIIs, IV; least of them",
    sources: &["National Design Specification for Wood Construction (2018), Tables 12.3.1A, 12.3.1B, 12.3.3"],
    not_covered: &["Splitting, edge and end distances, groups of fastenings, slip, caulking pressure."],
    example: &[
        ("kind", "wood-screw"),
        ("gauge", "12"),
        ("main-thickness-mm", "25.4"),
        ("side-thickness-mm", "12.7"),
        ("main-species", "white oak"),
        ("side-species", "Honduras mahogany"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (main, side) = (member(inputs, "main")?, member(inputs, "side")?);
    let (dowel, mut cautions) = dowel(inputs)?;
    let of = |wood: &Wood, length: &str, angle: &str| -> Result<Member, Refusal> {
        Ok(Member {
            bearing_mm: inputs.need_number(length)?,
            gravity: wood.gravity.oven_dry,
            angle_deg: inputs.need_number(angle)?,
        })
    };
    let shear = if inputs.words("shear") == Some("double") { Shear::Double } else { Shear::Single };
    let (main_member, side_member) =
        (of(&main, "main-thickness-mm", "main-angle-deg")?, of(&side, "side-thickness-mm", "side-angle-deg")?);
    let found = lateral(dowel, main_member, side_member, shear).map_err(refusal)?;
    let factor = service(inputs).factor().map_err(refusal)?;
    let modes: Map<String, Value> = found.modes.iter().map(|(mode, n)| (mode.to_string(), Value::from(*n))).collect();
    let mut answer = Answer::new()
        .with("reference_n", found.reference_n)
        .with("mode", found.mode.to_string())
        .with("mode_in_words", found.mode.in_words())
        .with("modes_n", modes)
        .with("adjustment", factor)
        .with("adjusted_n", found.reference_n * factor)
        .with("bearing_diameter_mm", dowel.bearing_diameter_mm)
        .with("yield_mpa", dowel.yield_mpa)
        .with("main_bearing_mpa", found.main_bearing_mpa)
        .with("side_bearing_mpa", found.side_bearing_mpa);
    let depth = main_member.bearing_mm / dowel.diameter_mm;
    let least = if inputs.words("kind") == Some("lag-screw") { 4.0 } else { 6.0 };
    if depth < least && inputs.words("kind") != Some("bolt") && shear == Shear::Single {
        cautions.push(format!(
            "It goes {depth:.1} diameters into the frame; the rules want at least {least:.0} (National Design Specification 12.1)."
        ));
    }
    cautions.push("The wet-service factor is from memory, unconfirmed.".to_owned());
    let mut said: Vec<String> = main.cautions;
    said.extend(side.cautions);
    said.extend(cautions);
    let mut seen = std::collections::BTreeSet::new();
    for caution in said.into_iter().filter(|caution| seen.insert(caution.clone())) {
        answer = answer.caution(caution);
    }
    Ok(answer)
}

fn member(inputs: &Inputs, which: &str) -> Result<Wood, Refusal> {
    let (species, gravity) = (format!("{which}-species"), format!("{which}-specific-gravity"));
    match wood(inputs, &species, &gravity)? {
        Some(wood) => Ok(wood),
        None => need_wood(inputs, "species", "specific-gravity"),
    }
}

fn dowel(inputs: &Inputs) -> Result<(Dowel, Vec<String>), Refusal> {
    let mut cautions = Vec::new();
    let given = inputs.number("diameter-mm");
    let need = || {
        given.ok_or_else(|| Refusal::Missing {
            flag: "diameter-mm".to_owned(),
            accepted: "a diameter from 0.8 to 60 mm, or --gauge for a wood screw".to_owned(),
        })
    };
    let (shank, root, steel) = match inputs.need_words("kind")? {
        "wood-screw" => {
            let gauge = inputs.count("gauge").and_then(|gauge| u32::try_from(gauge).ok());
            let screw = match gauge {
                Some(gauge) => Some(WoodScrew::of_gauge(gauge, 50.0).map_err(refusal)?),
                None => WoodScrew::of_shank(need()?, 50.0).ok(),
            };
            match screw {
                Some(screw) => {
                    if screw.root_mark() == fastening::Mark::FromMemory && inputs.number("root-diameter-mm").is_none() {
                        cautions.push(format!(
                            "The root of #{} ({:.2} mm) is from memory of the National Design Specification Appendix L; measure it.",
                            screw.gauge,
                            screw.root_mm()
                        ));
                    }
                    (given.unwrap_or_else(|| screw.shank_mm()), screw.root_mm(), None)
                }
                None => {
                    let shank = need()?;
                    cautions.push(
                        "The root was taken as two thirds of the shank (Wood Handbook ch. 8); measure it.".to_owned(),
                    );
                    (shank, shank * 2.0 / 3.0, None)
                }
            }
        }
        "lag-screw" => {
            let lag = LagScrew::of_diameter(need()?, 100.0).map_err(refusal)?;
            (lag.diameter_mm, lag.root_mm, Some(lag.yield_mpa))
        }
        _ => (need()?, need()?, None),
    };
    let yield_mpa = inputs.number("yield-mpa").unwrap_or_else(|| {
        cautions.push(
            "The bending yield strength is that of common steel, from memory; give --yield-mpa for bronze or copper, about the \
             mean of yield and ultimate strength."
                .to_owned(),
        );
        steel.unwrap_or_else(|| steel_yield_mpa(shank))
    });
    let bearing_diameter_mm = inputs.number("root-diameter-mm").unwrap_or(root);
    if bearing_diameter_mm > shank {
        let why = format!("this is larger than the shank ({shank:.2} mm)");
        return Err(Refusal::value("root-diameter-mm", bearing_diameter_mm, why, format!("up to {shank:.2} mm")));
    }
    Ok((Dowel { diameter_mm: shank, bearing_diameter_mm, yield_mpa }, cautions))
}
