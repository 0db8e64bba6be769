//! The invented boat.
