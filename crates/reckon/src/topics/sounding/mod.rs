//! Topics of the room `sounding`, one file each.

use crate::Topic;

mod blows;
mod ranges;
mod read;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[blows::TOPIC];
