//! The few settings of the weighing.

use crate::{Fault, table};
use serde::Deserialize;

/// The settings of the weighing, from `data/weighing.csv`; all our own conventions.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Share of its decibans at which what somebody says counts.
    pub hearsay_share: f64,
    /// Share of its decibans at which a reading its taker doubts counts.
    pub doubtful_share: f64,
    /// Share of its decibans at which a neighbouring place's readings count here.
    pub neighbour_share: f64,
    /// Furthest that all neighbours together set two states apart, in decibans.
    pub neighbour_most_db: f64,
    /// Lead of the first state over the second below which the answer says close, in decibans.
    pub close_db: f64,
    /// How much more rarely than if unconnected readings must come together to be named as at odds, in decibans.
    pub conflict_db: f64,
    /// Likelihood in every allowed state below which a reading is named impossible.
    pub impossible_below: f64,
}

#[derive(Deserialize)]
struct Setting {
    name: String,
    value: f64,
}

impl Settings {
    pub(crate) fn read() -> Result<Self, Fault> {
        const FILE: &str = "weighing.csv";
        let settings: Vec<Setting> = table::rows(FILE, include_str!("../data/weighing.csv"))?;
        let find = |name: &str| {
            let setting = settings.iter().find(|setting| setting.name == name);
            setting.map(|s| s.value).ok_or_else(|| Fault::Data { file: FILE, why: format!("{name} is missing") })
        };
        Ok(Self {
            hearsay_share: find("hearsay_share")?,
            doubtful_share: find("doubtful_share")?,
            neighbour_share: find("neighbour_share")?,
            neighbour_most_db: find("neighbour_most_db")?,
            close_db: find("close_db")?,
            conflict_db: find("conflict_db")?,
            impossible_below: find("impossible_below")?,
        })
    }
}
