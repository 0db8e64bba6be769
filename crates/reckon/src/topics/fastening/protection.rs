//! `protection`: a potential measured on a wooden hull, too little for the metal or too much for the wood.

use super::wood_flags::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::protection::{Protected, read};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "protection",
    title: "Cathodic protection on a wooden hull",
    question: "Is the metal protected, and is the wood round it over-protected?",
    version: 1,
    flags: &[
        Flag::required(
            "potential-mv",
            "potential against a silver chloride electrode",
            FlagKind::Number { unit: "mV", least: -1500.0, greatest: 300.0 },
        ),
        Flag::or("protects", "metal at the fitting", FlagKind::Choice(&["bronze", "stainless", "steel"]), "bronze"),
    ],
    figures: &[
        Figure { key: "over_by_mv", label: "beyond what the wood should bear", unit: "mV", decimals: 0 },
        Figure { key: "short_by_mv", label: "short of protecting the metal", unit: "mV", decimals: 0 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
    ],
    equation: "ranges against Ag/AgCl: wooden hull −550 to −600 mV; bronze at least −550, stainless −750, steel −800 mV",
    sources: &["Anode supplier's table that follows ABYC E-2 (the standard's own text was not read)"],
    not_covered: &["How fast wood is softened at a potential: not found in print."],
    example: &[("potential-mv", "-720"), ("protects", "bronze")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let metal = match inputs.need_words("protects")? {
        "steel" => Protected::Steel,
        "stainless" => Protected::Stainless,
        _ => Protected::Bronze,
    };
    let found = read(inputs.need_number("potential-mv")?, metal).map_err(refusal)?;
    Ok(Answer::new()
        .with("over_by_mv", found.over_by_mv)
        .with("short_by_mv", found.short_by_mv)
        .with("reading", found.sentences)
        .caution("Hunting stray current on shore power is for a marine electrician or corrosion technician."))
}
