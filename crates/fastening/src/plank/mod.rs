//! Planks bent on to frames: what the bend asks of wood and fastenings, and what a bung says of it.

pub mod beam;
pub mod bend;
pub mod curve;
pub mod explain;
pub mod relax;
pub mod sprung;
