//! Words of the trade are explained.

use super::written::own_words;
use super::{Asked, Found, Rule, Weight};
use crate::{catalogue_member, lexicon};
use std::collections::BTreeSet;

pub(super) const RULES: &[Rule] = &[Rule {
    name: "trade-words-explained",
    asks: "Every word of the trade in the report can be explained by its glossary.",
    reason: "A client must be able to read what is wrong with the boat.",
    weight: Weight::Advises,
    check: unexplained,
}];

/// Shortened words that any reader knows.
const KNOWN: [&str; 16] =
    ["AC", "DC", "GPS", "VHF", "LPG", "EUR", "GBP", "USD", "UTC", "PDF", "UV", "UK", "US", "EU", "OK", "ID"];

fn unexplained(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    // Members of the surveyor's own that nothing explains.
    for own in asked.state.members_had().filter(|m| m.payload.has && catalogue_member(&m.payload.member).is_none()) {
        let name = asked.member(&own.payload.member);
        if own.payload.note.trim().is_empty() && lexicon::term(&name).is_none() {
            let words = format!("‘{name}’ is in no glossary; say in its note what it is.");
            out.push(Found::new(words).at(own.id()).of(&own.payload.member).field("note"));
        }
    }
    // Shortened words in capitals.
    let mut told: BTreeSet<String> = BTreeSet::new();
    for one in own_words(asked.state) {
        for word in one.words.split(|c: char| !c.is_alphanumeric()).filter(|w| (2..=5).contains(&w.len())) {
            let short = word.chars().all(|c| c.is_ascii_uppercase());
            // Numerals and readers' own names in brackets explain themselves.
            let numeral = word.chars().all(|c| "IVXL".contains(c));
            let explained = one.words.contains(&format!("({word})")) || one.words.contains(&format!("{word} ("));
            if short
                && !numeral
                && !explained
                && !KNOWN.contains(&word)
                && lexicon::term(word).is_none()
                && told.insert(word.to_owned())
            {
                let found = Found::new(format!("‘{word}’ is nowhere explained.")).at(one.entry).field(one.field);
                out.push(match one.member {
                    Some(member) => found.of(member),
                    None => found,
                });
            }
        }
    }
    out
}
