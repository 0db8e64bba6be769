//! `decay-climate`: how hard the climate is on wood exposed above the water.

use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::months;
use waters::Fault;
use waters::decay_climate::{SOURCE, Water, Weather, cautions, index, monthly_parts, zone};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "decay-climate",
    title: "Decay by climate",
    question: "How fast does this climate rot wood that the weather gets at, and which water does it?",
    version: 1,
    flags: &[
        Flag::required("monthly", "monthly means: CSV with month, temp_c, rain_days", FlagKind::TextFile),
        Flag::or("wetted-by", "water that wets the part looked at", FlagKind::Choice(&Water::WORDS), "rain"),
    ],
    figures: &[
        Figure { key: "index", label: "index", unit: "", decimals: 1 },
        Figure { key: "index_to_show", label: "to the nearest 5", unit: "", decimals: 0 },
        Figure { key: "zone", label: "hazard for exposed wood", unit: "", decimals: 0 },
        Figure { key: "monthly_parts", label: "what each month adds, January first", unit: "", decimals: 1 },
        Figure { key: "water", label: "the water that wets it", unit: "", decimals: 0 },
    ],
    equation: "Σ (T − 2)(D − 3)/16.7 over twelve months, neither bracket below 0",
    sources: &[SOURCE],
    not_covered: &["Leaks, bilges, covers, condensation, paint; wood under water."],
    example: &[(
        "monthly",
        "month,temp_c,rain_days\n1,-2,12\n2,-1,10\n3,3,11\n4,9,11\n5,14,12\n6,19,11\n7,22,10\n8,21,9\n9,17,9\n10,11,10\n11,5,11\n12,0,12\n",
    )],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let weather = Weather::from_csv(inputs.need_words("monthly")?).map_err(refusal)?;
    let found = index(&weather);
    let parts = monthly_parts(&weather);
    let water = inputs.words("wetted-by").and_then(Water::from_word).unwrap_or(Water::Rain);
    let mut answer = Answer::new()
        .with("index", found)
        .with("index_to_show", (found / 5.0).round() * 5.0)
        .with("zone", zone(found).words())
        .with("monthly_parts", parts.to_vec())
        .with("water", water.sentences().join(" "));
    for caution in cautions() {
        answer = answer.caution(caution);
    }
    let most = parts.iter().copied().fold(0.0, f64::max);
    let shares = parts.map(|part| if most > 0.0 { part / most } else { 0.0 });
    Ok(answer.sheet(months(
        "Decay by month",
        "What each month adds to the climate's decay index, the worst month filling its cell.",
        &[("exposed wood".to_owned(), shares)],
    )))
}

fn refusal(fault: Fault) -> Refusal {
    match fault {
        Fault::Table { line, why, accepted } => {
            Refusal::value("monthly", format!("line {line}"), why, format!("a CSV file {accepted}"))
        }
        other => Refusal::Meaningless(other.to_string()),
    }
}
