//! The seal's behaviour through its public interface.

mod seals;
mod vectors;
