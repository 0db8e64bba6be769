//! The three nodes of a place and how readings hang on them.

use crate::book::{Likelihood, Reading};
use crate::{FASTENING_STATES, FRAME_STATES, FasteningState, Fault, PLANK_STATES, PlankState, table};
use serde::Deserialize;

/// Number of combinations of plank, fastening and frame.
pub(crate) const COMBINATIONS: usize = 7 * 3 * 4;

/// A figure for every combination; see [`at`].
pub(crate) type Joint = [f64; COMBINATIONS];

/// The place of a combination in a [`Joint`].
pub(crate) const fn at(plank: usize, fastening: usize, frame: usize) -> usize {
    (plank * 3 + fastening) * 4 + frame
}

/// The network: fastening given plank, frame given both, and every reading given all three.
///
/// A reading of the plank that comes about through its fastening is fitted so that, averaged over fastening and frame,
/// it is exactly as likely in each state of the plank as the plank's own row says. So with fastening and frame left
/// open one reading moves the plank exactly as Bayes' rule on that row does, and the network adds only what the row
/// cannot know: that two readings share a cause, and that readings of the frame bear on the plank.
#[derive(Clone, Debug)]
pub(crate) struct Network {
    /// P(fastening, frame | plank).
    behind: Joint,
    /// P(reading | plank, fastening, frame), by reading.
    by_reading: Vec<Joint>,
    /// P(reading | plank) from the table alone, spread over all combinations, by reading; `None` for frame readings.
    by_plank: Vec<Option<Joint>>,
    /// Whether the reading rests on the fastening.
    pub rests_on_fastening: Vec<bool>,
}

#[derive(Deserialize)]
struct FasteningRow {
    plank: String,
    holding: f64,
    wasted: f64,
    slack: f64,
}

#[derive(Deserialize)]
struct FrameRow {
    plank: String,
    fastening: String,
    sound: f64,
    decayed: f64,
    iron_sick: f64,
    cracked: f64,
}

#[derive(Deserialize)]
struct RestingRow {
    group: String,
    observation: String,
    holding: f64,
    wasted: f64,
    slack: f64,
}

impl Network {
    pub(crate) fn read(readings: &[Reading]) -> Result<Self, Fault> {
        let fastening = fastening_given_plank()?;
        let behind = behind(&fastening)?;
        let file = "readings_resting_on_fastening.csv";
        let resting: Vec<RestingRow> = table::rows(file, include_str!("../data/readings_resting_on_fastening.csv"))?;
        let mut network = Self { behind, by_reading: Vec::new(), by_plank: Vec::new(), rests_on_fastening: Vec::new() };
        for reading in readings {
            let rests = resting.iter().find(|r| r.group == reading.group && r.observation == reading.name);
            network.rests_on_fastening.push(rests.is_some());
            let mut joint = [0.0; COMBINATIONS];
            let mut alone = None;
            match &reading.likelihood {
                Likelihood::Frame(p) => fill(&mut joint, |_, _, frame| p[frame]),
                Likelihood::Plank(p) => {
                    let mut spread = [0.0; COMBINATIONS];
                    fill(&mut spread, |plank, _, _| p[plank]);
                    alone = Some(spread);
                    let fitted: Vec<[f64; 3]> = (0..7)
                        .map(|plank| match rests {
                            Some(r) => fit(fastening[plank], [r.holding, r.wasted, r.slack], p[plank]),
                            None => [p[plank]; 3],
                        })
                        .collect();
                    fill(&mut joint, |plank, fastening, _| fitted[plank][fastening]);
                }
            }
            network.by_reading.push(joint);
            network.by_plank.push(alone);
        }
        Ok(network)
    }

    /// Returns the prior of every combination from the plank's.
    pub(crate) fn prior(&self, plank: &[f64; 7]) -> Joint {
        let mut joint = self.behind;
        for (index, share) in joint.iter_mut().enumerate() {
            *share *= plank[index / 12];
        }
        joint
    }

    /// Returns how likely a reading (or its complement) is in every combination; with `plank_only`, by the plank's
    /// table, and `None` for readings that the table does not hold.
    pub(crate) fn likelihood(&self, reading: usize, complement: bool, plank_only: bool) -> Option<Joint> {
        let mut joint = if plank_only { self.by_plank[reading]? } else { self.by_reading[reading] };
        if complement {
            for p in &mut joint {
                *p = 1.0 - *p;
            }
        }
        Some(joint)
    }
}

/// Returns the plank's share of a joint.
pub(crate) fn plank_of(joint: &Joint) -> [f64; 7] {
    let mut plank = [0.0; 7];
    for (index, share) in joint.iter().enumerate() {
        plank[index / 12] += share;
    }
    plank
}

