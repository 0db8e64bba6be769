//! The two best rivals of the leading state, and what would tell them apart.

use crate::network::{Joint, plank_of, times};
use crate::next_test::without_group;
use crate::strongest::Piece;
use crate::wording::decibans;
use crate::{Book, Leave, PLANK_STATES, PlankState};

/// A rival of the leading state.
#[derive(Clone, Debug, PartialEq)]
pub struct Rival {
    /// The state.
    pub state: PlankState,
    /// Its probability.
    pub probability: f64,
    /// How far it is behind the leading state, in decibans; `None` when it is ruled out.
    pub behind_db: Option<f64>,
    /// Up to three tests that would tell the two apart, the best first, within what is allowed.
    pub told_apart_by: Vec<Separator>,
}

/// A test that tells two states apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Separator {
    /// Name of the test.
    pub test: String,
    /// What to do, in words.
    pub words: String,
    /// Weight to be expected between the two states, whichever is true, in decibans. Never negative.
    pub expected_db: f64,
    /// The leave it needs.
    pub leave: Leave,
}

/// Returns the two states next to the leading one.
pub(crate) fn rivals(
    book: &Book,
    prior: &Joint,
    pieces: &[Piece],
    plank: &[f64; 7],
    leading: PlankState,
    plank_only: bool,
    allowed: Leave,
) -> Vec<Rival> {
    let mut others: Vec<_> = PLANK_STATES.into_iter().filter(|state| *state != leading).collect();
    others.sort_by(|a, b| plank[b.index()].total_cmp(&plank[a.index()]));
    let top = plank[leading.index()];
    let candidates = candidates(book, prior, pieces, plank_only, allowed);
    let rival = |state: PlankState| {
        let probability = plank[state.index()];
        let mut told_apart_by: Vec<_> = candidates
            .iter()
            .map(|candidate| {
                let (a, b) = (candidate.yes[leading.index()], candidate.yes[state.index()]);
                let test = &book.tests[candidate.test];
                Separator {
                    test: test.test.clone(),
                    words: test.words.clone(),
                    expected_db: expected_db(a, b),
                    leave: test.leave,
                }
            })
            .collect();
        told_apart_by.sort_by(|a, b| b.expected_db.total_cmp(&a.expected_db));
        told_apart_by.truncate(3);
        Rival { state, probability, behind_db: (probability > 0.0).then(|| decibans(top / probability)), told_apart_by }
    };
    others.into_iter().take(2).map(rival).collect()
}

/// A test that may be made, with the chance of yes in each state of the plank.
struct Candidate {
    test: usize,
    yes: [f64; 7],
}

fn candidates(book: &Book, prior: &Joint, pieces: &[Piece], plank_only: bool, allowed: Leave) -> Vec<Candidate> {
    let mut candidates = Vec::new();
    for (index, test) in book.tests.iter().enumerate() {
        let taken = pieces.iter().any(|piece| piece.observation.group == test.group && !piece.observation.hearsay);
        if taken || test.leave > allowed {
            continue;
        }
        let Ok((reading, _)) = book.find(&test.group, &test.observation) else { continue };
        let Some(likelihood) = book.network.likelihood(reading, false, plank_only) else { continue };
        let now = without_group(prior, pieces, &test.group);
        let mut with = now;
        times(&mut with, &likelihood);
        let (before, after) = (plank_of(&now), plank_of(&with));
        let mut yes = [0.5; 7];
        for state in 0..7 {
            if before[state] > 0.0 {
                yes[state] = after[state] / before[state];
            }
        }
        candidates.push(Candidate { test: index, yes });
    }
    candidates
}

/// Mean of the weights to be expected when the one and when the other is true (half of Jeffreys' divergence).
fn expected_db(a: f64, b: f64) -> f64 {
    (0.5 * (a - b) * (decibans(a / b) - decibans((1.0 - a) / (1.0 - b)))).max(0.0)
}
