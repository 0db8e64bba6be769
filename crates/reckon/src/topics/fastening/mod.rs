//! Topics of the room `fastening`, one file each.

use crate::Topic;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[];
