//! A blow found in a recording.

use crate::describe::Description;
use serde::{Deserialize, Serialize};

/// One hammer blow.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Blow {
    /// First moment of contact, in seconds from the beginning of the sound.
    pub time_s: f64,
    /// Probability that it is a hammer blow and not another sudden sound.
    pub probability: f64,
    /// What it sounds like.
    pub description: Description,
    /// Whether talk or another loud sound lies under it: heard, but no witness to how sound wood rings.
    pub overlapped: bool,
    /// Whether a second contact follows within 150 ms: the hammer bounced, or two blows fell together.
    pub double: bool,
}

impl Blow {
    /// Tells whether the blow can be compared in full: not clipped, nothing under it, 10 dB above the noise.
    pub fn is_clean(&self) -> bool {
        !self.description.clipped && !self.overlapped && !self.double && self.description.snr_db >= 10.0
    }
}
