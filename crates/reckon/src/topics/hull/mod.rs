//! Topics of the room `hull`, one file each.

use crate::Topic;

mod expansion;
mod hydrostatics;
mod keel_line;
mod offsets;
mod planking;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[hydrostatics::TOPIC, expansion::TOPIC, keel_line::TOPIC, planking::TOPIC];
