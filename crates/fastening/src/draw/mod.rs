//! Drawing fastenings: how many, which, when to stop, and what a draw says.

pub mod allocate;
pub mod hypergeometric;
pub mod interval;
pub mod patch;
pub mod pick;
pub mod posterior;
pub mod result;
pub mod sample;
pub mod sequential;
pub mod zone;
