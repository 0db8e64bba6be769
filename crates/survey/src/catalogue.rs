//! The catalogue of members, and the members of one boat.

use crate::State;
use crate::payload::Construction;
use crate::reading::words;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fmt;
use std::sync::OnceLock;

words!(
    /// What it may come to when a member fails.
    Consequence {
        /// Looks only.
        Cosmetic => "cosmetic",
        /// She leaks.
        Leak => "leak",
        /// She is weakened.
        Structural => "structural",
        /// She may be lost.
        LossOfVessel => "loss of vessel",
    }
);

/// A member as the trade knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct CatalogueMember {
    /// Its name in the record: `sheer-strake`.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// Other names, British and American.
    pub other_names: String,
    /// The group it belongs to: backbone, shell, framing, …
    pub group: String,
    /// Whether there is one on each side.
    pub each_side: bool,
    /// The kinds of hull that have it; empty for all.
    pub constructions: Vec<Construction>,
    /// By what it is placed.
    pub located_by: String,
    /// What it joins.
    pub joins: String,
    /// Usual timbers and metals.
    pub usual_materials: String,
    /// How it usually fails.
    pub usual_failures: String,
    /// What shows it.
    pub signs: String,
    /// How it is usually tried.
    pub usual_tests: String,
    /// From where it is reached.
    pub usual_access: String,
    /// Whether part of it commonly cannot be reached.
    pub commonly_inaccessible: bool,
    /// Why not.
    pub why_inaccessible: String,
    /// What it may come to when it fails.
    pub consequence: Option<Consequence>,
    /// Source of the above, or `common practice`.
    pub source: String,
}

const CSV: &str = include_str!("../data/members.csv");

/// Returns the catalogue, in the order of a walk round the boat by group.
pub fn catalogue() -> &'static [CatalogueMember] {
    static ALL: OnceLock<Vec<CatalogueMember>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut reader = csv::ReaderBuilder::new().from_reader(CSV.as_bytes());
        reader.records().filter_map(Result::ok).filter_map(|row| member(&row)).collect()
    })
}

/// Returns a member of the catalogue by its name in the record.
pub fn catalogue_member(id: &str) -> Option<&'static CatalogueMember> {
    catalogue().iter().find(|member| member.id == id)
}

fn member(row: &csv::StringRecord) -> Option<CatalogueMember> {
    let cell = |i: usize| row.get(i).map(|text| text.trim().to_owned());
    let constructions = cell(5)?
        .split(';')
        .filter_map(|word| Construction::ALL.iter().find(|c| c.to_string() == word.trim()).copied())
        .collect();
    let consequence = Consequence::ALL.iter().find(|c| Some(c.to_string()) == cell(15)).copied();
    Some(CatalogueMember {
        id: cell(0)?,
        name: cell(1)?,
        other_names: cell(2)?,
        group: cell(3)?,
        each_side: cell(4)? == "y",
        constructions,
        located_by: cell(6)?,
        joins: cell(7)?,
        usual_materials: cell(8)?,
        usual_failures: cell(9)?,
        signs: cell(10)?,
        usual_tests: cell(11)?,
        usual_access: cell(12)?,
        commonly_inaccessible: cell(13)? == "y",
        why_inaccessible: cell(14)?,
        consequence,
        source: cell(16)?,
    })
}

/// A member of one boat.
#[derive(Clone, Debug, PartialEq)]
pub struct BoatMember {
    /// Its name in the record.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The group it belongs to.
    pub group: String,
    /// Whether there is one on each side.
    pub each_side: bool,
    /// How many she has, where counted.
    pub count: Option<u32>,
    /// Whether part of it commonly cannot be reached, and why.
    pub why_inaccessible: Option<String>,
    /// What it may come to when it fails.
    pub consequence: Option<Consequence>,
    /// Whether the surveyor added it.
    pub added: bool,
}

/// Returns the members that this boat has: those of the catalogue for her construction, less those struck off,
/// and those the surveyor added, with her own counts. With no construction known, the whole catalogue.
pub fn members_of(state: &State) -> Vec<BoatMember> {
    let vessel = state.vessel();
    let vessel = vessel.as_ref().map(|view| view.payload);
    let construction = vessel.and_then(|v| v.construction);
    let language = crate::language_of(state);
    let had: Vec<_> = state.members_had().map(|view| view.payload).collect();
    let lacking: BTreeSet<&str> = had.iter().filter(|m| !m.has).map(|m| m.member.as_str()).collect();
    let count = |id: &str| {
        let own = had.iter().rev().find(|m| m.member == id).and_then(|m| m.count);
        own.or_else(|| vessel.and_then(|v| v.counts.get(id).copied()))
    };
    let wanted: BTreeSet<&str> = had.iter().filter(|m| m.has).map(|m| m.member.as_str()).collect();
    let mut members: Vec<BoatMember> = catalogue()
        .iter()
        .filter(|m| {
            let of_her_kind = construction.is_none_or(|c| m.constructions.is_empty() || m.constructions.contains(&c));
            wanted.contains(m.id.as_str()) || (of_her_kind && !lacking.contains(m.id.as_str()))
        })
        .map(|m| BoatMember {
            id: m.id.clone(),
            name: m.called(language).to_owned(),
            group: m.group.clone(),
            each_side: m.each_side,
            count: count(&m.id),
            why_inaccessible: m.commonly_inaccessible.then(|| m.why_inaccessible.clone()),
            consequence: m.consequence,
            added: false,
        })
        .collect();
    for own in had.iter().filter(|m| m.has && catalogue_member(&m.member).is_none()) {
        members.push(BoatMember {
            id: own.member.clone(),
            name: own.name.clone().unwrap_or_else(|| own.member.replace('-', " ")),
            group: own.group.clone().unwrap_or_else(|| "added by the surveyor".to_owned()),
            each_side: own.each_side,
            count: own.count,
            why_inaccessible: None,
            consequence: None,
            added: true,
        });
    }
    members
}
