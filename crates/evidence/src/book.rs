//! The book of likelihoods: the data files, read once, with the caller's own figures put in.

use crate::network::Network;
use crate::prior::{self, PriorRow};
use crate::strongest::{self, Exclusion};
use crate::{FRAME_STATES, Fault, FrameState, PLANK_STATES, PlankState, Settings, Test, next_test, table};
use serde::{Deserialize, Serialize};
use std::sync::OnceLock;

/// One row of `data/likelihoods.csv`: how likely a reading is in one state.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Row {
    /// Group of the reading.
    pub group: String,
    /// The reading.
    pub observation: String,
    /// `plank` or `frame`: which part the reading speaks of.
    pub node: String,
    /// State of that part.
    pub hypothesis: String,
    /// How likely the reading is in that state.
    pub p_observation_given_hypothesis: f64,
    /// The verbal probability chosen.
    pub verbal: String,
    /// What kind of figure it is.
    pub status: String,
    /// Source of the direction, or `common practice`.
    pub direction_source: String,
}

/// The caller's own likelihood in place of an elicited one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Override {
    /// Group of the reading.
    pub group: String,
    /// The reading, without `not_`.
    pub reading: String,
    /// State of the plank (or of the frame, for readings of the frame).
    pub hypothesis: String,
    /// How likely the reading is in that state, 0.0001 to 0.9999.
    pub p: f64,
    /// Who says so, and from what.
    #[serde(default)]
    pub source: String,
}

/// A reading the book knows, with its likelihoods.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Reading {
    pub group: String,
    pub name: String,
    pub likelihood: Likelihood,
}

/// How likely a reading is in each state of the part it speaks of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Likelihood {
    Plank([f64; 7]),
    Frame([f64; 4]),
}

/// The likelihoods, tests and settings that a weighing rests on.
#[derive(Clone, Debug)]
pub struct Book {
    pub(crate) readings: Vec<Reading>,
    pub(crate) network: Network,
    pub(crate) tests: Vec<Test>,
    pub(crate) settings: Settings,
    pub(crate) prior_rows: Vec<PriorRow>,
    pub(crate) exclusions: Vec<Exclusion>,
    rows: Vec<Row>,
}

impl Book {
    /// Returns the book of elicited defaults.
    pub fn elicited() -> Result<&'static Book, Fault> {
        // Parsed and fitted once: a phone weighs every place of a boat on one reading of the files.
        static BOOK: OnceLock<Result<Book, Fault>> = OnceLock::new();
        BOOK.get_or_init(|| {
            let rows = table::rows("likelihoods.csv", include_str!("../data/likelihoods.csv"))?;
            Book::from_rows(rows)
        })
        .as_ref()
        .map_err(Clone::clone)
    }

    /// Returns a book from rows of likelihoods; network, tests and settings as in the data files.
    pub fn from_rows(rows: Vec<Row>) -> Result<Book, Fault> {
        let readings = gather(&rows)?;
        let network = Network::read(&readings)?;
        Ok(Book {
            network,
            tests: next_test::read()?,
            settings: Settings::read()?,
            prior_rows: prior::read()?,
            exclusions: strongest::read()?,
            readings,
            rows,
        })
    }

    /// Returns the book with the caller's own likelihoods put in.
    pub fn with_overrides(&self, overrides: &[Override]) -> Result<Book, Fault> {
        let mut rows = self.rows.clone();
        for own in overrides {
            if !(0.0001..=0.9999).contains(&own.p) {
                return Err(Fault::Override {
                    group: own.group.clone(),
                    reading: own.reading.clone(),
                    hypothesis: own.hypothesis.clone(),
                    p: own.p,
                });
            }
            let (index, _) = self.find(&own.group, &own.reading)?;
            let row = rows.iter_mut().find(|row| {
                row.group == own.group && row.observation == own.reading && row.hypothesis == own.hypothesis
            });
            let row = row.ok_or_else(|| Fault::State {
                given: own.hypothesis.clone(),
                place: format!("the override of {}/{}", own.group, own.reading),
                accepted: match self.readings[index].likelihood {
                    Likelihood::Plank(_) => PLANK_STATES.map(PlankState::name).join(", "),
                    Likelihood::Frame(_) => FRAME_STATES.map(FrameState::name).join(", "),
                },
            })?;
            row.p_observation_given_hypothesis = own.p;
            row.verbal = String::new();
            row.status = "the caller's own".to_owned();
        }
        Self::from_rows(rows)
    }

    /// Returns the rows of the book.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// Returns the settings of the book.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Returns the readings of the book, group and name, in the order of the data file.
    pub fn readings(&self) -> impl Iterator<Item = (&str, &str)> {
        self.readings.iter().map(|reading| (reading.group.as_str(), reading.name.as_str()))
    }

    /// Returns which reading is meant and whether it is the complement.
    pub(crate) fn find(&self, group: &str, name: &str) -> Result<(usize, bool), Fault> {
        let place = |wanted: &str| self.readings.iter().position(|r| r.group == group && r.name == wanted);
        if let Some(index) = place(name) {
            return Ok((index, false));
        }
        if let Some(index) = name.strip_prefix("not_").and_then(place) {
            return Ok((index, true));
        }
        let of_group: Vec<_> = self.readings.iter().filter(|r| r.group == group).collect();
        let listed: Vec<_> = if of_group.is_empty() { self.readings.iter().collect() } else { of_group };
        let accepted: Vec<_> = listed.iter().map(|r| format!("{}/{}", r.group, r.name)).collect();
        Err(Fault::Reading { group: group.to_owned(), reading: name.to_owned(), accepted: accepted.join(", ") })
    }
}

/// Gathers rows into readings, and refuses a book that lacks a state.
fn gather(rows: &[Row]) -> Result<Vec<Reading>, Fault> {
    const FILE: &str = "likelihoods.csv";
    let mut readings: Vec<Reading> = Vec::new();
    for row in rows {
        let known = readings.iter().position(|r| r.group == row.group && r.name == row.observation);
        let at = known.unwrap_or_else(|| {
            let likelihood = match row.node.as_str() {
                "frame" => Likelihood::Frame([f64::NAN; 4]),
                _ => Likelihood::Plank([f64::NAN; 7]),
            };
            readings.push(Reading { group: row.group.clone(), name: row.observation.clone(), likelihood });
            readings.len() - 1
        });
        let slot = match &mut readings[at].likelihood {
            Likelihood::Plank(p) => PlankState::named(&row.hypothesis).map(|state| &mut p[state.index()]),
            Likelihood::Frame(p) => FrameState::named(&row.hypothesis).map(|state| &mut p[state.index()]),
        };
        let slot = slot.ok_or_else(|| Fault::Data { file: FILE, why: format!("{} is no state", row.hypothesis) })?;
        *slot = row.p_observation_given_hypothesis;
    }
    for reading in &readings {
        let p: &[f64] = match &reading.likelihood {
            Likelihood::Plank(p) => p,
            Likelihood::Frame(p) => p,
        };
        if !p.iter().all(|p| *p > 0.0 && *p < 1.0) {
            let why = format!("{}/{} lacks a state or has a figure outside 0 to 1", reading.group, reading.name);
            return Err(Fault::Data { file: FILE, why });
        }
    }
    Ok(readings)
}
