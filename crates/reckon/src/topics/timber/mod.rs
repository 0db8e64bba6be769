//! Topics of the room `timber`, one file each.

use crate::Topic;

mod boxed_heart;
mod drying;
mod emc;
mod grain_flags;
mod meter;
mod movement;
mod plank_flags;
mod seam;
mod species_flag;
mod strength;
mod stress_wave;
mod wood;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[
    emc::TOPIC,
    meter::TOPIC,
    movement::TOPIC,
    boxed_heart::TOPIC,
    drying::TOPIC,
    seam::TOPIC,
    strength::TOPIC,
    stress_wave::TOPIC,
    wood::TOPIC,
];
