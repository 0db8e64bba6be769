//! Topics of the room `timber`, one file each.

use crate::Topic;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[];
