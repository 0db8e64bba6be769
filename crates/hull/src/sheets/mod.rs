//! The boat as drawings: shell, transom, backbone, framing, deck, with what was found drawn on them.
//!
//! Conditions are told by hatching and a word, as drawings do, so that they print in black and white.

mod annotate;
mod condition;
mod labels;
mod page;
mod shell;

pub use condition::{Condition, Mark, MarkKind};
pub use page::Page;
pub use shell::{shell, shell_on, shell_pair};
