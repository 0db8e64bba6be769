//! timber
