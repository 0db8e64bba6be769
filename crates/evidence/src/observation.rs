//! What is asked: the readings of one place and what is known of it.

use crate::{Context, Leave, Override};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One reading of a place.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Observation {
    /// Group of the reading: `hammer`, `knife`, `movement`, `fastening`, `moisture`, `bore`, `visual`, `open`, `frame`.
    pub group: String,
    /// The reading, e.g. `dull_or_hollow`; with `not_` before it, its complement.
    pub reading: String,
    /// Whether somebody said so rather than the surveyor finding it.
    #[serde(default)]
    pub hearsay: bool,
    /// Whether the one who took the reading doubts it.
    #[serde(default)]
    pub doubtful: bool,
}

impl Observation {
    /// Returns a first-hand reading without doubt.
    pub fn new(group: &str, reading: &str) -> Self {
        Self { group: group.to_owned(), reading: reading.to_owned(), hearsay: false, doubtful: false }
    }
}

/// A place beside this one, with its own readings.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Neighbour {
    /// What the place is called, e.g. `strake 4 at frame 13`.
    pub place: String,
    /// Its readings.
    pub observations: Vec<Observation>,
}

/// What is asked of the weighing, as it stands in JSON.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Shares of the plank's seven states before anything was seen; states left out have none. Absent: the elicited start.
    #[serde(default)]
    pub prior: Option<BTreeMap<String, f64>>,
    /// What is known of the boat and place, which shifts the prior.
    #[serde(default)]
    pub context: Option<Context>,
    /// Readings of the place.
    #[serde(default)]
    pub observations: Vec<Observation>,
    /// Whether to weigh by the plank's own table alone, leaving fastening and frame out.
    #[serde(default)]
    pub plank_only: bool,
    /// The caller's own likelihoods in place of the elicited ones.
    #[serde(default)]
    pub overrides: Vec<Override>,
    /// What the owner has allowed. Absent: not said; every test is ranked, with the leave it needs.
    #[serde(default)]
    pub may_open: Option<Leave>,
    /// Places beside this one.
    #[serde(default)]
    pub neighbours: Vec<Neighbour>,
}
