//! Topics of the room `walk`, one file each.

use crate::Topic;

mod mend;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[mend::TOPIC];
