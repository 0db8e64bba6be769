//! Judging blows against blows on places of the same boat that the surveyor calls sound.

mod features;

pub use features::{COUNT, Features, NAMES, features};
