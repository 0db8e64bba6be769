//! Which test next: what each would tell on average, per minute and per damage done.

use crate::network::{COMBINATIONS, Joint, fastening_of, frame_of, plank_of, times, to_one};
use crate::strongest::Piece;
use crate::wording::verbal;
use crate::{Book, Fault, PlankState, table};
use serde::{Deserialize, Serialize};

/// What the owner has allowed, each including those before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Leave {
    /// Looking, sounding, nothing that leaves a trace.
    Nothing,
    /// Marks that paint covers.
    Marks,
    /// Small holes, plugged again.
    Holes,
    /// Fastenings drawn and replaced.
    Fastenings,
    /// Planking or ceiling taken off.
    Planking,
}

impl Leave {
    /// Returns the leave in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Leave::Nothing => "nothing that leaves a trace",
            Leave::Marks => "marks that paint covers",
            Leave::Holes => "small holes, plugged again",
            Leave::Fastenings => "fastenings drawn and replaced",
            Leave::Planking => "planking or ceiling taken off",
        }
    }
}

/// One test that may be made, from `data/tests.csv`; minutes and damage are elicited, not measured.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Test {
    /// Name, e.g. `draw_a_fastening`.
    pub test: String,
    /// What to do, in words.
    pub words: String,
    /// Group of the reading it gives.
    pub group: String,
    /// The reading it asks for, yes or no.
    pub observation: String,
    /// Minutes it takes.
    pub minutes: f64,
    /// Damage it does: 0 none, 1 a mark, 2 a hole, 3 a fastening, 6 planking off.
    pub damage: f64,
    /// What the owner must have allowed.
    pub leave: Leave,
    /// Source, or `common practice`.
    pub source: String,
}

/// What a test would tell on average.
#[derive(Clone, Debug, PartialEq)]
pub struct NextTest {
    /// The test.
    pub test: Test,
    /// Expected information about the place (plank, fastening and frame together; by the plank alone when so weighed),
    /// in bits. Never negative.
    pub information_bits: f64,
    /// Expected information about the plank, in bits.
    pub plank_information_bits: f64,
    /// Information for each minute spent, in bits.
    pub bits_per_minute: f64,
    /// Information for each point of damage, in bits; `None` when the test does none.
    pub bits_per_damage: Option<f64>,
    /// Rank among the tests allowed by information for the damage done, from 1; tests that do none come first.
    pub rank_by_damage: usize,
    /// Chance that the answer is yes.
    pub chance_yes: f64,
    /// Leading state of the plank and its probability after yes.
    pub leading_if_yes: (PlankState, f64),
    /// Leading state of the plank and its probability after no.
    pub leading_if_no: (PlankState, f64),
}

pub(crate) fn read() -> Result<Vec<Test>, Fault> {
    table::rows("tests.csv", include_str!("../data/tests.csv"))
}

/// Returns the tests not yet made, best first by information a minute: those allowed, and those that need more leave.
pub(crate) fn rank(
    book: &Book,
    prior: &Joint,
    pieces: &[Piece],
    plank_only: bool,
    allowed: Leave,
) -> (Vec<NextTest>, Vec<NextTest>) {
    let mut all = Vec::new();
    for test in &book.tests {
        let Ok((reading, _)) = book.find(&test.group, &test.observation) else { continue };
        let Some(yes) = book.network.likelihood(reading, false, plank_only) else { continue };
        // A group is one witness: once read at first hand, reading it again tells nothing that is counted.
        if pieces.iter().any(|piece| piece.observation.group == test.group && !piece.observation.hearsay) {
            continue;
        }
        all.push(expected(test, &without_group(prior, pieces, &test.group), &yes, plank_only));
    }
    all.sort_by(|a, b| b.bits_per_minute.total_cmp(&a.bits_per_minute));
    let (mut now, mut with_leave): (Vec<_>, Vec<_>) = all.into_iter().partition(|next| next.test.leave <= allowed);
    rank_by_damage(&mut now);
    rank_by_damage(&mut with_leave);
    (now, with_leave)
}

