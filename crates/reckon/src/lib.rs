//! The table of reckoners: every computation the workbench makes, declared once.
//!
//! For: the command line, the HTTP API and the app, which all read [`table()`] and know nothing else of any
//! computation. Not for: the computations themselves, which live in the ground rooms (`timber`, `fastening`, …).
//! A topic is declared in one file under `topics/`: its flags, what it answers, its sources and one function.
//!
//! Read first: [`Topic`], [`Inputs`], [`Answer`].
//!
//! ```
//! let topic = reckon::find("emc").expect("emc is a topic");
//! let inputs = reckon::Inputs::read(topic, [("temp-c", "20"), ("rh-percent", "65")]).expect("good input");
//! let reckoned = topic.reckon(inputs).expect("within the equation's range");
//! assert!(reckoned.answer.results["emc_percent"].as_f64().expect("a number") > 11.0);
//! ```

mod answer;
mod inputs;
mod topic;
pub mod topics;

pub use answer::{Answer, Reckoned};
pub use inputs::{Inputs, Refusal};
pub use topic::{Figure, Flag, FlagKind, Topic};

/// Returns all topics, by name.
pub fn table() -> Vec<&'static Topic> {
    let mut all: Vec<&'static Topic> = topics::ALL.iter().flat_map(|group| group.iter()).collect();
    all.sort_by_key(|topic| topic.name);
    all
}

/// Returns the topic of that name.
pub fn find(name: &str) -> Option<&'static Topic> {
    table().into_iter().find(|topic| topic.name == name)
}

/// Returns the table as JSON: topics with their flags, units and sources (`ribband reckon --list --json`).
pub fn list() -> serde_json::Value {
    serde_json::Value::Array(table().into_iter().map(Topic::describe).collect())
}
