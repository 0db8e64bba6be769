//! Topics of the room `evidence`, one file each.

use crate::Topic;

mod balance;
mod history;
mod weighing;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[weighing::TOPIC, history::TOPIC];
