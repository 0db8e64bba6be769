//! The room's behaviour through its public interface.

mod timed_text;
