//! What the workbench makes of words and sounds before anybody looks at it: proposals from a talk-through, verdicts on
//! blows, and the file a recording is kept in.
//!
//! Needs no browser, so that it is tested natively. The rooms `walk` and `sounding` do the work; here it is only put in
//! the shape in which a person says yes or no to it.

pub mod proposals;
pub mod traces;
pub mod verdict;
pub mod wave;
