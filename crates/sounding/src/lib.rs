//! Samples to blows, blows to features, features to a judgement against sound wood of the same boat.

mod blow;
mod db;
pub mod describe;
mod filter;
pub mod judge;
pub mod listen;
mod spectrum;

pub use blow::Blow;
pub use listen::Listener;

/// Samples per second of the engine.
pub const RATE_HZ: u32 = 48_000;
