//! Marks from observations.

use crate::boat::Boat;
use crate::place::places_of;
use hull::sheets::{Mark, MarkKind};
use survey::payload::Observation;
use survey::{Reading, SoundAnswer, State};

/// Returns a mark for every observation that a sheet can show, and for every photograph of one.
pub(crate) fn marks(state: &State, boat: &Boat) -> Vec<Mark> {
    let mut all = Vec::new();
    for observation in state.observations() {
        let Some(kind) = kind(observation.payload) else { continue };
        let places = places_of(boat, &observation.payload.member, &observation.payload.place);
        // A stretch of frames is marked once, in its middle.
        let Some(place) = places.get(places.len() / 2) else { continue };
        let pictures = state.attachments_of(observation.id()).filter(|a| a.payload.media_type.starts_with("image/"));
        for picture in pictures {
            all.push(Mark::new(place.clone(), MarkKind::Photograph, "").of(picture.id().to_string()));
        }
        all.push(Mark::new(place.clone(), kind, "").of(observation.id().to_string()));
    }
    all
}

/// Returns how an observation is marked; none for what somebody says, which was not found at a place.
fn kind(observation: &Observation) -> Option<MarkKind> {
    let against = observation.reading.is_adverse();
    Some(match &observation.reading {
        Reading::Sound { answer: SoundAnswer::Rings, .. } => MarkKind::BlowRings,
        Reading::Sound { answer: SoundAnswer::DullOrHollow, .. } => MarkKind::BlowDull,
        Reading::Sound { answer: SoundAnswer::Chatters, .. } => MarkKind::BlowChatters,
        Reading::Sound { answer: SoundAnswer::CannotBeTold, .. } => MarkKind::Blow,
        Reading::Moisture { .. } => MarkKind::Moisture,
        Reading::Draw { .. } if against => MarkKind::DrawAgainst,
        Reading::Draw { .. } => MarkKind::Draw,
        Reading::Ask { .. } => return None,
        _ if against => MarkKind::ObservationAgainst,
        _ => MarkKind::Observation,
    })
}
