//! The record is whole, undisputed, and what went out before still says what it says now.

use super::written::cut;
use super::{Asked, Found, Rule, Weight};
use crate::changes_since;

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "disputed-records-settled",
        asks: "No entry stands in two versions.",
        reason: "The report can print only one of them, and nobody has said which.",
        weight: Weight::Blocks,
        check: disputed,
    },
    Rule {
        name: "record-readable",
        asks: "Every entry can be read here, and every amendment has its entry.",
        reason: "What cannot be read is not in the report.",
        weight: Weight::Blocks,
        check: readable,
    },
    Rule {
        name: "issued-version-current",
        asks: "The version that is out still says what the record says.",
        reason: "Whoever holds an older version acts on it until told.",
        weight: Weight::Advises,
        check: stale,
    },
];

fn disputed(asked: &Asked<'_>) -> Vec<Found> {
    let all = asked.state.disputed().filter(|record| !record.is_withdrawn());
    all.map(|record| {
        let kind = record.first().kind().replace('_', " ");
        let words = format!("Two versions of the {kind} {} stand against each other.", record.first().id.short());
        Found::new(words).at(record.first().id)
    })
    .collect()
}

fn readable(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for entry in asked.state.unread() {
        let words =
            format!("Entry {} of kind `{}` cannot be read by this version.", entry.id.short(), cut(entry.kind()));
        out.push(Found::new(words).at(entry.id));
    }
    for entry in asked.state.waiting() {
        out.push(Found::new(format!("Amendment {} amends an entry that is not here.", entry.id.short())).at(entry.id));
    }
    for id in asked.state.clashes() {
        out.push(Found::new(format!("Two entries of different content bear the name {}.", id.short())).at(id));
    }
    out
}

fn stale(asked: &Asked<'_>) -> Vec<Found> {
    let last = asked.state.reports_issued().max_by_key(|r| r.payload.version);
    let Some(last) = last else { return Vec::new() };
    let Some(then) = asked.state.as_issued(&last) else {
        let words = format!("What version {} was made from cannot be made out of this record.", last.payload.version);
        return vec![Found::new(words).at(last.id())];
    };
    let changes = changes_since(&then, asked.state);
    if changes.is_empty() {
        return Vec::new();
    }
    let told = if last.payload.addressees.is_empty() {
        String::new()
    } else {
        format!(" Tell {}.", last.payload.addressees.join(", "))
    };
    let words = format!(
        "Version {} of {} is out, and {} changed since of what it says.{told}",
        last.payload.version,
        last.payload.date,
        match changes.len() {
            1 => "one thing has".to_owned(),
            n => format!("{n} things have"),
        }
    );
    vec![Found::new(words).at(last.id())]
}
