//! One reading a group: the strongest counts, the others are set aside and named.

use crate::book::Likelihood;
use crate::network::Joint;
use crate::{Book, Fault, Observation, PlankState, table};
use serde::Deserialize;

/// A reading that was not counted, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Group of the reading.
    pub group: String,
    /// The reading.
    pub reading: String,
    /// Why it was not counted, one sentence.
    pub why: String,
}

/// Two readings of one group that cannot both be true of one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// Their group.
    pub group: String,
    /// One reading.
    pub first: String,
    /// The other.
    pub second: String,
    /// Why they cannot both be true.
    pub why: String,
    /// Leading state and its probability if only the first is true.
    pub leading_if_first: (PlankState, f64),
    /// Leading state and its probability if only the second is true.
    pub leading_if_second: (PlankState, f64),
}

/// Two readings that exclude each other, from `data/contradictions.csv`.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Exclusion {
    group: String,
    first: String,
    second: String,
    why: String,
}

/// One observation with its likelihood over all combinations, tempered by its share.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    pub observation: Observation,
    pub reading: usize,
    pub complement: bool,
    /// Share of its decibans at which it counts.
    pub share: f64,
    pub likelihood: Joint,
    /// How far it sets states apart, in decibans.
    reach_db: f64,
}

pub(crate) fn read() -> Result<Vec<Exclusion>, Fault> {
    table::rows("contradictions.csv", include_str!("../data/contradictions.csv"))
}

/// Returns every observation as a piece, in the order given, and those that the plank's table cannot weigh.
pub(crate) fn pieces(
    book: &Book,
    observations: &[Observation],
    plank_only: bool,
) -> Result<(Vec<Piece>, Vec<SetAside>), Fault> {
    let mut pieces = Vec::new();
    let mut aside = Vec::new();
    for observation in observations {
        let (reading, complement) = book.find(&observation.group, &observation.reading)?;
        let mut share = 1.0;
        if observation.hearsay {
            share *= book.settings.hearsay_share;
        }
        if observation.doubtful {
            share *= book.settings.doubtful_share;
        }
        let Some(mut likelihood) = book.network.likelihood(reading, complement, plank_only) else {
            let why = "it speaks of the frame, which weighing by the plank alone leaves out".to_owned();
            aside.push(SetAside { group: observation.group.clone(), reading: observation.reading.clone(), why });
            continue;
        };
        if share != 1.0 {
            for p in &mut likelihood {
                *p = libm::pow(*p, share);
            }
        }
        let reach_db = share * reach_db(book, reading, complement);
        pieces.push(Piece { observation: observation.clone(), reading, complement, share, likelihood, reach_db });
    }
    Ok((pieces, aside))
}

/// Keeps the strongest piece of every group, in the order of the book, and names the others.
///
/// What the surveyor found beats what somebody said; then the reading counts that sets two states furthest apart. The
/// order in which readings were taken plays no part.
pub(crate) fn strongest(book: &Book, mut pieces: Vec<Piece>) -> (Vec<Piece>, Vec<SetAside>) {
    pieces.sort_by(|a, b| {
        let hearsay = a.observation.hearsay.cmp(&b.observation.hearsay);
        hearsay
            .then(b.reach_db.total_cmp(&a.reach_db))
            .then(a.reading.cmp(&b.reading))
            .then(a.complement.cmp(&b.complement))
    });
    let mut kept: Vec<Piece> = Vec::new();
    let mut aside = Vec::new();
    for piece in pieces {
        let group = &book.readings[piece.reading].group;
        match kept.iter().find(|other| book.readings[other.reading].group == *group) {
            Some(counted) => aside.push(SetAside {
                group: group.clone(),
                reading: piece.observation.reading.clone(),
                why: format!(
                    "readings of the group {group} are one witness, and {} is the strongest",
                    counted.observation.reading
                ),
            }),
            None => kept.push(piece),
        }
    }
    kept.sort_by_key(|piece| piece.reading);
    (kept, aside)
}

/// Returns the pairs of pieces that contradict each other, each pair of readings once, and why.
pub(crate) fn contradictions(book: &Book, pieces: &[Piece]) -> Vec<(usize, usize, String)> {
    let mut found: Vec<(usize, usize, String)> = Vec::new();
    for (i, a) in pieces.iter().enumerate() {
        for (j, b) in pieces.iter().enumerate().skip(i + 1) {
            let same = |pair: &(usize, usize, String)| {
                let key = |k: usize| (pieces[k].reading, pieces[k].complement);
                let (x, y) = ((a.reading, a.complement), (b.reading, b.complement));
                (key(pair.0), key(pair.1)) == (x, y) || (key(pair.0), key(pair.1)) == (y, x)
            };
            if found.iter().any(same) {
                continue;
            }
            if let Some(why) = at_odds(book, a, b) {
                found.push((i, j, why));
            }
        }
    }
    found
}

fn at_odds(book: &Book, a: &Piece, b: &Piece) -> Option<String> {
    if a.reading == b.reading {
        let why = "one says what the other denies".to_owned();
        return (a.complement != b.complement).then_some(why);
    }
    if a.complement || b.complement {
        return None;
    }
    let (first, second) = (&book.readings[a.reading], &book.readings[b.reading]);
    let named = |x: &Exclusion| {
        x.group == first.group
            && x.group == second.group
            && ((x.first == first.name && x.second == second.name)
                || (x.first == second.name && x.second == first.name))
    };
    book.exclusions.iter().find(|x| named(x)).map(|x| x.why.clone())
}

/// How far a reading sets two states of the part it speaks of apart, in decibans.
fn reach_db(book: &Book, reading: usize, complement: bool) -> f64 {
    let p: &[f64] = match &book.readings[reading].likelihood {
        Likelihood::Plank(p) => p,
        Likelihood::Frame(p) => p,
    };
    let p = p.iter().map(|p| if complement { 1.0 - p } else { *p });
    let (low, high) = p.fold((f64::INFINITY, 0.0f64), |(low, high), p| (low.min(p), high.max(p)));
    10.0 * libm::log10(high / low)
}
