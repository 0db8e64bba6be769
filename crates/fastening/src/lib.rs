//! Fastenings of planked hulls: what they hold, what a sprung plank asks of them, what is left of a wasted
//! one, how many to draw and what a draw says.
//!
//! For: screws, nails, rivets, lag screws, bolts, drifts and trenails as typed things ([`kinds`]); holding
//! power ([`withdrawal`], [`pull_through`], [`lateral`], [`wasted`]); metals in sea water ([`metal`],
//! [`corrosion`], [`galvanic`], [`protection`], [`wastage`]); planks bent on ([`plank`]); ballast bolts
//! ([`keel`]); drawing fastenings ([`draw`]).
//! Not for: passing a boat as safe. Handbook values are for seasoned wood and for buildings; what is left to
//! the surveyor, to the flag state's inspector and to a naval architect is said with each answer.
//!
//! Read first: [`kinds::Fastening`], [`plank::sprung`], [`draw::result`].
//!
//! ```
//! use fastening::draw::sample;
//! // 400 fastenings; to be 95 % sure that no more than one in ten is bad, with none bad found:
//! assert_eq!(sample::size(400, 0.95, 0.10, 0)?, 27);
//! # Ok::<(), fastening::Fault>(())
//! ```

pub mod corrosion;
pub mod draw;
pub mod eurocode;
mod fault;
pub mod galvanic;
pub mod gravity;
pub mod keel;
pub mod kinds;
pub mod lateral;
pub mod metal;
pub mod plank;
pub mod planking_table;
pub mod protection;
pub mod pull_through;
pub mod random;
pub mod service;
pub mod special;
mod table_text;
mod unit;
pub mod wastage;
pub mod wasted;
pub mod withdrawal;

pub use fault::Fault;
pub use timber::{Known, Mark};
