//! The topics, one file a topic, grouped by the room that does the work.

use crate::Topic;

pub mod estimate;
pub mod evidence;
pub mod fastening;
pub mod hull;
pub mod sounding;
pub mod timber;
pub mod walk;
pub mod waters;

/// Every group of topics.
pub const ALL: &[&[Topic]] = &[
    timber::TOPICS,
    waters::TOPICS,
    fastening::TOPICS,
    hull::TOPICS,
    sounding::TOPICS,
    evidence::TOPICS,
    estimate::TOPICS,
    walk::TOPICS,
];
