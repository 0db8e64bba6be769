//! What a boat may be worth: comparables, the cost approach, repair against value.

mod against_repair;
mod comparable;
mod cost;
mod opinion;

pub use against_repair::{AsFound, Floor, as_found, repair_ratio};
pub use comparable::{Adjusted, Adjustments, Comparable, Status, Step, read_comparables};
pub use cost::CostApproach;
pub use opinion::{FAIR_MARKET_VALUE, Opinion, opinion};
