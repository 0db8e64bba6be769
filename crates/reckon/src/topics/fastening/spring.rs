//! `spring`: what a plank bent on to its frames asks of itself and of its fastenings.

use super::spring_answer::answer;
use super::spring_curve::asked;
use super::wood_flags::{GRAVITY, WET, WOOD_FACTOR, Wood, named, refusal, refusal_as, service, wood};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::gravity::Gravity;
use fastening::kinds::WoodScrew;
use fastening::plank::curve::Curvature;
use fastening::plank::sprung::{Asked, Holding, Plank};
use fastening::planking_table::{Customary, for_plank};
use fastening::pull_through::pull_through;
use fastening::service::Service;
use fastening::withdrawal::{Kind, root_tension_n, withdrawal};

const LENGTH: FlagKind = FlagKind::Length { unit: "mm", least: 0.5, greatest: 500.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "spring",
    title: "A plank sprung on to its frames",
    question: "What does the curve ask of plank and fastenings, what governs, and does it explain the larger bungs?",
    version: 1,
    flags: &[
        Flag::required("species", "wood of the plank, by any name of the trade", FlagKind::Words),
        Flag::required(
            "thickness-mm",
            "thickness of the plank",
            FlagKind::Length { unit: "mm", least: 3.0, greatest: 150.0 },
        ),
        Flag::required(
            "width-mm",
            "width of the plank",
            FlagKind::Length { unit: "mm", least: 20.0, greatest: 1000.0 },
        ),
        Flag::optional(
            "radius-m",
            "radius of the curve",
            FlagKind::Length { unit: "m", least: 0.05, greatest: 1000.0 },
        ),
        Flag::optional(
            "chord-mm",
            "or: chord of a string",
            FlagKind::Length { unit: "mm", least: 50.0, greatest: 30_000.0 },
        ),
        Flag::optional("rise-mm", "and its rise", FlagKind::Length { unit: "mm", least: 0.1, greatest: 15_000.0 }),
        Flag::optional(
            "offset-spacing-mm",
            "or: spacing of three offsets",
            FlagKind::Length { unit: "mm", least: 20.0, greatest: 10_000.0 },
        ),
        Flag::optional(
            "three-offsets-mm",
            "and the three, from a straight edge outside, e.g. 12, 3, 11",
            FlagKind::Words,
        ),
        Flag::optional(
            "positions-mm",
            "or: position of every frame along the plank, e.g. 0, 200, 410",
            FlagKind::Words,
        ),
        Flag::optional("frame-offsets-mm", "and its offset outwards from a straight line at each", FlagKind::Words),
        Flag::or(
            "offset-sd-mm",
            "error of one offset or rise (standard deviation)",
            FlagKind::Number { unit: "mm", least: 0.0, greatest: 50.0 },
            "1",
        ),
        Flag::or("form", "convex or hollow from outside", FlagKind::Choice(&["convex", "hollow"]), "convex"),
        Flag::optional(
            "freed-radius-m",
            "radius it keeps when freed (steamed or set)",
            FlagKind::Length { unit: "m", least: 0.05, greatest: 100_000.0 },
        ),
        Flag::optional(
            "spacing-mm",
            "spacing of the frames",
            FlagKind::Length { unit: "mm", least: 20.0, greatest: 3000.0 },
        ),
        Flag::optional(
            "rows",
            "frames that the plank crosses on the curve",
            FlagKind::Count { least: 3, greatest: 200 },
        ),
        Flag::or(
            "fastenings-per-row",
            "fastenings in the plank at each frame",
            FlagKind::Count { least: 1, greatest: 12 },
            "2",
        ),
        Flag::or(
            "mc-percent",
            "moisture of the plank",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 },
            "12",
        ),
        Flag::optional("frame-species", "wood of the frames", FlagKind::Words),
        Flag::optional("frame-specific-gravity", "or its specific gravity", GRAVITY),
        Flag::optional(
            "gauge",
            "gauge of the screws; the customary one when not given",
            FlagKind::Count { least: 0, greatest: 32 },
        ),
        Flag::optional(
            "length-mm",
            "length of the screws",
            FlagKind::Length { unit: "mm", least: 5.0, greatest: 300.0 },
        ),
        Flag::optional("penetration-mm", "thread in the frame", LENGTH),
        Flag::optional("head-diameter-mm", "diameter of head or washer", LENGTH),
        Flag::optional("under-head-mm", "wood left under the head", LENGTH),
        Flag::optional("frame-depth-mm", "depth of the frame", LENGTH),
        Flag::optional("metal", "metal of the screws", FlagKind::Words),
        Flag::or(
            "years",
            "years since it was hung",
            FlagKind::Number { unit: "years", least: 0.0, greatest: 300.0 },
            "0",
        ),
        Flag::optional(
            "bung-mm",
            "diameter of the larger bungs",
            FlagKind::Length { unit: "mm", least: 5.0, greatest: 40.0 },
        ),
        Flag::or(
            "bung-where",
            "where the larger bungs are",
            FlagKind::Choice(&["ends", "middle", "throughout"]),
            "ends",
        ),
        WET,
        WOOD_FACTOR,
    ],
    figures: &[
        Figure { key: "radius_m", label: "radius", unit: "m", decimals: 2 },
        Figure { key: "radius_low_m", label: "radius at least, by errors of reading", unit: "m", decimals: 2 },
        Figure { key: "radius_high_m", label: "radius at most, by errors of reading", unit: "m", decimals: 2 },
        Figure { key: "r_over_t", label: "radius over thickness", unit: "", decimals: 0 },
        Figure { key: "strain_percent", label: "strain of the outer face", unit: "%", decimals: 2 },
        Figure { key: "bend_reading", label: "the bend", unit: "", decimals: 0 },
        Figure { key: "bend_limits", label: "known limits (radius over thickness)", unit: "", decimals: 0 },
        Figure { key: "moe_mpa", label: "modulus of elasticity taken", unit: "MPa", decimals: 0 },
        Figure { key: "mor_mpa", label: "bending strength taken", unit: "MPa", decimals: 1 },
        Figure { key: "bending_stress_mpa", label: "bending stress when hung", unit: "MPa", decimals: 1 },
        Figure { key: "stress_ratio", label: "that over bending strength", unit: "", decimals: 2 },
        Figure { key: "force_per_fastening_n", label: "pull on the worst fastening, new", unit: "N", decimals: 0 },
        Figure { key: "force_sd_n", label: "its error from the offsets (standard deviation)", unit: "N", decimals: 0 },
        Figure { key: "force_relaxed_low_n", label: "after the years given, at least", unit: "N", decimals: 0 },
        Figure { key: "force_relaxed_high_n", label: "after the years given, at most", unit: "N", decimals: 0 },
        Figure { key: "worst_row", label: "row where it acts, 1 first", unit: "", decimals: 0 },
        Figure { key: "gauge", label: "gauge of the screws", unit: "", decimals: 0 },
        Figure { key: "withdrawal_allowed_n", label: "withdrawal allowed", unit: "N", decimals: 0 },
        Figure {
            key: "withdrawal_ultimate_n",
            label: "withdrawal, average ultimate of new dry wood",
            unit: "N",
            decimals: 0,
        },
        Figure { key: "pull_through_allowed_n", label: "pull-through allowed", unit: "N", decimals: 0 },
        Figure { key: "withdrawal_ratio", label: "pull over withdrawal allowed", unit: "", decimals: 2 },
        Figure { key: "pull_through_ratio", label: "pull over pull-through allowed", unit: "", decimals: 2 },
        Figure { key: "withdrawal_ultimate_ratio", label: "pull over ultimate withdrawal", unit: "", decimals: 2 },
        Figure { key: "tension_ratio", label: "pull over tension at the root", unit: "", decimals: 2 },
        Figure { key: "governs", label: "what governs", unit: "", decimals: 0 },
        Figure { key: "governs_ratio", label: "by a ratio of, new", unit: "", decimals: 2 },
        Figure { key: "governs_sentence", label: "which says", unit: "", decimals: 0 },
        Figure { key: "rows", label: "rows", unit: "", decimals: 0 },
        Figure {
            key: "rows_a_curve_can_explain",
            label: "rows where the curve may be the reason",
            unit: "",
            decimals: 0,
        },
        Figure { key: "rows_a_curve_cannot_explain", label: "rows where it cannot", unit: "", decimals: 0 },
        Figure { key: "curve_explains_bungs", label: "does the curve explain the larger bungs", unit: "", decimals: 0 },
        Figure { key: "reasoning", label: "because", unit: "", decimals: 0 },
        Figure { key: "next", label: "what would tell", unit: "", decimals: 0 },
    ],
    equation: "three-moment equation of a beam through given offsets, hinged at its ends; M = E I (1/R − 1/R₀), stress E t/2 (1/R − 1/R₀)",
    sources: &[
        "Beam theory (Clapeyron's three-moment equation)",
        "Wood Handbook, FPL-GTR-190 (2010): stiffness, strength, ultimate withdrawal",
        "National Design Specification for Wood Construction (2018) 12.2: withdrawal; head pull-through coefficients from memory",
        "Herreshoff/Nevins rules for yacht construction: customary screw and bung",
    ],
    not_covered: &[
        "Cupping, a flat plank rocking on a round frame, twist, edge set, caulking pressure, working and grounding.",
        "Allowable values hold a margin of about five on short tests: the ratios rank, they do not foretell failure.",
    ],
    example: &[
        ("species", "Honduras mahogany"),
        ("thickness-mm", "22"),
        ("width-mm", "120"),
        ("radius-m", "3"),
        ("spacing-mm", "200"),
        ("rows", "12"),
        ("frame-species", "white oak"),
        ("years", "40"),
        ("bung-mm", "16"),
    ],
    run,
};

