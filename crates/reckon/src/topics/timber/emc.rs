//! `emc`: equilibrium moisture content of wood in air.

use super::species_flag::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Pen, Sheet};
use timber::moisture::{BAND_PERCENT, SOURCE, cautions, equilibrium_percent, humidity_at_plank, humidity_for};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "emc",
    title: "Equilibrium moisture content of wood in air",
    question: "How wet does wood become if it stays in this air?",
    version: 1,
    flags: &[
        Flag::required(
            "temp-c",
            "temperature of the air",
            FlagKind::Number { unit: "°C", least: -40.0, greatest: 100.0 },
        ),
        Flag::required("rh-percent", "relative humidity", FlagKind::Number { unit: "%", least: 0.0, greatest: 100.0 }),
        Flag::optional(
            "plank-temp-c",
            "temperature of the plank where the sun has warmed it",
            FlagKind::Number { unit: "°C", least: -40.0, greatest: 100.0 },
        ),
        Flag::optional(
            "mc-percent",
            "a moisture content, to ask which humidity would hold it",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 },
        ),
    ],
    figures: &[
        Figure { key: "emc_percent", label: "equilibrium moisture", unit: "%", decimals: 1 },
        Figure { key: "low_percent", label: "real wood, from", unit: "%", decimals: 1 },
        Figure { key: "high_percent", label: "real wood, to", unit: "%", decimals: 1 },
        Figure { key: "plank_rh_percent", label: "humidity at the warmed plank", unit: "%", decimals: 0 },
        Figure { key: "rh_for_mc_percent", label: "humidity that holds the moisture given", unit: "%", decimals: 0 },
    ],
    equation: "Hailwood-Horrobin sorption with two hydrates",
    sources: &[SOURCE],
    not_covered: &["How long it takes: see `drying`. Wood wetter than saturated air makes it: rain, bilge, sea."],
    example: &[("temp-c", "20"), ("rh-percent", "65"), ("mc-percent", "18")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (air_c, rh) = (inputs.need_number("temp-c")?, inputs.need_number("rh-percent")?);
    let plank_c = inputs.number("plank-temp-c");
    equilibrium_percent(air_c, rh).map_err(refusal)?;
    let plank_rh = plank_c.map(|t| humidity_at_plank(air_c, rh, t));
    let (t, h) = (plank_c.unwrap_or(air_c), plank_rh.unwrap_or(rh));
    let emc = equilibrium_percent(t, if h < 1.0 { 0.0 } else { h }).map_err(refusal)?;
    let mut answer = Answer::new()
        .with("emc_percent", emc)
        .with("low_percent", (emc - BAND_PERCENT).max(0.0))
        .with("high_percent", emc + BAND_PERCENT)
        .with_some("plank_rh_percent", plank_rh);
    if let Some(mc) = inputs.number("mc-percent") {
        match humidity_for(t, mc).map_err(refusal)? {
            Some(rh) => answer = answer.with("rh_for_mc_percent", rh),
            None => {
                answer = answer.caution(format!(
                    "{mc} % is at or above fibre saturation: no humidity of the air holds it, only water does."
                ));
            }
        }
    }
    for caution in cautions(t, h) {
        answer = answer.caution(caution);
    }
    Ok(answer.sheet(sheet(t, h, emc)))
}

fn sheet(temp_c: f64, rh_percent: f64, emc: f64) -> Sheet {
    let curve = |t: f64, name: String, pen: Pen| {
        let points = (0..=49).map(|i| 2.0 * f64::from(i)).filter_map(|rh| Some((rh, equilibrium_percent(t, rh).ok()?)));
        Trace::Curve { name, points: points.collect(), pen }
    };
    let mut traces: Vec<Trace> = [0.0, 40.0]
        .into_iter()
        .filter(|t| (t - temp_c).abs() > 8.0)
        .map(|t| curve(t, String::new(), Pen::THIN.dashed()))
        .collect();
    traces.push(curve(temp_c, format!("{temp_c:.0} °C"), Pen::MIDDLE));
    traces.push(Trace::Mark { under: false, at: (rh_percent, emc), word: format!("{emc:.1} %") });
    curves(
        "Equilibrium moisture",
        &format!(
            "Moisture content against relative humidity; at {temp_c:.0} °C and {rh_percent:.0} % wood comes to {emc:.1} %. Dashed: 0 and 40 °C."
        ),
        &Axis::new("relative humidity", "%", 0.0, 100.0),
        &Axis::new("moisture", "%", 0.0, 30.0),
        &traces,
    )
}
