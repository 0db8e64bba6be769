//! The table of reckoners, topic by topic, through its public interface.

mod table;
