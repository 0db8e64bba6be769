//! Puzzles of history: why was this done? Patterns by which an old repair tells why it was made.
//!
//! All of it is data (`data/puzzles.csv`): each pattern has rival explanations, signs for and against each, the reckoner
//! that bears on it, and what to look at next. Trade common practice is marked as such; nothing here is weighed in
//! figures.

use crate::{Fault, table};
use serde::{Deserialize, Serialize};

/// One explanation of one pattern.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Explanation {
    /// Name of the pattern, e.g. `larger_bungs`.
    pub pattern: String,
    /// What is seen, in words.
    pub seen: String,
    /// What may have happened.
    pub explanation: String,
    /// Signs for it, separated by semicolons.
    pub signs_for: String,
    /// Signs against it, separated by semicolons.
    pub signs_against: String,
    /// Name of the reckoner that bears on it; empty when none does.
    pub reckoner: String,
    /// What to look at next.
    pub look_next: String,
    /// What it means for today if it is so.
    pub if_so: String,
    /// Source, or `common practice`.
    pub source: String,
}

/// Returns every explanation, pattern by pattern.
///
/// # Errors
/// The data file cannot be read.
pub fn all() -> Result<Vec<Explanation>, Fault> {
    table::rows("puzzles.csv", include_str!("../data/puzzles.csv"))
}

/// Returns the explanations of one pattern, or of every pattern whose description holds the word.
///
/// # Errors
/// The data file cannot be read.
pub fn about(word: &str) -> Result<Vec<Explanation>, Fault> {
    let word = word.trim().to_lowercase().replace([' ', '-'], "_");
    let plain = word.replace('_', " ");
    let holds = |e: &Explanation| e.pattern == word || e.seen.to_lowercase().contains(&plain);
    let all = all()?;
    let exact: Vec<_> = all.iter().filter(|e| e.pattern == word).cloned().collect();
    Ok(if exact.is_empty() { all.into_iter().filter(holds).collect() } else { exact })
}
