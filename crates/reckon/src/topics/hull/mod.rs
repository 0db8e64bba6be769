//! Topics of the room `hull`, one file each.

use crate::Topic;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[];