/// The posterior, any hearsay of the group left out, since a first-hand reading would replace it.
pub(crate) fn without_group(prior: &Joint, pieces: &[Piece], group: &str) -> Joint {
    let mut joint = *prior;
    for piece in pieces.iter().filter(|piece| piece.observation.group != group) {
        times(&mut joint, &piece.likelihood);
    }
    to_one(&mut joint);
    joint
}

pub(crate) fn leading(plank: &[f64; 7]) -> (PlankState, f64) {
    let mut best = (PlankState::Sound, plank[0]);
    for state in crate::PLANK_STATES {
        if plank[state.index()] > best.1 {
            best = (state, plank[state.index()]);
        }
    }
    best
}

fn expected(test: &Test, now: &Joint, yes: &Joint, plank_only: bool) -> NextTest {
    let mut with_yes = *now;
    times(&mut with_yes, yes);
    let mut with_no = *now;
    for (share, p) in with_no.iter_mut().zip(yes) {
        *share *= 1.0 - p;
    }
    let plank_now = plank_of(now);
    let plank_yes = plank_of(&with_yes);
    let chance_yes: f64 = plank_yes.iter().sum();
    // Mutual information of a yes-or-no answer: H(answer) less the mean of H(answer | state).
    let before = doubt(chance_yes);
    let by_plank: f64 =
        (0..7).filter(|h| plank_now[*h] > 0.0).map(|h| plank_now[h] * doubt(plank_yes[h] / plank_now[h])).sum();
    let plank_information_bits = (before - by_plank).max(0.0);
    let information_bits = if plank_only { plank_information_bits } else { (before - doubt_left(now, yes)).max(0.0) };
    to_one(&mut with_yes);
    to_one(&mut with_no);
    NextTest {
        information_bits,
        plank_information_bits,
        bits_per_minute: information_bits / test.minutes,
        bits_per_damage: (test.damage > 0.0).then(|| information_bits / test.damage),
        rank_by_damage: 0,
        chance_yes,
        leading_if_yes: leading(&plank_of(&with_yes)),
        leading_if_no: leading(&plank_of(&with_no)),
        test: test.clone(),
    }
}

/// Mean of H(answer | combination). Neighbouring combinations mostly share a likelihood, whose doubt is kept.
fn doubt_left(now: &Joint, yes: &Joint) -> f64 {
    let mut known = (f64::NAN, 0.0);
    let mut left = 0.0;
    for index in 0..COMBINATIONS {
        if yes[index] != known.0 {
            known = (yes[index], doubt(yes[index]));
        }
        left += now[index] * known.1;
    }
    left
}

/// Entropy of a yes-or-no answer in bits.
fn doubt(p: f64) -> f64 {
    let term = |p: f64| if p > 0.0 { -p * libm::log2(p) } else { 0.0 };
    term(p) + term(1.0 - p)
}

fn rank_by_damage(tests: &mut [NextTest]) {
    let key = |next: &NextTest| next.bits_per_damage.unwrap_or(f64::INFINITY);
    let mut order: Vec<usize> = (0..tests.len()).collect();
    order.sort_by(|a, b| {
        key(&tests[*b])
            .total_cmp(&key(&tests[*a]))
            .then(tests[*b].information_bits.total_cmp(&tests[*a].information_bits))
    });
    for (rank, index) in order.into_iter().enumerate() {
        tests[index].rank_by_damage = rank + 1;
    }
}

impl NextTest {
    /// Returns the test and what it would tell, one sentence.
    pub fn sentence(&self) -> String {
        format!(
            "To {}: about {:.0} minutes, {:.2} bits; a yes is {}.",
            self.test.words,
            self.test.minutes,
            self.information_bits,
            verbal(self.chance_yes)
        )
    }
}

/// Returns fastening and frame shares of a joint, for the answer.
pub(crate) fn behind(joint: &Joint) -> ([f64; 3], [f64; 4]) {
    (fastening_of(joint), frame_of(joint))
}
