//! `metal-pair`: two metals in sea water.

use super::wood_flags::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::galvanic::pairs;
use serde_json::{Value, json};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "metal-pair",
    title: "Two metals together in sea water",
    question: "Which of two metals corrodes for the other in sea water, and how far apart are they?",
    version: 1,
    flags: &[
        Flag::required("metal", "one metal, e.g. silicon bronze", FlagKind::Words),
        Flag::required("other-metal", "the other, e.g. mild steel", FlagKind::Words),
    ],
    figures: &[
        Figure { key: "least_mv", label: "apart at least, any source", unit: "mV", decimals: 0 },
        Figure { key: "greatest_mv", label: "apart at most, any source", unit: "mV", decimals: 0 },
        Figure { key: "readings", label: "each source", unit: "", decimals: 0 },
        Figure { key: "pairs", label: "figures", unit: "", decimals: 0 },
    ],
    equation: "difference of free potentials within one source; the more negative corrodes, from 200 mV apart",
    sources: &[
        "Professional BoatBuilder no. 100 (2006), galvanic series, as reprinted",
        "The Masthead, December 2010, about the galvanic series chart",
        "Galvanic series in flowing sea water, as reprinted",
    ],
    not_covered: &["How fast: that hangs on areas, paint, wetness and stray current, which the series does not know."],
    example: &[("metal", "silicon bronze"), ("other-metal", "mild steel")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let (one, other) = (inputs.need_words("metal")?, inputs.need_words("other-metal")?);
    fastening::galvanic::listed(other).map_err(super::wood_flags::refusal_as("other-metal"))?;
    let pairs = pairs(one, other).map_err(refusal)?;
    let least = pairs.iter().map(|p| p.difference_mv.0).fold(f64::INFINITY, f64::min);
    let greatest = pairs.iter().map(|p| p.difference_mv.1).fold(0.0, f64::max);
    let readings: Vec<String> = pairs.iter().map(|p| format!("{} ({})", p.reading, p.corrodes.source)).collect();
    let rows: Vec<Value> = pairs
        .iter()
        .map(|p| {
            json!({
                "corrodes": p.corrodes.metal, "protected": p.protected.metal,
                "least_mv": p.difference_mv.0, "greatest_mv": p.difference_mv.1, "source": p.corrodes.source,
            })
        })
        .collect();
    Ok(Answer::new()
        .with("least_mv", least)
        .with("greatest_mv", greatest)
        .with("readings", readings)
        .with("pairs", rows)
        .caution("Sources disagree by up to 150 mV for one metal: the source goes with the figure."))
}
