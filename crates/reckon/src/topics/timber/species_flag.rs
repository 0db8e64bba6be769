//! The flag `species`, and the room's faults as refusals.

use crate::{Answer, Flag, FlagKind, Inputs, Refusal};
use timber::Fault;
use timber::species::{Species, UnknownSpecies, find, loose_name_caution};

/// The flag.
pub(super) const SPECIES: Flag = Flag::required("species", "wood, by any name of the trade", FlagKind::Words);

/// Returns the wood named.
pub(super) fn species(inputs: &Inputs) -> Result<&'static Species, Refusal> {
    find(inputs.need_words("species")?).map_err(unknown)
}

/// Says, where a loose name was given, which wood it was taken for.
pub(super) fn with_name_caution(answer: Answer, inputs: &Inputs) -> Answer {
    match inputs.words("species").and_then(loose_name_caution) {
        Some(caution) => answer.caution(caution),
        None => answer,
    }
}

/// Returns the refusal of a fault, naming the flag.
pub(super) fn refusal(fault: Fault) -> Refusal {
    match fault {
        Fault::Value { field, value, why, accepted } => Refusal::value(&field.replace('_', "-"), value, why, accepted),
        Fault::Unknown(unknown_species) => unknown(unknown_species),
        Fault::Table { line, why, accepted } => {
            Refusal::value("weather", format!("line {line}"), why, format!("a CSV file {accepted}"))
        }
        other => Refusal::Meaningless(other.to_string()),
    }
}

fn unknown(unknown: UnknownSpecies) -> Refusal {
    let why = "this is not a wood in the table";
    Refusal::value(
        "species",
        unknown.name,
        why,
        format!("a wood of the table, the nearest being {}", unknown.nearest.join(", ")),
    )
}
