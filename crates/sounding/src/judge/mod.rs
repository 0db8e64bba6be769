//! Judging blows against blows on places of the same boat that the surveyor calls sound.
//!
//! Nothing is known of a boat beforehand: what counts is the difference from her own sound places, of the same kind of member
//! where there are enough. With too few references there are ranks and no probabilities.

mod features;
mod model;
mod reason;

pub use features::{COUNT, Features, NAMES, features};
pub use reason::Reason;

use crate::Blow;
use model::{MECHANISMS, Model};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// References of the same kind of member needed for a judgement against that kind.
pub const NEEDED_OF_KIND: usize = 3;
/// References of any kind needed for a judgement against the boat as a whole.
pub const NEEDED_OF_BOAT: usize = 6;

/// How a place sounds, with its probabilities.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Probabilities {
    /// Rings like sound wood.
    pub solid: f64,
    /// Duller: loose, checked or hollow.
    pub dull: f64,
    /// Does not ring.
    pub dead: f64,
}

/// What a judgement was made against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "against", rename_all = "snake_case")]
pub enum Basis {
    /// References of the same kind of member, drawn a little towards all of the boat.
    Kind {
        /// Clean references of the kind.
        of_kind: usize,
        /// Clean references of the boat.
        of_boat: usize,
    },
    /// References of other members of the boat; less sure.
    Boat {
        /// Clean references of the boat.
        of_boat: usize,
    },
    /// Too few references: only a rank among the blows of the session.
    Session {
        /// Clean references of the boat.
        of_boat: usize,
    },
}

/// A judgement of one blow or of a group of blows on one place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Judgement {
    /// The verdict in words.
    pub words: String,
    /// What it was made against.
    pub basis: Basis,
    /// Probabilities; none without enough references.
    pub probabilities: Option<Probabilities>,
    /// Share of the references, this one counted with them, that are at least as unlike the rest: never below 1/(n+1).
    pub rank_among_references: Option<f64>,
    /// Rank among the blows of the session, 0 the most usual, 1 the least; only where there are no probabilities.
    pub rank_in_session: Option<f64>,
    /// Distance from the references, in deviations; about 1 is usual.
    pub distance: Option<f64>,
    /// What the sound suggests if it is not solid: `loose`, `checked`, `void` or `decay`. A hint, no finding.
    pub hint: Option<String>,
    /// The strongest differences, strongest first.
    pub reasons: Vec<Reason>,
    /// What to be careful of.
    pub cautions: Vec<String>,
}

impl Judgement {
    /// Returns the probability that the place does not sound like sound wood.
    pub fn probability_dull(&self) -> Option<f64> {
        self.probabilities.map(|p| p.dull + p.dead)
    }
}

/// The references of one boat, ready to judge by.
#[derive(Clone, Debug)]
pub struct Judge {
    model: Model,
    boat: Vec<Features>,
    boat_centre: Features,
    kinds: BTreeMap<String, (usize, Features)>,
    distances: Vec<f64>,
    left_out: usize,
}

