//! waters
