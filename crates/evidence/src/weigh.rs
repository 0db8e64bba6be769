//! The weighing of one place.

use crate::network::{Joint, plank_of, times, to_one};
use crate::shares::{log_odds_db, weights};
use crate::strongest::{Piece, contradictions, pieces, strongest};
use crate::wording::{decibans, statement};
use crate::{
    Book, Contradiction, Fault, Leave, NextTest, Override, PlankState, PriorFactor, Question, Rival, SetAside, Weight,
    differences, neighbours, next_test, prior, rivals,
};

/// Readings that come together oddly.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The readings.
    pub readings: Vec<String>,
    /// How much more rarely they come together than if unconnected, in decibans; `None` for a reading impossible by itself.
    pub db: Option<f64>,
    /// What it means, one sentence.
    pub sentence: String,
}

/// The answer for one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// Probability of each state of the plank, in the order of [`crate::PLANK_STATES`].
    pub plank: [f64; 7],
    /// Probability of each state of the fastening; `None` when weighed by the plank alone.
    pub fastening: Option<[f64; 3]>,
    /// Probability of each state of the frame behind; `None` when weighed by the plank alone.
    pub frame: Option<[f64; 4]>,
    /// What the plank's table alone gives (Bayes' rule on it).
    pub plank_alone: [f64; 7],
    /// Why the network differs from the plank's table alone; empty when they agree.
    pub differs_because: Vec<String>,
    /// Prior of each state, neighbours included.
    pub prior: [f64; 7],
    /// The steps that led to the prior.
    pub prior_steps: Vec<PriorFactor>,
    /// What the neighbouring places multiplied each state by; all ones without neighbours.
    pub neighbour_multipliers: [f64; 7],
    /// Log-odds of each state before the readings, in decibans.
    pub prior_db: [Option<f64>; 7],
    /// Log-odds of each state after the readings, in decibans: the prior's and all weights, added.
    pub posterior_db: [Option<f64>; 7],
    /// The counted readings and what each weighed.
    pub weights: Vec<Weight>,
    /// Readings not counted, and why.
    pub set_aside: Vec<SetAside>,
    /// Readings that cannot both be true.
    pub contradictions: Vec<Contradiction>,
    /// Readings that come together oddly, or that no allowed state explains.
    pub conflicts: Vec<Conflict>,
    /// Leading state.
    pub leading: PlankState,
    /// Lead over the second state in decibans; `None` when no other state is possible.
    pub lead_db: Option<f64>,
    /// Whether the lead is so narrow that the figures do not settle it.
    pub close: bool,
    /// The two best rivals.
    pub rivals: Vec<Rival>,
    /// Tests ranked by expected information a minute, within what is allowed.
    pub next: Vec<NextTest>,
    /// Tests that need more leave than was given.
    pub needs_leave: Vec<NextTest>,
    /// The caller's own likelihoods that were put in.
    pub overrides: Vec<Override>,
    /// The place in one or two sentences.
    pub statement: String,
}

impl Book {
    /// Weighs the readings of one place.
    ///
    /// # Errors
    /// A state, reading or level that the data do not know; a prior that does not add up; an override out of range.
    pub fn weigh(&self, question: &Question) -> Result<Weighing, Fault> {
        if question.overrides.is_empty() {
            weigh(self, question)
        } else {
            weigh(&self.with_overrides(&question.overrides)?, question)
        }
    }
}

fn weigh(book: &Book, question: &Question) -> Result<Weighing, Fault> {
    let plank_only = question.plank_only;
    let (own_prior, prior_steps) = prior::prior(&book.prior_rows, question.prior.as_ref(), question.context.as_ref())?;
    let (prior, neighbour_multipliers) = with_neighbours(book, question, own_prior)?;
    let (all, mut set_aside) = pieces(book, &question.observations, plank_only)?;
    let start = book.network.prior(&prior);
    let contradictions = named_contradictions(book, &start, &all);
    let (counted, weaker) = strongest(book, all);
    set_aside.extend(weaker);

    let posterior = after(&start, &counted);
    let plank = plank_of(&posterior);
    let plank_alone = if plank_only { plank } else { by_table(book, question, &start)? };
    let (leading, top) = next_test::leading(&plank);
    let allowed = question.may_open.unwrap_or(Leave::Planking);
    let (next, needs_leave) = next_test::rank(book, &start, &counted, plank_only, allowed);
    let rivals = rivals::rivals(book, &start, &counted, &plank, leading, plank_only, allowed);
    let lead_db = rivals.first().filter(|r| r.probability > 0.0).map(|r| decibans(top / r.probability));
    let (fastening, frame) = next_test::behind(&posterior);
    let mut weighing = Weighing {
        fastening: (!plank_only).then_some(fastening),
        frame: (!plank_only).then_some(frame),
        differs_because: differences::because(book, &counted, &plank, &plank_alone),
        prior_db: log_odds_db(&prior),
        posterior_db: log_odds_db(&plank),
        weights: weights(&start, &counted),
        conflicts: conflicts(book, &start, &counted),
        close: lead_db.is_some_and(|lead| lead < book.settings.close_db),
        overrides: question.overrides.clone(),
        statement: String::new(),
        plank,
        plank_alone,
        prior,
        prior_steps,
        neighbour_multipliers,
        set_aside,
        contradictions,
        leading,
        lead_db,
        rivals,
        next,
        needs_leave,
    };
    weighing.statement = statement(&weighing);
    Ok(weighing)
}

