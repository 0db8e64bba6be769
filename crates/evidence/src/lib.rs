//! Weighing what was seen, heard and felt at one place of a boat, and choosing what to try next.
//!
//! For: the odds of each state of a plank or timber from a few readings, what each reading weighed, rival
//! explanations and what would tell them apart, the next test, and the patterns by which old repairs tell why they
//! were made. Not for: finding anything wrong by itself. Every likelihood is an elicited default with no measurements
//! behind it, kept in the files of `data/`, open to the caller's own figures; only a person concludes. No input or
//! output, no clock, no randomness.
//!
//! A place is three nodes that can hold trouble together: the plank (seven states), its fastening and the frame
//! behind it. Everything is reckoned by enumerating all 84 combinations, exactly.
//!
//! Read first: [`Question`], [`Book`], [`Weighing`].
//!
//! ```
//! use evidence::{Book, Observation, PlankState, Question};
//! let mut question = Question::default();
//! for (group, reading) in [("hammer", "dull_or_hollow"), ("knife", "firm"), ("movement", "moves_under_pry")] {
//!     question.observations.push(Observation::new(group, reading));
//! }
//! let weighing = Book::elicited()?.weigh(&question)?;
//! assert_eq!(weighing.leading, PlankState::Loose);
//! # Ok::<(), evidence::Fault>(())
//! ```

mod book;
mod differences;
mod fault;
mod neighbours;
mod network;
mod next_test;
mod observation;
mod prior;
pub mod puzzles;
mod rivals;
mod settings;
mod shares;
mod state;
mod strongest;
mod table;
pub mod unseen;
mod weigh;
mod wording;
pub mod worth;

pub use book::{Book, Override, Row};
pub use fault::Fault;
pub use next_test::{Leave, NextTest, Test};
pub use observation::{Neighbour, Observation, Question};
pub use prior::{Context, PriorFactor};
pub use rivals::{Rival, Separator};
pub use settings::Settings;
pub use shares::Weight;
pub use state::{FASTENING_STATES, FRAME_STATES, FasteningState, FrameState, PLANK_STATES, PlankState};
pub use strongest::{Contradiction, SetAside};
pub use weigh::{Conflict, Weighing};
pub use wording::{decibans, verbal};
