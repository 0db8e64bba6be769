//! `drying`: how a plank dries or wets through its thickness.

use super::plank_flags as flags;
use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Inputs, Refusal, Topic};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Pen, Sheet};
use timber::drying::{Drying, SOURCES, dry};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "drying",
    title: "Drying of a plank",
    question: "How wet is this plank, outside and in, after so many days?",
    version: 1,
    flags: &[
        SPECIES,
        flags::THICKNESS,
        flags::MC_START,
        flags::TEMP,
        flags::RH,
        flags::DAYS,
        flags::FACES,
        flags::BEHIND,
        flags::COATING,
        flags::EXPOSURE,
        flags::WEATHER,
        flags::FROM_MONTH,
    ],
    figures: &[
        Figure { key: "mean_mc_percent", label: "mean moisture", unit: "%", decimals: 1 },
        Figure { key: "surface_mc_percent", label: "moisture at the open face", unit: "%", decimals: 1 },
        Figure { key: "core_mc_percent", label: "moisture furthest from it", unit: "%", decimals: 1 },
        Figure { key: "emc_percent", label: "moisture the air draws it towards", unit: "%", decimals: 1 },
        Figure { key: "depths_mm", label: "depths below the open face", unit: "mm", decimals: 1 },
        Figure { key: "mc_at_depths_percent", label: "moisture at those depths", unit: "%", decimals: 1 },
    ],
    equation: "∂M/∂t = ∂/∂x (D(M,T) ∂M/∂x) with surface resistance, finite volumes, implicit in time",
    sources: &SOURCES,
    not_covered: &[
        "End grain, checks, open seams and liquid water; sun on one side; sea salt in the wood.",
        "Other coatings than those named.",
    ],
    example: &[
        ("species", "white oak"),
        ("thickness-mm", "30"),
        ("mc-start-percent", "28"),
        ("temp-c", "15"),
        ("rh-percent", "65"),
        ("days", "30"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let (plank, surroundings) = flags::plank(inputs, wood)?;
    let drying = dry(&plank, &surroundings, inputs.need_number("days")?).map_err(refusal)?;
    let end = drying.end().ok_or_else(|| Refusal::Meaningless("The plank has no state at the end.".to_owned()))?;
    let outwards = |values: &[f64]| values.iter().rev().copied().collect::<Vec<f64>>();
    let mut answer = Answer::new()
        .with("mean_mc_percent", end.mean_mc_percent)
        .with("surface_mc_percent", end.surface_mc_percent)
        .with("core_mc_percent", end.core_mc_percent)
        .with("emc_percent", end.emc_percent)
        .with("depths_mm", outwards(&drying.layer_depths_mm))
        .with("mc_at_depths_percent", outwards(&end.layers_percent));
    answer = with_name_caution(answer, inputs);
    for caution in &drying.cautions {
        answer = answer.caution(caution.clone());
    }
    Ok(answer.sheet(over_time(&drying, wood.common)).sheet(profiles(&drying, wood.common)))
}

fn over_time(drying: &Drying, wood: &str) -> Sheet {
    let of =
        |f: fn(&timber::drying::Snapshot) -> f64| drying.snapshots.iter().map(|s| (s.day, f(s))).collect::<Vec<_>>();
    let days = drying.end().map_or(1.0, |s| s.day);
    let curve = |name: &str, points, pen| Trace::Curve { name: name.to_owned(), points, pen };
    curves(
        "Moisture over time",
        &format!(
            "Moisture of {wood} at the face, on the mean and at the core over {days:.0} days, and (dashed) what the air draws it towards."
        ),
        &Axis::new("days", "", 0.0, days),
        &moisture_axis(drying),
        &[
            curve("", of(|s| s.emc_percent), Pen::THIN.dashed()),
            curve("face", of(|s| s.surface_mc_percent), Pen::THIN),
            curve("mean", of(|s| s.mean_mc_percent), Pen::THICK),
            curve("core", of(|s| s.core_mc_percent), Pen::THIN),
        ],
    )
}

fn profiles(drying: &Drying, wood: &str) -> Sheet {
    let last = drying.snapshots.len().saturating_sub(1);
    let chosen = [last / 30, last / 8, last / 3, last];
    let mut traces = Vec::new();
    // From the last day backwards, so that its name stands and crowded ones are left out.
    let mut named: Vec<f64> = Vec::new();
    for (n, i) in chosen.into_iter().enumerate().rev() {
        let Some(s) = drying.snapshots.get(i) else { continue };
        let mut points: Vec<(f64, f64)> =
            drying.layer_depths_mm.iter().copied().zip(s.layers_percent.iter().copied()).collect();
        points.push((0.0, s.surface_mc_percent));
        points.reverse();
        let end = s.core_mc_percent;
        let is_crowded = named.iter().any(|other| (other - end).abs() < 0.8);
        named.push(end);
        let name = if is_crowded { String::new() } else { format!("day {:.0}", s.day) };
        let pen = if n == 3 { Pen::THICK } else { Pen::THIN };
        traces.push(Trace::Curve { name, points, pen });
    }
    let days: Vec<String> =
        chosen.into_iter().filter_map(|i| drying.snapshots.get(i)).map(|s| format!("{:.0}", s.day)).collect();
    let deepest = drying.layer_depths_mm.iter().copied().fold(0.0, f64::max);
    curves(
        "Moisture through the plank",
        &format!("Moisture of {wood} against depth below the open face after {} days.", days.join(", ")),
        &Axis::new("depth below the open face", "mm", 0.0, deepest),
        &moisture_axis(drying),
        &traces,
    )
}

fn moisture_axis(drying: &Drying) -> Axis {
    let values = drying.snapshots.iter().flat_map(|s| [s.surface_mc_percent, s.core_mc_percent, s.emc_percent]);
    let (low, high) = values.fold((f64::INFINITY, 0.0f64), |(low, high), v| (low.min(v), high.max(v)));
    Axis::new("moisture", "%", (low - 1.0).max(0.0).floor(), (high + 1.0).ceil())
}
