//! Topics of the room `fastening`, one file each.

use crate::Topic;

mod bolt;
mod bung;
mod draw_plan;
mod draw_result;
mod lateral;
mod lists;
mod metal_pair;
mod protection;
mod pull_through;
mod spring;
mod spring_answer;
mod spring_curve;
mod wastage;
mod withdrawal;
mod wood_flags;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[
    withdrawal::TOPIC,
    pull_through::TOPIC,
    lateral::TOPIC,
    bung::TOPIC,
    spring::TOPIC,
    bolt::TOPIC,
    wastage::TOPIC,
    metal_pair::TOPIC,
    protection::TOPIC,
    draw_plan::TOPIC,
    draw_result::TOPIC,
];
