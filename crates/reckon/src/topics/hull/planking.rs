//! A plank between frames under water pressure.

use super::offsets::refused;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use hull::craft_rule::{self, Category, Panel};
use hull::planking::{Held, PlankBeam, SEA_WATER_KPA_PER_M, residual, thickness_mm};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "planking",
    title: "Planking between frames under load",
    question: "Is this plank, at the thickness it has now, strong enough between its frames for the water outside?",
    version: 1,
    flags: &[
        Flag::required("species", "species of the planking", FlagKind::Words),
        Flag::required("thickness-mm", "thickness now", FlagKind::Length { unit: "mm", least: 1.0, greatest: 300.0 }),
        Flag::required(
            "frame-spacing-mm",
            "span between frames (clear, or centre to centre to be safe)",
            FlagKind::Length { unit: "mm", least: 20.0, greatest: 3000.0 },
        ),
        Flag::required(
            "head-m",
            "depth of sea water above the plank",
            FlagKind::Length { unit: "m", least: 0.0, greatest: 20.0 },
        ),
        Flag::optional(
            "original-mm",
            "thickness as built",
            FlagKind::Length { unit: "mm", least: 1.0, greatest: 300.0 },
        ),
        Flag::or(
            "mc-percent",
            "moisture of the planking",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 200.0 },
            "30",
        ),
        Flag::or(
            "stress-share-percent",
            "share of the bending strength taken as the greatest stress",
            FlagKind::Number { unit: "%", least: 1.0, greatest: 100.0 },
            "50",
        ),
        Flag::optional("category", "design category, for the rule's pressure", FlagKind::Choice(&["A", "B", "C", "D"])),
        Flag::optional(
            "mass-kg",
            "loaded mass, for the rule's pressure",
            FlagKind::Number { unit: "kg", least: 50.0, greatest: 1e6 },
        ),
        Flag::optional(
            "waterline-length-m",
            "length on the waterline, for the rule's least pressure",
            FlagKind::Length { unit: "m", least: 1.0, greatest: 60.0 },
        ),
        Flag::optional(
            "panel-length-mm",
            "long side of the panel, for the rule; else two and a half spans",
            FlagKind::Length { unit: "mm", least: 20.0, greatest: 30000.0 },
        ),
    ],
    figures: &[
        Figure { key: "pressure_kpa", label: "static head", unit: "kPa", decimals: 2 },
        Figure { key: "bending_stress_mpa", label: "bending stress, running over frames", unit: "MPa", decimals: 2 },
        Figure {
            key: "bending_stress_at_butt_mpa",
            label: "bending stress, free at both frames (beside a butt)",
            unit: "MPa",
            decimals: 2,
        },
        Figure { key: "deflection_mm", label: "deflection, running over frames", unit: "mm", decimals: 2 },
        Figure { key: "allowed_stress_mpa", label: "greatest stress taken", unit: "MPa", decimals: 1 },
        Figure {
            key: "required_thickness_mm",
            label: "thickness that would do, running over frames",
            unit: "mm",
            decimals: 1,
        },
        Figure {
            key: "required_thickness_at_butt_mm",
            label: "thickness that would do beside a butt",
            unit: "mm",
            decimals: 1,
        },
        Figure { key: "ratio", label: "stress over greatest stress taken", unit: "", decimals: 3 },
        Figure { key: "thickness_percent", label: "thickness left", unit: "%", decimals: 0 },
        Figure { key: "strength_percent", label: "bending strength left", unit: "%", decimals: 0 },
        Figure { key: "stiffness_percent", label: "stiffness left", unit: "%", decimals: 0 },
        Figure {
            key: "rule_pressure_kpa",
            label: "comparison: the small-craft rule's bottom pressure",
            unit: "kPa",
            decimals: 2,
        },
        Figure {
            key: "rule_bending_stress_mpa",
            label: "comparison: bending stress at that pressure",
            unit: "MPa",
            decimals: 2,
        },
        Figure { key: "rule_thickness_mm", label: "comparison: thickness at that pressure", unit: "mm", decimals: 1 },
        Figure {
            key: "rule_ratio",
            label: "comparison: stress at that pressure over greatest stress taken",
            unit: "",
            decimals: 3,
        },
    ],
    equation: "p = ρ g h; σ = p s²/(2 t²) over frames, 3 p s²/(4 t²) free at both; t = s √(p/(2σ)); deflection p s⁴/(32 E t³)",
    sources: &[
        "beam held at both ends and beam free at both ends under even load: any text of strength of materials",
        "strength of the wood at its moisture: the sources of the topic strength",
        "ISO 12215-5 (2008 clause numbers 7.2, 7.4, 7.5, 8.1.2, 10.1.2), known second-hand: the comparison pressure",
        "share of 50 % of bending strength as design stress: ISO 12215-5, from memory",
    ],
    not_covered: &[
        "Hydrostatic stress in sound planking is nearly always small; thickness is set by caulking, fastenings, wear and blows. A low ratio is no certificate.",
        "Wracking, grounding, slamming, the pull of fastenings and rot.",
        "Knots, sloping grain and the lasting share of the load: small clear wood is taken.",
    ],
    example: &[
        ("species", "white oak"),
        ("thickness-mm", "25"),
        ("frame-spacing-mm", "300"),
        ("head-m", "1.2"),
        ("category", "B"),
        ("mass-kg", "8000"),
        ("waterline-length-m", "10"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let name = inputs.need_words("species")?;
    let species = timber::species::find(name).map_err(|fault| {
        Refusal::value("species", name, fault.to_string().trim_end_matches('.'), "a species of the table")
    })?;
    let mc = inputs.need_number("mc-percent")?;
    let wood = timber::strength::at(species, mc, 20.0).map_err(|fault| {
        Refusal::value("species", name, fault.to_string().trim_end_matches('.'), "a species whose strength is known")
    })?;
    let Some(mor) = wood.strength.mor_mpa else {
        return Err(Refusal::value(
            "species",
            name,
            "its bending strength at that moisture is not known",
            "a species whose strength is known",
        ));
    };
    let (span, thickness) = (inputs.need_number("frame-spacing-mm")?, inputs.need_number("thickness-mm")?);
    let plank = PlankBeam::new(span, thickness).map_err(|fault| refused("thickness-mm", thickness, &fault))?;
    let allowed = mor.low * inputs.need_number("stress-share-percent")? / 100.0;
    let pressure = inputs.need_number("head-m")? * SEA_WATER_KPA_PER_M;
    let stress = plank.bending_mpa(pressure, Held::Continuous);
    let mut answer = Answer::new()
        .with("pressure_kpa", pressure)
        .with("bending_stress_mpa", stress)
        .with("bending_stress_at_butt_mpa", plank.bending_mpa(pressure, Held::Simply))
        .with_some(
            "deflection_mm",
            wood.strength.moe_mpa.map(|e| plank.deflection_mm(pressure, e.value, Held::Continuous)),
        )
        .with("allowed_stress_mpa", allowed)
        .with("required_thickness_mm", thickness_mm(span, pressure, allowed, Held::Continuous))
        .with("required_thickness_at_butt_mm", thickness_mm(span, pressure, allowed, Held::Simply))
        .with("ratio", stress / allowed);
    if let Some(original) = inputs.number("original-mm") {
        let left = residual(thickness, original).map_err(|fault| refused("original-mm", original, &fault))?;
        answer = answer
            .with("thickness_percent", left.thickness_percent)
            .with("strength_percent", left.strength_percent)
            .with("stiffness_percent", left.stiffness_percent)
            .caution("No published limit of wastage for wooden planking was found; the percentages are what is left, not a rule.");
        if thickness > original {
            answer = answer.caution("The plank measures thicker than it was built; look at both figures.");
        }
    }
    let category = inputs.words("category").and_then(Category::from_letter);
    match (category, inputs.number("mass-kg")) {
        (Some(category), Some(mass_kg)) => {
            let panel = Panel {
                mass_kg,
                waterline_m: inputs.number("waterline-length-m"),
                category,
                short_mm: span,
                long_mm: inputs.number("panel-length-mm").unwrap_or(2.5 * span),
                station: 1.0,
                side_share: 1.0,
            };
            let rule = craft_rule::pressures(&panel).map_err(|fault| refused("mass-kg", mass_kg, &fault))?;
            let at_rule = plank.bending_mpa(rule.bottom_kpa, Held::Continuous);
            answer = answer
                .with("rule_pressure_kpa", rule.bottom_kpa)
                .with("rule_bending_stress_mpa", at_rule)
                .with("rule_thickness_mm", thickness_mm(span, rule.bottom_kpa, allowed, Held::Continuous))
                .with("rule_ratio", at_rule / allowed)
                .caution(
                    "The small-craft rule (ISO 12215-5) covers glued wood and plywood and expressly excludes traditional \
                     wooden construction: for carvel and clinker planking its pressure is a comparison only.",
                );
            if panel.waterline_m.is_none() {
                answer = answer.caution("Without --waterline-length-m the rule's least pressure was not applied.");
            }
        }
        (None, None) => {}
        _ => {
            return Err(Refusal::Meaningless(
                "--category and --mass-kg belong together; give both or neither.".to_owned(),
            ));
        }
    }
    answer.cautions.extend(wood.cautions);
    Ok(answer)
}
