//! What each reading weighed, adding up exactly to the log-odds.

use crate::Observation;
use crate::network::{Joint, plank_of, times};
use crate::strongest::Piece;
use crate::wording::decibans;

/// What one counted reading weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// The reading.
    pub observation: Observation,
    /// Share of its decibans at which it counted: 1, or less for hearsay and doubt.
    pub share: f64,
    /// Decibans for (positive) or against (negative) each state of the plank against all others together, averaged over
    /// every order in which the readings could have come. `None` where the prior already rules the state in or out.
    pub decibans: [Option<f64>; 7],
    /// How likely the reading is in each state of the plank, fastening and frame left open, after its share.
    pub likelihoods: [f64; 7],
}

/// Returns what each piece weighed: its Shapley value in the log-odds of each state.
///
/// With `v(S)` the log-odds after the readings `S`, the weight of reading `i` is the average of `v(S with i) - v(S)` over
/// all orders (L. S. Shapley, A value for n-person games, 1953). The weights add up to `v(all) - v(none)`, and do not
/// depend on the order in which readings were written down.
pub(crate) fn weights(prior: &Joint, pieces: &[Piece]) -> Vec<Weight> {
    let count = pieces.len();
    let mut odds_db = vec![[None; 7]; 1 << count];
    walk(prior, pieces, 0, 0, &mut odds_db);
    let chances = order_chances(count);
    let weigh = |(i, piece): (usize, &Piece)| {
        let mut sums = [Some(0.0); 7];
        for without in (0..1usize << count).filter(|set| set & (1 << i) == 0) {
            let chance = chances[without.count_ones() as usize];
            let with = without | (1 << i);
            for (state, sum) in sums.iter_mut().enumerate() {
                let step = odds_db[with][state].zip(odds_db[without][state]).map(|(a, b): (f64, f64)| a - b);
                *sum = sum.zip(step).map(|(sum, step)| sum + chance * step);
            }
        }
        Weight {
            observation: piece.observation.clone(),
            share: piece.share,
            decibans: sums,
            likelihoods: likelihoods(prior, piece),
        }
    };
    pieces.iter().enumerate().map(weigh).collect()
}

/// Returns the log-odds of each state in decibans; `None` where they are not finite.
pub(crate) fn log_odds_db(plank: &[f64; 7]) -> [Option<f64>; 7] {
    let mut odds = [None; 7];
    for (state, slot) in odds.iter_mut().enumerate() {
        // Summed, not one minus: near certainty the difference would lose every digit.
        let others: f64 = plank.iter().enumerate().filter(|(other, _)| *other != state).map(|(_, p)| p).sum();
        *slot = (plank[state] > 0.0 && others > 0.0).then(|| decibans(plank[state] / others));
    }
    odds
}

fn walk(joint: &Joint, pieces: &[Piece], next: usize, set: usize, odds_db: &mut [[Option<f64>; 7]]) {
    let Some(piece) = pieces.get(next) else {
        odds_db[set] = log_odds_db(&plank_of(joint));
        return;
    };
    walk(joint, pieces, next + 1, set, odds_db);
    let mut with = *joint;
    times(&mut with, &piece.likelihood);
    walk(&with, pieces, next + 1, set | (1 << next), odds_db);
}

/// Chance that exactly a given set of `k` others of `count - 1` came before a reading: k! (count-1-k)! / count!.
fn order_chances(count: usize) -> Vec<f64> {
    let mut chance = 1.0 / count.max(1) as f64;
    let mut chances = vec![chance];
    for k in 1..count {
        chance *= k as f64 / (count - k) as f64;
        chances.push(chance);
    }
    chances
}

fn likelihoods(prior: &Joint, piece: &Piece) -> [f64; 7] {
    let before = plank_of(prior);
    let mut with = *prior;
    times(&mut with, &piece.likelihood);
    let after = plank_of(&with);
    let mut likelihoods = [0.0; 7];
    for state in 0..7 {
        likelihoods[state] =
            if before[state] > 0.0 { after[state] / before[state] } else { piece.likelihood[state * 12] };
    }
    likelihoods
}