/// Everything that the answer is written from.
pub(super) struct Sprung {
    pub plank: Plank,
    pub curvature: Option<Curvature>,
    pub asked: Asked,
    pub force_sd_n: Option<f64>,
    pub screw: WoodScrew,
    pub customary: Option<Customary>,
    pub holding: Holding,
    pub customary_holding: Option<Holding>,
    pub withdrawal_ultimate_n: f64,
    pub cautions: Vec<String>,
}

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let name = inputs.need_words("species")?;
    let species = named("species", name)?;
    let mut cautions: Vec<String> = timber::species::loose_name_caution(name).into_iter().collect();
    let plank = plank(inputs, species, &mut cautions)?;
    let (curvature, asked, force_sd_n) = asked(inputs, &plank, &mut cautions)?;
    let plank_gravity = Gravity::of(species).ok_or_else(|| {
        let why = format!("no specific gravity of {} is known", species.common);
        Refusal::value("species", name, why, "another wood")
    })?;
    let frame = match wood(inputs, "frame-species", "frame-specific-gravity")? {
        Some(frame) => frame,
        None => {
            cautions.push("The frames were taken to be of the plank's wood, since none was named.".to_owned());
            Wood { gravity: plank_gravity, cautions: Vec::new() }
        }
    };
    cautions.extend(frame.cautions.iter().cloned());
    let thickness = plank.thickness_mm;
    let customary = for_plank(thickness).ok().cloned();
    let under_head = inputs.number("under-head-mm").unwrap_or_else(|| {
        cautions.push(format!(
            "The head was taken as sunk a third of the plank, {:.1} mm left under it (common practice, from memory): measure it.",
            thickness * 2.0 / 3.0
        ));
        thickness * 2.0 / 3.0
    });
    if under_head > thickness {
        let why = format!("this is more than the plank's thickness ({thickness} mm)");
        return Err(Refusal::value("under-head-mm", under_head, why, "what is left under the head"));
    }
    let screw = screw(inputs, customary.as_ref(), &mut cautions)?;
    let penetration = penetration(inputs, &screw, under_head)?;
    let head = inputs.number("head-diameter-mm").unwrap_or_else(|| screw.head_mm());
    let hold = |screw: &WoodScrew, penetration: f64, head: f64| {
        holding(inputs, screw, penetration, head, under_head, frame.gravity, plank_gravity)
    };
    let (holding, withdrawal_ultimate_n) = hold(&screw, penetration, head)?;
    let customary_holding = match &customary {
        Some(row) => {
            let usual = WoodScrew::of_gauge(row.gauge, row.length_mm).map_err(refusal)?;
            Some(hold(&usual, usual.thread_in_frame_mm(under_head), usual.head_mm())?.0)
        }
        None => None,
    };
    cautions.push(
        "Head pull-through rests on coefficients from memory and on round heads: it ranks, it is no strength."
            .to_owned(),
    );
    cautions.push("The wet-service factor is from memory, unconfirmed.".to_owned());
    let sprung = Sprung {
        plank,
        curvature,
        asked,
        force_sd_n,
        screw,
        customary,
        holding,
        customary_holding,
        withdrawal_ultimate_n,
        cautions,
    };
    answer(inputs, sprung)
}

