//! Ballast bolts: what is left of them, what they carry by simple statics, and which to draw first.
//!
//! No wastage limit for keel bolts is published: it is the surveyor's to set, and nothing here has one built in.

pub mod order;
pub mod residual;
pub mod statics;
