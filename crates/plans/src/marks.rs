//! Conditions from findings, marks from observations.

use crate::{hull_place, layout};
use drawing::Hatch;
use hull::sheets::{Condition, Mark, MarkKind};
use survey::payload::Condition as Found;
use survey::{Method, State, finding_numbers};

/// Returns what the findings say of the shell: hatching by condition, and the finding's number beside it, which is the
/// one it has in the report.
pub fn conditions(state: &State) -> Vec<Condition> {
    let Some(layout) = layout(state) else { return Vec::new() };
    let mut all = Vec::new();
    for unseen in state.not_seen() {
        if let Some(place) = hull_place(&layout, &unseen.payload.member, &unseen.payload.place) {
            all.push(Condition::not_seen(place).word("not seen"));
        }
    }
    let numbers = finding_numbers(state);
    for view in state.findings() {
        let finding = view.payload;
        let number = numbers.get(&view.id()).map(u32::to_string).unwrap_or_default();
        let hatch = match finding.condition {
            Found::Sound => continue,
            Found::Watch => Hatch::Sparse,
            Found::WorkNeeded => Hatch::Close,
            Found::Failed => Hatch::Solid,
        };
        for place in &finding.places {
            if let Some(place) = hull_place(&layout, &finding.member, place) {
                all.push(Condition::seen(place, hatch).word(number.clone()));
            }
        }
    }
    all
}

/// Returns a mark for every observation on the shell, and for every photograph of one.
pub fn marks(state: &State) -> Vec<Mark> {
    let Some(layout) = layout(state) else { return Vec::new() };
    let mut all = Vec::new();
    for observation in state.observations() {
        let Some(place) = hull_place(&layout, &observation.payload.member, &observation.payload.place) else {
            continue;
        };
        let kind = match observation.payload.reading.method() {
            Method::Sound => MarkKind::Blow,
            Method::Moisture => MarkKind::Moisture,
            Method::Draw => MarkKind::Draw,
            // What somebody says was not found at a place.
            Method::Ask => continue,
            _ => MarkKind::Observation,
        };
        if state.attachments_of(observation.id()).any(|a| a.payload.media_type.starts_with("image/")) {
            all.push(Mark::new(place.clone(), MarkKind::Photograph, ""));
        }
        all.push(Mark::new(place, kind, ""));
    }
    all
}
