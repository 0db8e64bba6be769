//! Photographs on their way in: what the camera says, the position taken out, and the bytes otherwise as they came.

pub mod camera;
pub mod position;
