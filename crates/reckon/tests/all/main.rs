//! The table of reckoners, topic by topic, through its public interface.

mod estimate;
mod evidence;
mod fastening;
mod hull;
mod sounding;
mod table;
mod timber;
mod walk;
mod waters;