fn with_neighbours(book: &Book, question: &Question, prior: [f64; 7]) -> Result<([f64; 7], [f64; 7]), Fault> {
    if question.neighbours.is_empty() {
        return Ok((prior, [1.0; 7]));
    }
    let multipliers = neighbours::multipliers(book, &question.neighbours, question.plank_only)?;
    let mut shifted = prior;
    for (share, multiplier) in shifted.iter_mut().zip(multipliers) {
        *share *= multiplier;
    }
    let total: f64 = shifted.iter().sum();
    Ok((shifted.map(|share| share / total), multipliers))
}

fn after(start: &Joint, counted: &[Piece]) -> Joint {
    let mut joint = *start;
    for piece in counted {
        times(&mut joint, &piece.likelihood);
    }
    to_one(&mut joint);
    joint
}

fn by_table(book: &Book, question: &Question, start: &Joint) -> Result<[f64; 7], Fault> {
    let (all, _) = pieces(book, &question.observations, true)?;
    let (counted, _) = strongest(book, all);
    Ok(plank_of(&after(start, &counted)))
}

fn named_contradictions(book: &Book, start: &Joint, all: &[Piece]) -> Vec<Contradiction> {
    let pairs = contradictions(book, all);
    let only = |chosen: usize, group: &str| {
        let pieces: Vec<Piece> = all
            .iter()
            .enumerate()
            .filter(|(index, piece)| *index == chosen || piece.observation.group != group)
            .map(|(_, piece)| piece.clone())
            .collect();
        next_test::leading(&plank_of(&after(start, &strongest(book, pieces).0)))
    };
    pairs
        .into_iter()
        .map(|(i, j, why)| {
            let group = all[i].observation.group.clone();
            Contradiction {
                first: all[i].observation.reading.clone(),
                second: all[j].observation.reading.clone(),
                leading_if_first: only(i, &group),
                leading_if_second: only(j, &group),
                group,
                why,
            }
        })
        .collect()
}

/// Finds readings that no allowed state explains, and pairs that come together much more rarely than by chance.
///
/// The measure is `10 log10(P(a) P(b) / P(a, b))` (F. V. Jensen and others, Analysis in HUGIN of data conflict, 1991; from
/// memory).
fn conflicts(book: &Book, start: &Joint, counted: &[Piece]) -> Vec<Conflict> {
    let mut found = Vec::new();
    let named = |piece: &Piece| format!("{}/{}", piece.observation.group, piece.observation.reading);
    let chance = |pieces: &[&Piece]| {
        let mut joint = *start;
        for piece in pieces {
            times(&mut joint, &piece.likelihood);
        }
        joint.iter().sum::<f64>()
    };
    let alone: Vec<f64> = counted.iter().map(|piece| chance(&[piece])).collect();
    for (i, a) in counted.iter().enumerate() {
        let plain = start.iter().zip(&a.likelihood).filter(|(share, _)| **share > 0.0).map(|(_, p)| *p);
        let best = libm::pow(plain.fold(0.0, f64::max), 1.0 / a.share);
        if best < book.settings.impossible_below {
            let sentence = format!(
                "{} is all but impossible in every state that the prior allows: either the reading or the prior is wrong.",
                named(a)
            );
            found.push(Conflict { readings: vec![named(a)], db: None, sentence });
        }
        for (j, b) in counted.iter().enumerate().skip(i + 1) {
            let db = decibans(alone[i] * alone[j] / chance(&[a, b]));
            if db > book.settings.conflict_db {
                let sentence = format!(
                    "{} and {} are seldom true of one place ({db:.1} dB rarer together than if unconnected): take both again, or think of two troubles in one place.",
                    named(a),
                    named(b)
                );
                found.push(Conflict { readings: vec![named(a), named(b)], db: Some(db), sentence });
            }
        }
    }
    found
}
