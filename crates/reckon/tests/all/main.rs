//! The table of reckoners, topic by topic, through its public interface.

mod fastening;
mod table;
mod timber;
mod waters;
