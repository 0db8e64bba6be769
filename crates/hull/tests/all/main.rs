//! Tests of the room, one binary.

mod expansion;
mod forms;
mod hydrostatics;
