//! The evidence for what bears on safety, fastenings drawn by a plan, questions of her history, and two surveys side by side.

use super::{Row, Table};
use serde::Serialize;

/// What speaks for and against a serious finding, and what was not done.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Evidence {
    /// The finding.
    pub finding: u32,
    /// Its heading.
    pub title: String,
    /// What it rests on, what speaks against it, what else was considered, how sure, what was not done: labelled lines.
    pub rows: Vec<Row>,
}

/// Fastenings drawn by a plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlannedDraw {
    /// The reckoning that is the plan, by number.
    pub reckoning: u32,
    /// How many were picked and drawn, and just what that supports.
    pub words: Vec<String>,
    /// Every pick and what was found.
    pub table: Table,
}

/// One explanation of something done to her long ago.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Explanation {
    /// What may have happened.
    pub words: String,
    /// Signs for it, against it, where to look, what it would mean: labelled lines.
    pub rows: Vec<Row>,
}

/// Something about her that asks why it was done.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Question {
    /// The reckoning it comes from, by number.
    pub reckoning: u32,
    /// What is seen, and on which member.
    pub seen: String,
    /// Rival explanations, unweighed.
    pub explanations: Vec<Explanation>,
    /// What the surveyor takes from it; may be empty.
    pub note: String,
}

/// The survey before and this one, side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ThenAndNow {
    /// Which two surveys, in sentences.
    pub words: Vec<String>,
    /// Recommendations carried over, members, what was measured twice.
    pub tables: Vec<Table>,
    /// What to bear in mind.
    pub notes: Vec<String>,
}