/// Returns the fastening's share of a joint.
pub(crate) fn fastening_of(joint: &Joint) -> [f64; 3] {
    let mut fastening = [0.0; 3];
    for (index, share) in joint.iter().enumerate() {
        fastening[index / 4 % 3] += share;
    }
    fastening
}

/// Returns the frame's share of a joint.
pub(crate) fn frame_of(joint: &Joint) -> [f64; 4] {
    let mut frame = [0.0; 4];
    for (index, share) in joint.iter().enumerate() {
        frame[index % 4] += share;
    }
    frame
}

/// Multiplies a joint by a likelihood, in place.
pub(crate) fn times(joint: &mut Joint, likelihood: &Joint) {
    for (share, p) in joint.iter_mut().zip(likelihood) {
        *share *= p;
    }
}

/// Brings a joint to one and returns what it added up to before.
pub(crate) fn to_one(joint: &mut Joint) -> f64 {
    let total: f64 = joint.iter().sum();
    if total > 0.0 {
        for share in joint.iter_mut() {
            *share /= total;
        }
    }
    total
}

fn fill(joint: &mut Joint, figure: impl Fn(usize, usize, usize) -> f64) {
    for plank in 0..PLANK_STATES.len() {
        for fastening in 0..FASTENING_STATES.len() {
            for frame in 0..FRAME_STATES.len() {
                joint[at(plank, fastening, frame)] = figure(plank, fastening, frame);
            }
        }
    }
}

fn fastening_given_plank() -> Result<[[f64; 3]; 7], Fault> {
    const FILE: &str = "fastening_given_plank.csv";
    let rows: Vec<FasteningRow> = table::rows(FILE, include_str!("../data/fastening_given_plank.csv"))?;
    let mut given = [[f64::NAN; 3]; 7];
    for row in rows {
        let plank = PlankState::named(&row.plank)
            .ok_or_else(|| Fault::Data { file: FILE, why: format!("{} is no state", row.plank) })?;
        given[plank.index()] = shares(FILE, [row.holding, row.wasted, row.slack])?;
    }
    if given.iter().flatten().any(|p| p.is_nan()) {
        return Err(Fault::Data { file: FILE, why: "a state of the plank is missing".to_owned() });
    }
    Ok(given)
}

fn behind(fastening: &[[f64; 3]; 7]) -> Result<Joint, Fault> {
    const FILE: &str = "frame_given_plank_and_fastening.csv";
    let rows: Vec<FrameRow> = table::rows(FILE, include_str!("../data/frame_given_plank_and_fastening.csv"))?;
    let mut joint = [0.0; COMBINATIONS];
    for plank in PLANK_STATES {
        for held in FASTENING_STATES {
            // Both named beats the plank named beats the fastening named.
            let row = most_particular(&rows, plank, held);
            let row = row.ok_or_else(|| Fault::Data { file: FILE, why: "a combination is missing".to_owned() })?;
            let frame = shares(FILE, [row.sound, row.decayed, row.iron_sick, row.cracked])?;
            for (index, share) in frame.iter().enumerate() {
                joint[at(plank.index(), held.index(), index)] = fastening[plank.index()][held.index()] * share;
            }
        }
    }
    Ok(joint)
}

fn most_particular(rows: &[FrameRow], plank: PlankState, held: FasteningState) -> Option<&FrameRow> {
    let find = |p: &str, s: &str| rows.iter().find(|row| row.plank == p && row.fastening == s);
    find(plank.name(), held.name()).or_else(|| find(plank.name(), "any")).or_else(|| find("any", held.name()))
}

fn shares<const N: usize>(file: &'static str, row: [f64; N]) -> Result<[f64; N], Fault> {
    let total: f64 = row.iter().sum();
    if (total - 1.0).abs() > 1e-9 || row.iter().any(|p| *p < 0.0) {
        return Err(Fault::Data { file, why: format!("a row adds up to {total}, not to 1") });
    }
    Ok(row)
}

/// Shifts three likelihoods by one common step in log-odds so that their average by `weights` is `wanted`.
fn fit(weights: [f64; 3], likelihoods: [f64; 3], wanted: f64) -> [f64; 3] {
    let shifted = |step: f64| {
        likelihoods.map(|p| {
            let odds = libm::log(p / (1.0 - p)) + step;
            1.0 / (1.0 + libm::exp(-odds))
        })
    };
    let average = |step: f64| shifted(step).iter().zip(weights).map(|(p, w)| p * w).sum::<f64>();
    let (mut low, mut high) = (-40.0, 40.0);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if average(middle) < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    shifted(0.5 * (low + high))
}
