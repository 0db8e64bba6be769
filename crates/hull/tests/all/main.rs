//! Tests of the room, one binary.

#![expect(clippy::unwrap_used, reason = "tests stop where something is not as set up")]

mod expansion;
mod figures;
mod forms;
mod hydrostatics;
mod joints;
mod keel_line;
mod measured;
mod offsets;
mod planking;
mod sheets;
mod spline;
