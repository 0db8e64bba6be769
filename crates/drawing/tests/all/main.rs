//! Tests of the room, one binary.

#![expect(clippy::unwrap_used, reason = "tests stop where something is not as set up")]

mod chart;
mod dxf;
mod money;
mod svg;
