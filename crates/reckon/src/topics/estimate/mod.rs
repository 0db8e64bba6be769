//! Topics of the room `estimate`, one file each.

use crate::Topic;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[];
