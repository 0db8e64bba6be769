//! `bolt`: what is left of a wasted bolt, and the load on ballast bolts by simple statics.

use super::lists::numbers;
use super::wood_flags::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::keel::order::{Known, draw_first};
use fastening::keel::residual::{Residual, residual};
use fastening::keel::statics::{BallastKeel, Case};
use fastening::kinds::Thread;
use fastening::metal::{Metal, find};
use serde_json::{Value, json};

const DIAMETER: FlagKind = FlagKind::Length { unit: "mm", least: 2.0, greatest: 150.0 };
const LENGTH: FlagKind = FlagKind::Length { unit: "mm", least: 1.0, greatest: 30_000.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "bolt",
    title: "A wasted bolt, and ballast bolts",
    question: "What is left of this bolt, what does it carry, and which should be drawn first?",
    version: 1,
    flags: &[
        Flag::required("diameter-mm", "diameter when new", DIAMETER),
        Flag::required("measured-diameter-mm", "least diameter measured", DIAMETER),
        Flag::required("metal", "metal", FlagKind::Words),
        Flag::optional("thread", "thread, e.g. 3/4-10 UNC or M20", FlagKind::Words),
        Flag::optional(
            "load-n",
            "tension on it, where known",
            FlagKind::Number { unit: "N", least: 0.0, greatest: 1e8 },
        ),
        Flag::optional(
            "limit-area-percent",
            "least area left that you accept (none is published)",
            FlagKind::Number { unit: "%", least: 1.0, greatest: 100.0 },
        ),
        Flag::optional(
            "ballast-kg",
            "mass of the ballast",
            FlagKind::Number { unit: "kg", least: 1.0, greatest: 500_000.0 },
        ),
        Flag::optional("depth-mm", "depth of its centre of gravity below the joint", LENGTH),
        Flag::optional("joint-mm", "breadth of the joint", LENGTH),
        Flag::optional("bolts", "number of bolts", FlagKind::Count { least: 1, greatest: 200 }),
        Flag::optional("spacing-mm", "spacing of the bolts along the keel", LENGTH),
        Flag::optional("positions-mm", "or: position of every bolt from forward, e.g. 0, 400, 900", FlagKind::Words),
        Flag::or(
            "half-row-mm",
            "half the distance between two rows; 0 for one row",
            FlagKind::Length { unit: "mm", least: 0.0, greatest: 1500.0 },
            "0",
        ),
        Flag::or(
            "crushed-share",
            "outer share of the half breadth taken as crushed",
            FlagKind::Number { unit: "", least: 0.0, greatest: 0.5 },
            "0.1",
        ),
        Flag::or(
            "dynamic-factor",
            "dynamic factor at 90°",
            FlagKind::Number { unit: "", least: 1.0, greatest: 10.0 },
            "1",
        ),
        Flag::optional("boat-kg", "mass of the whole boat", FlagKind::Number { unit: "kg", least: 1.0, greatest: 2e6 }),
        Flag::optional(
            "grounding-share",
            "force of grounding as a share of the boat's weight (yours to set)",
            FlagKind::Number { unit: "", least: 0.01, greatest: 10.0 },
        ),
        Flag::optional("grounding-height-mm", "height of that force below the joint", LENGTH),
        Flag::optional("signs", "signs by bolt number, e.g. 3: rust weep; 7: loose nut", FlagKind::Words),
    ],
    figures: &[
        Figure { key: "residual_area_percent", label: "area left at the waist", unit: "%", decimals: 1 },
        Figure { key: "residual_strength_percent", label: "strength left in tension", unit: "%", decimals: 1 },
        Figure {
            key: "residual_bending_percent",
            label: "strength left in bending at the waist",
            unit: "%",
            decimals: 1,
        },
        Figure { key: "governing_area_mm2", label: "area that governs", unit: "mm²", decimals: 1 },
        Figure { key: "thread_governs", label: "the thread governs", unit: "", decimals: 0 },
        Figure { key: "ultimate_low_n", label: "parts at, low", unit: "N", decimals: 0 },
        Figure { key: "ultimate_high_n", label: "parts at, high", unit: "N", decimals: 0 },
        Figure { key: "yield_low_n", label: "yields at, low", unit: "N", decimals: 0 },
        Figure { key: "yield_high_n", label: "yields at, high", unit: "N", decimals: 0 },
        Figure { key: "stress_mpa", label: "stress under the load given", unit: "MPa", decimals: 1 },
        Figure { key: "factor_on_ultimate_low", label: "ultimate over that load, low", unit: "", decimals: 2 },
        Figure { key: "factor_on_yield_low", label: "yield over that load, low", unit: "", decimals: 2 },
        Figure { key: "within_your_limit", label: "within the limit you set", unit: "", decimals: 0 },
        Figure { key: "upright_n", label: "tension in each bolt, upright", unit: "N", decimals: 0 },
        Figure { key: "heeled_90_n", label: "greatest tension, at 90°", unit: "N", decimals: 0 },
        Figure { key: "grounding_n", label: "greatest tension, grounding", unit: "N", decimals: 0 },
        Figure { key: "heeled_90_stress_mpa", label: "stress at 90° in the bolt measured", unit: "MPa", decimals: 1 },
        Figure { key: "cases", label: "cases", unit: "", decimals: 1 },
        Figure { key: "assumptions", label: "assumptions", unit: "", decimals: 0 },
        Figure { key: "draw_first", label: "order in which to draw", unit: "", decimals: 1 },
    ],
    equation: "area (d/d₀)²; tension by the lesser of waist and thread, π/4 (d − 0.9382 P)² or π/4 (D − 0.9743/n)²; \
               T = M z/Σz² + W cos θ/n about a line near the leeward edge",
    sources: &[
        "ISO 898-1 and ASME B1.1: stress area of threads",
        "Plain statics; every assumption is printed",
        "US Army TB 55-1900-201-45/1, 2-8: bolts waste at the faying surface while the head looks sound",
    ],
    not_covered: &[
        "Adequacy of a ballast keel's attachment: a naval architect's. Fitness of a passenger vessel: the flag's inspector.",
        "A wastage limit: none is published for keel bolts; it is the surveyor's to set. Pits, cracks, dezincification, bent bolts.",
    ],
    example: &[
        ("diameter-mm", "3/4\""),
        ("measured-diameter-mm", "15.5"),
        ("metal", "mild-steel"),
        ("thread", "3/4-10 UNC"),
        ("ballast-kg", "2000"),
        ("depth-mm", "500"),
        ("joint-mm", "300"),
        ("bolts", "8"),
        ("spacing-mm", "400"),
        ("signs", "3: rust weep"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let metal = find(inputs.need_words("metal")?).map_err(refusal)?;
    let thread = inputs.words("thread").map(Thread::named).transpose().map_err(refusal)?;
    let (new, now) = (inputs.need_number("diameter-mm")?, inputs.need_number("measured-diameter-mm")?);
    let left = residual(new, now, thread.as_ref(), metal).map_err(refusal)?;
    let mut answer = Answer::new()
        .with("residual_area_percent", left.area_percent)
        .with("residual_strength_percent", left.strength_percent)
        .with("residual_bending_percent", left.bending_percent)
        .with("governing_area_mm2", left.governing_area_mm2)
        .with("thread_governs", left.thread_governs)
        .with("ultimate_low_n", left.ultimate_n.0)
        .with("ultimate_high_n", left.ultimate_n.1)
        .with("yield_low_n", left.yield_n.0)
        .with("yield_high_n", left.yield_n.1);
    if let Some(load) = inputs.number("load-n").filter(|load| *load > 0.0) {
        answer = answer
            .with("stress_mpa", load / left.governing_area_mm2)
            .with("factor_on_ultimate_low", left.ultimate_n.0 / load)
            .with("factor_on_yield_low", left.yield_n.0 / load);
    }
    answer = match inputs.number("limit-area-percent") {
        Some(limit) => answer.with("within_your_limit", left.area_percent >= limit),
        None => answer.caution("No wastage limit for keel bolts is published, and none is built in: set your own with --limit-area-percent."),
    };
    if now > new {
        answer = answer.caution(
            "It measures larger than new, within makers' tolerance or scale: taken as new. Clean it and measure again.",
        );
    }
    if thread.is_none() {
        answer = answer.caution(
            "No thread was given, so strength is taken to go as the area. In a threaded bolt the thread is already as weak as a shank of \
             0.84 to 0.89 of the diameter, so that the first tenth or so of wasting costs no tension: give --thread.",
        );
    }
    answer = keel(answer, inputs, &left, metal)?;
    if let Some(caution) = metal.caution() {
        answer = answer.caution(caution);
    }
    answer = answer.caution(fastening::corrosion::hidden(metal));
    Ok(answer.caution(
        "The least diameter over the whole length counts, in two directions. One good bolt says little about the next. Drawing may break \
         a bolt: have her chocked, a spare at hand and the owner's consent in writing.",
    ))
}

fn keel(answer: Answer, inputs: &Inputs, left: &Residual, metal: &Metal) -> Result<Answer, Refusal> {
    let Some(ballast_kg) = inputs.number("ballast-kg") else { return Ok(answer) };
    let need = |flag: &'static str| {
        let accepted = "a length in mm, with --ballast-kg".to_owned();
        inputs.number(flag).ok_or(Refusal::Missing { flag: flag.to_owned(), accepted })
    };
    let keel = BallastKeel {
        ballast_kg,
        depth_mm: need("depth-mm")?,
        joint_mm: need("joint-mm")?,
        positions_mm: positions(inputs)?,
        half_row_mm: inputs.need_number("half-row-mm")?,
        crushed_share: inputs.need_number("crushed-share")?,
    };
    let upright = keel.upright().map_err(refusal)?;
    let heeled = keel.heeled(90.0, inputs.need_number("dynamic-factor")?).map_err(refusal)?;
    let mut answer = answer
        .with("upright_n", upright.greatest_n)
        .with("heeled_90_n", heeled.greatest_n)
        .with("heeled_90_stress_mpa", heeled.greatest_n / left.governing_area_mm2);
    let mut cases = vec![upright, heeled];
    let grounding = (inputs.number("boat-kg"), inputs.number("grounding-share"), inputs.number("grounding-height-mm"));
    if let (Some(boat), Some(share), Some(height)) = grounding {
        let case = keel.grounding(boat, share, height).map_err(refusal)?;
        answer = answer.with("grounding_n", case.greatest_n);
        cases.push(case);
    } else {
        answer = answer
            .caution("Grounding was not reckoned: it wants --boat-kg, --grounding-share and --grounding-height-mm.");
    }
    let rows: Vec<Value> = cases.iter().map(|case| case_row(case, left)).collect();
    let assumptions: Vec<String> =
        cases.iter().flat_map(|case| case.assumptions.iter().map(|a| format!("{}: {a}", case.name))).collect();
    let order = order(inputs, &keel, &cases, metal)?;
    Ok(answer.with("cases", rows).with("assumptions", assumptions).with("draw_first", order))
}

fn positions(inputs: &Inputs) -> Result<Vec<f64>, Refusal> {
    if let Some(text) = inputs.words("positions-mm") {
        return numbers("positions-mm", text);
    }
    let Some(bolts) = inputs.count("bolts") else {
        let accepted = "the number of bolts, or --positions-mm".to_owned();
        return Err(Refusal::Missing { flag: "bolts".to_owned(), accepted });
    };
    let spacing = inputs.number("spacing-mm").unwrap_or(0.0);
    Ok((0..bolts).map(|i| i as f64 * spacing).collect())
}

fn case_row(case: &Case, left: &Residual) -> Value {
    json!({
        "case": case.name,
        "greatest_n": case.greatest_n,
        "shear_n": case.shear_n,
        "yield_over_it_low": left.yield_n.0 / case.greatest_n.max(1e-9),
        "ultimate_over_it_low": left.ultimate_n.0 / case.greatest_n.max(1e-9),
    })
}

fn order(inputs: &Inputs, keel: &BallastKeel, cases: &[Case], metal: &Metal) -> Result<Vec<Value>, Refusal> {
    let n = keel.positions_mm.len();
    let mut bolts: Vec<Known> = (0..n)
        .map(|i| Known {
            number: i + 1,
            tension_n: cases.iter().filter_map(|case| case.tensions_n.get(i)).copied().fold(0.0, f64::max),
            ..Known::default()
        })
        .collect();
    for part in inputs.words("signs").unwrap_or_default().split(';').map(str::trim).filter(|part| !part.is_empty()) {
        let refuse = |why: String| {
            Refusal::value("signs", part, why, format!("e.g. 3: rust weep; 7: loose nut, numbers 1 to {n}"))
        };
        let (number, sign) = part.split_once(':').ok_or_else(|| refuse("this has no colon".to_owned()))?;
        let number: usize =
            number.trim().parse().map_err(|_| refuse("this begins with no bolt's number".to_owned()))?;
        let bolt = number.checked_sub(1).and_then(|i| bolts.get_mut(i));
        bolt.ok_or_else(|| refuse("there is no such bolt".to_owned()))?.signs.push(sign.trim().to_owned());
    }
    let wastes = metal.id.contains("steel") || metal.id.contains("iron");
    let placed = draw_first(&bolts).into_iter().map(|placed| {
        let mut reasons = placed.reasons;
        if reasons.is_empty() && wastes {
            reasons.push("iron wastes unseen at the joint".to_owned());
        }
        json!({"bolt": placed.number, "points": placed.points, "reasons": reasons})
    });
    Ok(placed.collect())
}
