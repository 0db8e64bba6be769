//! Samples to blows, blows to features, features to a judgement against sound wood of the same boat.

mod db;
pub mod describe;
mod filter;
pub mod listen;
mod spectrum;

pub use listen::Listener;

/// Samples per second of the engine.
pub const RATE_HZ: u32 = 48_000;

/// One blow.
#[derive(Clone, Debug, PartialEq)]
pub struct Blow {
    /// Time of first contact, in seconds from the beginning.
    pub time_s: f64,
    /// Probability that it is a hammer blow.
    pub probability: f64,
}
