//! The room held to closed forms, to other libraries, and to invented walks.

mod closed_forms;
mod field;
mod finding;
mod judging;
mod reference;
mod streaming;
