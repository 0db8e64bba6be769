//! What a sheet says in words because it cannot draw it.

use crate::boat::Boat;
use crate::place::{Part, part_of, places_of, sides_of};
use hull::Side;
use survey::{State, catalogue_member, finding_numbers};

/// A finding, or something not seen, that has a part of the boat but no place on its sheet.
struct Unplaced {
    part: Option<Part>,
    sides: Vec<Side>,
    words: String,
    seen: bool,
}

/// All that could not be placed on the sheets of one survey.
pub(crate) struct Notes {
    unplaced: Vec<Unplaced>,
}

impl Notes {
    /// Gathers the findings and what was not seen that no sheet can show, or only in part.
    pub(crate) fn of(state: &State, boat: &Boat) -> Notes {
        let numbers = finding_numbers(state);
        let language = survey::language_of(state);
        let mut unplaced = Vec::new();
        let mut note = |member: &str, place: &survey::Place, number: Option<&u32>, title: &str| {
            if !places_of(boat, member, place).is_empty() {
                return;
            }
            let name =
                catalogue_member(member).map_or_else(|| member.replace('-', " "), |m| m.called(language).to_owned());
            let at = place.to_string();
            let at = if at.is_empty() { name } else { format!("{name}, {at}") };
            let words = match number {
                Some(number) => format!("{number} {title} ({at})"),
                None => at,
            };
            let all = place.side.is_none() || place.side == Some(survey::Side::Centreline);
            let sides = if all { vec![Side::Port, Side::Starboard] } else { sides_of(place) };
            unplaced.push(Unplaced { part: part_of(member), sides, words, seen: number.is_some() });
        };
        let mut findings: Vec<_> = state.findings().collect();
        findings.sort_by_key(|view| numbers.get(&view.id()).copied());
        for view in &findings {
            let finding = view.payload;
            let number = numbers.get(&view.id());
            if finding.places.is_empty() {
                note(&finding.member, &survey::Place::default(), number, &finding.title);
            }
            for place in &finding.places {
                note(&finding.member, place, number, &finding.title);
            }
        }
        for unseen in state.not_seen() {
            note(&unseen.payload.member, &unseen.payload.place, None, "");
        }
        Notes { unplaced }
    }

    /// Returns the notes for the sheet of one part, and, on the shell, of the sides it shows.
    pub(crate) fn for_sheet(&self, part: Part, sides: &[Side]) -> Vec<String> {
        let here = |u: &&Unplaced| {
            u.part == Some(part) && (part != Part::Shell || u.sides.iter().any(|side| sides.contains(side)))
        };
        let mut notes = Vec::new();
        let findings = joined(self.unplaced.iter().filter(here).filter(|u| u.seen));
        if !findings.is_empty() {
            notes.push(format!("Findings without a place that can be drawn here: {findings}."));
        }
        let unseen = joined(self.unplaced.iter().filter(here).filter(|u| !u.seen));
        if !unseen.is_empty() {
            notes.push(format!("Not seen, without a place that can be drawn here: {unseen}."));
        }
        notes
    }

    /// Returns the note on findings about members that no sheet shows; none when every finding has its sheet.
    pub(crate) fn on_no_sheet(&self, offered: &[Part]) -> Option<String> {
        let lost = self.unplaced.iter().filter(|u| u.seen && u.part.is_none_or(|part| !offered.contains(&part)));
        let findings = joined(lost);
        (!findings.is_empty()).then(|| format!("Findings that no drawing shows: {findings}."))
    }
}

fn joined<'a>(unplaced: impl Iterator<Item = &'a Unplaced>) -> String {
    let mut words: Vec<&str> = Vec::new();
    for one in unplaced {
        if !words.contains(&one.words.as_str()) {
            words.push(&one.words);
        }
    }
    words.join("; ")
}