fn plank(
    inputs: &Inputs,
    species: &'static timber::species::Species,
    cautions: &mut Vec<String>,
) -> Result<Plank, Refusal> {
    let mc = inputs.need_number("mc-percent")?;
    let strength = timber::strength::at(species, mc, 20.0).map_err(|fault| Refusal::Meaningless(fault.to_string()))?;
    let (Some(moe), Some(mor)) = (strength.strength.moe_mpa, strength.strength.mor_mpa) else {
        let why = format!("stiffness and bending strength of {} are not both known", species.common);
        return Err(Refusal::value("species", species.common, why, "another wood"));
    };
    cautions.extend(moe.caution(&format!("modulus of elasticity of {} (MPa)", species.common)));
    cautions.extend(mor.caution(&format!("bending strength of {} (MPa)", species.common)));
    Ok(Plank {
        thickness_mm: inputs.need_number("thickness-mm")?,
        width_mm: inputs.need_number("width-mm")?,
        moe_mpa: moe.value,
        mor_mpa: mor.value,
        freed_radius_m: inputs.number("freed-radius-m"),
    })
}

fn screw(inputs: &Inputs, customary: Option<&Customary>, cautions: &mut Vec<String>) -> Result<WoodScrew, Refusal> {
    let length = inputs.number("length-mm");
    match (inputs.count("gauge"), customary) {
        (Some(gauge), _) => {
            let length = length.or(customary.map(|row| row.length_mm)).unwrap_or(50.0);
            WoodScrew::of_gauge(u32::try_from(gauge).unwrap_or(99), length).map_err(refusal)
        }
        (None, Some(row)) => {
            cautions.push(format!(
                "The screws were taken as customary for the plank: #{} × {} in (Herreshoff/Nevins). Draw one to know.",
                row.gauge, row.length_in
            ));
            WoodScrew::of_gauge(row.gauge, length.unwrap_or(row.length_mm)).map_err(refusal)
        }
        (None, None) => Err(Refusal::Missing {
            flag: "gauge".to_owned(),
            accepted: "a gauge from 0 to 32: the plank is outside the table of customary screws".to_owned(),
        }),
    }
}

