//! The boat as drawings: shell, transom, backbone, framing, deck, with what was found drawn on them.
//!
//! Conditions are told by hatching and a word, as drawings do, so that they print in black and white.

mod annotate;
mod backbone;
mod condition;
mod deck;
mod field;
mod fitted;
mod framing;
mod labels;
mod outline;
mod page;
mod parts;
mod shell;
mod transom;

pub use backbone::{BackboneParts, backbone};
pub use condition::{Condition, Mark, MarkKind};
pub use deck::{Opening, deck};
pub use field::{Estimate, FieldEstimate, Quantity, Reading, field};
pub use framing::framing;
pub use outline::Outline;
pub use page::{Page, Paper};
pub use shell::{OnShell, ShellLay, ShellSheet, shell, shell_drawn, shell_on, shell_pair};
pub use transom::transom;
