//! What is known of her before a reading is weighed, and likelihoods of the surveyor's own.

use super::empty;
use serde::{Deserialize, Serialize};

/// What shifts the start of every weighing, and what the surveyor holds likely otherwise than the table does.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Beforehand {
    /// Heartwood of her planking: `durable`, `moderately_durable` or `not_durable`; by its species when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub timber: Option<String>,
    /// The water she has lain in: `salt`, `brackish` or `fresh`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub water: Option<String>,
    /// How she is aired: `good`, `fair` or `poor`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ventilation: Option<String>,
    /// Leaks of the deck: `none`, `some` or `many`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deck_leaks_above: Option<String>,
    /// How she was kept up: `good`, `fair` or `poor`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub upkeep: Option<String>,
    /// Repairs known of: `none_known` or `elsewhere`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub known_repairs: Option<String>,
    /// Metal of her plank fastenings: `iron`, `galvanised_iron`, `bronze`, `copper` or `wood`; by her particulars when left
    /// out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fastening_metal: Option<String>,
    /// Likelihoods that take the place of the table's.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub likelihoods: Vec<OwnLikelihood>,
}

/// A likelihood of the surveyor's own.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct OwnLikelihood {
    /// The reading, as the table of likelihoods has it, its group before it: `hammer/dull_or_hollow`.
    pub reading: String,
    /// The state of the plank, or of the frame for readings of the frame.
    pub state: String,
    /// How likely the reading is in that state, in per cent.
    pub percent: f64,
    /// From what it is known.
    pub source: String,
}

impl Beforehand {
    pub(super) fn impossible(&self) -> Option<String> {
        let one_of = |field: &str, given: &Option<String>, accepted: &[&str]| {
            let given = given.as_deref()?;
            (!accepted.contains(&given)).then(|| format!("`{field}` is {given:?}; accepted is {}", accepted.join(", ")))
        };
        const GRADES: &[&str] = &["good", "fair", "poor"];
        one_of("timber", &self.timber, &["durable", "moderately_durable", "not_durable"])
            .or_else(|| one_of("water", &self.water, &["salt", "brackish", "fresh"]))
            .or_else(|| one_of("ventilation", &self.ventilation, GRADES))
            .or_else(|| one_of("deck_leaks_above", &self.deck_leaks_above, &["none", "some", "many"]))
            .or_else(|| one_of("upkeep", &self.upkeep, GRADES))
            .or_else(|| one_of("known_repairs", &self.known_repairs, &["none_known", "elsewhere"]))
            .or_else(|| {
                one_of(
                    "fastening_metal",
                    &self.fastening_metal,
                    &["iron", "galvanised_iron", "bronze", "copper", "wood"],
                )
            })
            .or_else(|| self.likelihoods.iter().find_map(OwnLikelihood::impossible))
    }
}

impl OwnLikelihood {
    fn impossible(&self) -> Option<String> {
        if !(0.01..=99.99).contains(&self.percent) {
            return Some(format!(
                "the likelihood of {} is {} %; accepted is 0.01 to 99.99, for nothing is certain",
                self.reading, self.percent
            ));
        }
        empty("reading", &self.reading)
            .or_else(|| empty("state", &self.state))
            .or_else(|| empty("source", &self.source))
    }
}