fn penetration(inputs: &Inputs, screw: &WoodScrew, under_head: f64) -> Result<f64, Refusal> {
    let penetration = match inputs.number("penetration-mm") {
        Some(given) => given,
        None => screw.thread_in_frame_mm(under_head),
    };
    if penetration < 1.0 {
        let why = format!(
            "a screw of {:.1} mm with {under_head:.1} mm of wood under its head does not reach the frame",
            screw.length_mm
        );
        return Err(Refusal::value(
            "length-mm",
            format!("{:.1}", screw.length_mm),
            why,
            "a longer screw, or --penetration-mm",
        ));
    }
    match inputs.number("frame-depth-mm").filter(|depth| penetration > *depth) {
        Some(depth) => {
            let why = format!("this is longer than the frame is deep ({depth} mm): the point is through");
            Err(Refusal::value(
                "penetration-mm",
                format!("{penetration:.1}"),
                why,
                format!("a length up to {depth} mm"),
            ))
        }
        None => Ok(penetration),
    }
}

fn holding(
    inputs: &Inputs,
    screw: &WoodScrew,
    penetration: f64,
    head: f64,
    under_head: f64,
    frame: Gravity,
    plank: Gravity,
) -> Result<(Holding, f64), Refusal> {
    let service = service(inputs);
    // The condition factor is that of the wood in the thread; the head bears on the plank. Wood wholly gone still counts for a trifle, so
    // that the ratio stays a number.
    let factor = service.factor().map_err(refusal)?.max(1e-6);
    let head_factor = Service { wood_factor: 1.0, ..service }.factor().map_err(refusal)?;
    let thread = withdrawal(Kind::WoodScrew, screw.shank_mm(), penetration, frame).map_err(refusal)?;
    let through = pull_through(head, under_head, plank.oven_dry).map_err(refusal_as("head-diameter-mm"))?;
    let metal = inputs.words("metal").map(fastening::metal::find).transpose().map_err(refusal)?;
    let tension_n = match metal {
        Some(metal) => Some(root_tension_n(screw.root_mm(), metal.ultimate_mpa.0).map_err(refusal)?),
        None => None,
    };
    let holding = Holding {
        withdrawal_n: thread.reference_n.unwrap_or(thread.ultimate_n) * factor,
        pull_through_n: through.reference_n * head_factor,
        tension_n,
    };
    Ok((holding, thread.ultimate_n))
}
