//! Topics of the room `waters`, one file each.

use crate::Topic;

mod borers;
mod decay_climate;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[borers::TOPIC, decay_climate::TOPIC];