impl Judge {
    /// Takes references: the kind of member and the blow. Blows that are not clean are left out.
    pub fn new<'a>(references: impl IntoIterator<Item = (&'a str, &'a Blow)>) -> Judge {
        let model = Model::built_in();
        let mut by_kind: BTreeMap<String, Vec<Features>> = BTreeMap::new();
        let (mut boat, mut left_out) = (Vec::new(), 0);
        for (kind, blow) in references {
            if !blow.is_clean() {
                left_out += 1;
                continue;
            }
            let f = features(&blow.description);
            by_kind.entry(kind.to_owned()).or_default().push(f);
            boat.push(f);
        }
        let boat_centre = median(&boat);
        let centre = |own: &[Features]| {
            let (n, k, own) = (own.len() as f64, model.shrink, median(own));
            std::array::from_fn(|i| match (own[i], boat_centre[i]) {
                (Some(a), Some(b)) => Some((n * a + k * b) / (n + k)),
                (a, b) => a.or(b),
            })
        };
        let mut distances = Vec::new();
        for own in by_kind.values() {
            for i in 0..own.len() {
                // Each reference is held against the others of its kind.
                let others: Vec<Features> = own.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, f)| *f).collect();
                let d = model.differences(&own[i], &centre(&others));
                distances.push(model.likelihoods(&d, 0.0).1);
            }
        }
        let kinds = by_kind.iter().map(|(kind, own)| (kind.clone(), (own.len(), centre(own)))).collect();
        Judge { model, boat, boat_centre, kinds, distances, left_out }
    }

    /// Returns how many references are clean enough to judge by.
    pub fn references(&self) -> usize {
        self.boat.len()
    }

    /// Returns how many references were left out: clipped, double, or with something under them.
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// Judges one blow on a kind of member.
    pub fn judge(&self, kind: &str, blow: &Blow) -> Judgement {
        self.judge_group(kind, &[blow])
    }

    /// Judges the blows on one place together: their likelihoods count once and, beyond that, only for the part that does not
    /// repeat itself from blow to blow.
    pub fn judge_group(&self, kind: &str, blows: &[&Blow]) -> Judgement {
        let of_boat = self.boat.len();
        let own = self.kinds.get(kind);
        let of_kind = own.map_or(0, |k| k.0);
        let basis = if of_kind >= NEEDED_OF_KIND {
            Basis::Kind { of_kind, of_boat }
        } else if of_boat >= NEEDED_OF_BOAT {
            Basis::Boat { of_boat }
        } else {
            Basis::Session { of_boat }
        };
        let centre = own.map_or(self.boat_centre, |k| k.1);
        let cautions = self.cautions(basis, blows);
        if blows.is_empty() || matches!(basis, Basis::Session { .. }) {
            return Judgement {
                words: "too few reference blows to judge by".to_owned(),
                basis,
                probabilities: None,
                rank_among_references: None,
                rank_in_session: None,
                distance: None,
                hint: None,
                reasons: Vec::new(),
                cautions,
            };
        }
        let k = self.model.shrink;
        // What the centre leaves open of the spread between members, beyond what the model was chosen with.
        let open = k / (of_kind as f64 + k);
        let widen = (open * open - 0.11).max(0.0);
        let mut sums = [0.0; 5];
        let mut all: Vec<Features> = Vec::new();
        let mut distance = 0.0;
        for blow in blows {
            let d = self.model.differences(&features(&blow.description), &centre);
            let (logs, far) = self.model.likelihoods(&d, widen);
            for (s, l) in sums.iter_mut().zip(logs) {
                *s += l;
            }
            distance += far / blows.len() as f64;
            all.push(d);
        }
        let m = blows.len() as f64;
        let weight = 1.0 / (1.0 + (m - 1.0) * self.model.shared);
        let posterior = self.model.posterior(&sums.map(|s| s * weight));
        let probabilities =
            Probabilities { solid: posterior[0], dull: posterior[1..4].iter().sum(), dead: posterior[4] };
        let at_least = self.distances.iter().filter(|d| **d >= distance).count();
        let worst = (1..5).max_by(|a, b| posterior[*a].total_cmp(&posterior[*b])).unwrap_or(1);
        Judgement {
            words: words(&probabilities).to_owned(),
            basis,
            probabilities: Some(probabilities),
            rank_among_references: Some((1 + at_least) as f64 / (1 + self.distances.len()) as f64),
            rank_in_session: None,
            distance: Some(distance),
            hint: (posterior[0] < 0.6 && posterior[worst] > 0.5 * (1.0 - posterior[0]))
                .then(|| MECHANISMS[worst].to_owned()),
            reasons: reason::strongest(&median(&all)),
            cautions,
        }
    }

    fn cautions(&self, basis: Basis, blows: &[&Blow]) -> Vec<String> {
        let mut cautions = Vec::new();
        match basis {
            Basis::Session { of_boat } => cautions.push(format!(
                "{of_boat} clean reference blows: a judgement needs {NEEDED_OF_KIND} on the same kind of member, or {NEEDED_OF_BOAT} in all, \
                 on places known to be sound."
            )),
            Basis::Boat { .. } => cautions.push(
                "Judged against other members of the boat: thickness and span change a note as much as a defect does.".to_owned(),
            ),
            Basis::Kind { .. } => {}
        }
        let some = |f: fn(&Blow) -> bool| blows.iter().any(|b| f(b));
        if some(|b| b.description.clipped) {
            cautions.push("The recorder's limit was met; only the decay can be trusted.".to_owned());
        }
        if some(|b| b.overlapped) {
            cautions.push("Another sound lies under the blow.".to_owned());
        }
        if some(|b| b.double) {
            cautions.push("Two contacts close together: the hammer bounced, or two blows fell together.".to_owned());
        }
        if some(|b| b.description.snr_db < 10.0) {
            cautions.push("The blow hardly stands above the noise.".to_owned());
        }
        cautions
    }

    /// Judges the blows of a session in order, each alone. Where references are too few, the blows are ranked by how far they
    /// lie from the middle of the session instead, and no probability is given.
    pub fn judge_session(&self, blows: &[(&str, &Blow)]) -> Vec<Judgement> {
        let mut all: Vec<Judgement> = blows.iter().map(|(kind, blow)| self.judge(kind, blow)).collect();
        let every: Vec<Features> = blows.iter().map(|(_, b)| features(&b.description)).collect();
        let middle = median(&every);
        let far: Vec<(Features, f64)> = every
            .iter()
            .map(|f| {
                let d = self.model.differences(f, &middle);
                let square = self.model.likelihoods(&d, 1.0).1;
                (d, square)
            })
            .collect();
        for (i, judgement) in all.iter_mut().enumerate().filter(|(_, j)| j.probabilities.is_none()) {
            let below = far.iter().filter(|f| f.1 < far[i].1).count();
            judgement.rank_in_session = Some(below as f64 / (far.len().max(2) - 1) as f64);
            judgement.reasons = reason::strongest(&far[i].0);
        }
        all
    }
}

fn words(p: &Probabilities) -> &'static str {
    let unlike = p.dull + p.dead;
    if p.solid >= 0.9 {
        "rang like the reference"
    } else if p.solid >= 0.6 {
        "probably rang like the reference"
    } else if unlike >= 0.9 && p.dead >= 0.6 {
        "dead against the reference"
    } else if unlike >= 0.9 {
        "dull against the reference"
    } else if unlike >= 0.6 {
        if p.dead > p.dull { "probably dead against the reference" } else { "probably dull against the reference" }
    } else {
        "unclear: tap again or probe"
    }
}

/// Median of each feature over those that have it.
fn median(all: &[Features]) -> Features {
    std::array::from_fn(|i| {
        let mut values: Vec<f64> = all.iter().filter_map(|f| f[i]).collect();
        values.sort_by(f64::total_cmp);
        let n = values.len();
        if n == 0 { None } else { Some(f64::midpoint(values[(n - 1) / 2], values[n / 2])) }
    })
}
