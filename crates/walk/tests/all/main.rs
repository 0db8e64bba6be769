//! The room's behaviour through its public interface.

mod confusion;
mod corpus;
mod drafts;
mod mending;
mod passages;
mod sounds;
mod spoken;
mod tally;
mod timed_text;
