//! Stepping along the boat: the same again, one frame further.

use survey::payload::Observation;

/// Returns the same observation one frame further aft, when it was placed at frames.
pub fn next_frame(mut observation: Observation) -> Option<Observation> {
    let from = observation.place.frame_from?;
    let span = observation.place.frame_to.map_or(0, |to| to.saturating_sub(from));
    observation.place.frame_from = Some(from + span + 1);
    observation.place.frame_to = observation.place.frame_to.map(|_| from + 2 * span + 1);
    Some(observation)
}
