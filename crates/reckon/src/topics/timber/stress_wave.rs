//! `stress-wave`: the baseline for a timed blow in sound wood.

use super::species_flag::{SPECIES, refusal, species, with_name_caution};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::Pen;
use drawing::chart::{Axis, Trace, curves};
use timber::sound::{SOURCE, baseline};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "stress-wave",
    title: "Stress-wave baseline of sound wood",
    question: "How long should a stress wave take through sound wood of this kind?",
    version: 1,
    flags: &[
        SPECIES,
        Flag::required("mc-percent", "moisture", FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 }),
        Flag::optional(
            "across-us-per-m",
            "time measured across the grain, per metre",
            FlagKind::Number { unit: "µs/m", least: 100.0, greatest: 20_000.0 },
        ),
    ],
    figures: &[
        Figure { key: "along_m_s", label: "speed along the grain", unit: "m/s", decimals: 0 },
        Figure { key: "along_us_per_m", label: "time along the grain", unit: "µs/m", decimals: 0 },
        Figure { key: "across_fast_us_per_m", label: "time across the grain, fast end", unit: "µs/m", decimals: 0 },
        Figure { key: "across_slow_us_per_m", label: "time across the grain, slow end", unit: "µs/m", decimals: 0 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
    ],
    equation: "v = sqrt(E/ρ), E 1.1 times the printed modulus; 1 % slower per 1 % moisture to fibre saturation, then by mass",
    sources: &[SOURCE],
    not_covered: &[
        "Short spans read faster than long ones; instruments differ; a baseline from the boat herself is better.",
    ],
    example: &[("species", "Douglas fir"), ("mc-percent", "16"), ("across-us-per-m", "1100")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let wood = species(inputs)?;
    let mc = inputs.need_number("mc-percent")?;
    let found = baseline(wood, mc).map_err(refusal)?;
    let mut answer = Answer::new()
        .with("along_m_s", found.along_m_s)
        .with("along_us_per_m", found.along_us_per_m)
        .with("across_fast_us_per_m", found.across_fast_us_per_m)
        .with("across_slow_us_per_m", found.across_slow_us_per_m);
    if let Some(measured) = inputs.number("across-us-per-m") {
        let reading = match measured / found.across_slow_us_per_m {
            r if r > 1.5 => "far slower than sound wood: look inside",
            r if r > 1.3 => "slower than sound wood: look inside, after ruling out checks and bolts",
            r if r > 1.0 => "slow for sound wood, within what spans and moisture do",
            _ => "within sound wood",
        };
        answer = answer.with("reading", reading);
    }
    answer = with_name_caution(answer, inputs);
    for caution in found.cautions {
        answer = answer.caution(caution);
    }
    let mut line = Vec::new();
    for i in 1..=40 {
        let at = 2.0 * f64::from(i);
        line.push((at, baseline(wood, at).map_err(refusal)?.along_us_per_m));
    }
    let high = line.iter().map(|p| p.1).fold(found.along_us_per_m, f64::max);
    Ok(answer.sheet(curves(
        "Time along the grain against moisture",
        &format!("Stress-wave time along the grain of sound {} against moisture.", wood.common),
        &Axis::new("moisture", "%", 0.0, 80.0f64.max(mc)),
        &Axis::new("time", "µs/m", 0.0, high * 1.1),
        &[
            Trace::Curve { name: wood.common.to_owned(), points: line, pen: Pen::MIDDLE },
            Trace::Mark {
                under: false,
                at: (mc, found.along_us_per_m),
                word: format!("{:.0} µs/m", found.along_us_per_m),
            },
        ],
    )))
}
