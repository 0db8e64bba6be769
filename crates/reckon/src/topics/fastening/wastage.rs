//! `wastage`: how fast a fastening wastes, and how long until the limit you set.

use super::lists::numbers;
use super::wood_flags::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::corrosion::{hidden, rates};
use fastening::metal::find;
use fastening::wastage::{Measured, rate_of_several, wastage};
use serde_json::{Value, json};

const DIAMETER: FlagKind = FlagKind::Length { unit: "mm", least: 0.0, greatest: 200.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "wastage",
    title: "Rate of wastage and years to a limit",
    question: "How fast has this fastening wasted, and how long until the limit you set?",
    version: 1,
    flags: &[
        Flag::required("metal", "metal", FlagKind::Words),
        Flag::required(
            "original-mm",
            "diameter when new",
            FlagKind::Length { unit: "mm", least: 0.5, greatest: 200.0 },
        ),
        Flag::required("measured-mm", "least diameter measured", DIAMETER),
        Flag::required("years", "years in place", FlagKind::Number { unit: "years", least: 0.01, greatest: 300.0 }),
        Flag::optional("limit-mm", "least diameter that you accept (none is published)", DIAMETER),
        Flag::optional(
            "limit-area-percent",
            "or: least area left that you accept",
            FlagKind::Number { unit: "%", least: 1.0, greatest: 99.9 },
        ),
        Flag::or(
            "original-sd-mm",
            "error of the new diameter (standard deviation)",
            FlagKind::Number { unit: "mm", least: 0.0, greatest: 10.0 },
            "0.1",
        ),
        Flag::or(
            "measured-sd-mm",
            "error of a calliper reading (standard deviation)",
            FlagKind::Number { unit: "mm", least: 0.0, greatest: 10.0 },
            "0.1",
        ),
        Flag::optional("others-mm", "other fastenings of the same size, age and place, e.g. 5.1, 5.4", FlagKind::Words),
        Flag::or(
            "confidence-percent",
            "confidence",
            FlagKind::Number { unit: "%", least: 50.0, greatest: 99.99 },
            "95",
        ),
    ],
    figures: &[
        Figure { key: "rate_mm_per_year", label: "loss of diameter", unit: "mm/year", decimals: 3 },
        Figure { key: "rate_low_mm_per_year", label: "at least", unit: "mm/year", decimals: 3 },
        Figure { key: "rate_high_mm_per_year", label: "at most", unit: "mm/year", decimals: 3 },
        Figure { key: "area_left_percent", label: "area left", unit: "%", decimals: 1 },
        Figure { key: "years_to_limit", label: "years to your limit", unit: "years", decimals: 1 },
        Figure { key: "years_to_limit_low", label: "at least", unit: "years", decimals: 1 },
        Figure { key: "years_to_limit_high", label: "at most", unit: "years", decimals: 1 },
        Figure { key: "mean_rate_mm_per_year", label: "mean rate of all measured", unit: "mm/year", decimals: 3 },
        Figure { key: "mean_rate_low_mm_per_year", label: "mean at least", unit: "mm/year", decimals: 3 },
        Figure { key: "mean_rate_high_mm_per_year", label: "mean at most", unit: "mm/year", decimals: 3 },
        Figure {
            key: "next_rate_high_mm_per_year",
            label: "the next one drawn, at most",
            unit: "mm/year",
            decimals: 3,
        },
        Figure { key: "published_mm_per_year", label: "published rates, of diameter", unit: "", decimals: 3 },
        Figure { key: "against_published", label: "against published rates", unit: "", decimals: 0 },
    ],
    equation: "rate (d₀ − d)/years with a normal interval; years to limit (d − limit)/(d₀ − d) × years with Fieller's interval",
    sources: &[
        "Fieller (1954), Some problems in interval estimation",
        "ERDC/CRREL LR-03-19 (steel); Tuthill (1987) and Reinhart (1976) (copper alloys): published rates",
    ],
    not_covered: &["Pits, crevices, stray current, dezincification; any limit: none is published, it is yours."],
    example: &[
        ("metal", "silicon-bronze"),
        ("original-mm", "6.15"),
        ("measured-mm", "5.5"),
        ("years", "40"),
        ("limit-area-percent", "50"),
        ("others-mm", "5.7, 5.3, 5.9"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let metal = find(inputs.need_words("metal")?).map_err(refusal)?;
    let (original, now, years) =
        (inputs.need_number("original-mm")?, inputs.need_number("measured-mm")?, inputs.need_number("years")?);
    let limit =
        inputs.number("limit-mm").or(inputs.number("limit-area-percent").map(|p| original * (p / 100.0).sqrt()));
    let confidence = inputs.need_number("confidence-percent")? / 100.0;
    let measured = Measured {
        original_mm: original,
        original_sd_mm: inputs.need_number("original-sd-mm")?,
        measured_mm: now,
        measured_sd_mm: inputs.need_number("measured-sd-mm")?,
        years,
    };
    let found = wastage(&measured, limit, confidence).map_err(refusal)?;
    let rate = found.rate_mm_per_year;
    let mut answer = Answer::new()
        .with("rate_mm_per_year", rate.estimate)
        .with("rate_low_mm_per_year", rate.lower)
        .with("rate_high_mm_per_year", rate.upper)
        .with("area_left_percent", 100.0 * (now / original).powi(2));
    if let Some(to_limit) = found.years_to_limit {
        let finite = |n: f64| n.is_finite().then_some(n);
        answer = answer
            .with_some("years_to_limit", finite(to_limit.estimate))
            .with("years_to_limit_low", to_limit.lower)
            .with_some("years_to_limit_high", finite(to_limit.upper));
        if to_limit.upper.is_infinite() {
            answer = answer.caution("The loss is not clear of the error of measuring: the years have no upper end.");
        }
    } else {
        answer = answer
            .caution("No limit was given and none is published: give --limit-mm or --limit-area-percent for years.");
    }
    if let Some(text) = inputs.words("others-mm") {
        let mut losses = vec![original - now];
        losses.extend(numbers("others-mm", text)?.into_iter().map(|d| original - d));
        let (mean, next) = rate_of_several(&losses, years, confidence).map_err(refusal)?;
        answer = answer
            .with("mean_rate_mm_per_year", mean.estimate)
            .with("mean_rate_low_mm_per_year", mean.lower)
            .with("mean_rate_high_mm_per_year", mean.upper)
            .with("next_rate_high_mm_per_year", next.upper);
    }
    let rows: Vec<Value> = rates(metal)
        .into_iter()
        .map(|rate| {
            let (low, high) = rate.diameter_mm_per_year();
            json!({"exposure": rate.exposure, "low": low, "high": high, "note": rate.note, "source": rate.source, "standing": rate.mark.words()})
        })
        .collect();
    let remembered = rates(metal).iter().any(|rate| rate.mark == fastening::Mark::FromMemory);
    if let Some((low, high)) = fastening::corrosion::diameter_range_mm_per_year(metal) {
        answer = answer.with("against_published", against(rate.estimate, low, high, remembered));
    }
    answer = answer.with("published_mm_per_year", rows);
    for caution in found.cautions {
        answer = answer.caution(caution);
    }
    Ok(answer.caution(hidden(metal)))
}

fn against(rate: f64, low: f64, high: f64, remembered: bool) -> String {
    let standing = if remembered { " (some of it from memory, unconfirmed)" } else { "" };
    let range = format!("{low:.3} to {high:.3} mm a year of diameter in open sea water{standing}");
    if rate > 2.0 * high {
        format!(
            "Over twice the published {range}: look for stray current, crevices, another metal near, or a poor alloy."
        )
    } else if rate > high {
        format!("Above the published {range}.")
    } else if rate < low {
        format!("Below the published {range}.")
    } else {
        format!("Within the published {range}.")
    }
}
