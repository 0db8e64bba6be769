//! Topics of the room `evidence`, one file each.

use crate::Topic;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[];
