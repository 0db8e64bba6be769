//! hull
