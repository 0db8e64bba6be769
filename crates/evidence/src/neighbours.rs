//! How neighbouring places inform each other a little.

use crate::network::{Joint, plank_of, times};
use crate::strongest::{pieces, strongest};
use crate::wording::decibans;
use crate::{Book, Fault, Neighbour};

/// What the neighbours multiply each state of the plank by, brought to a geometric mean of one.
///
/// Each neighbour's own readings, counted by the same rules, give a likelihood for each state there; it counts here at the
/// settings' `neighbour_share` of its decibans, and all neighbours together never set two states further apart than
/// `neighbour_most_db`. Only readings pass, never what a neighbour learnt from its own neighbours, so nothing echoes.
pub(crate) fn multipliers(book: &Book, neighbours: &[Neighbour], plank_only: bool) -> Result<[f64; 7], Fault> {
    let mut log_sum = [0.0; 7];
    let even: Joint = book.network.prior(&[1.0; 7]);
    for neighbour in neighbours {
        let (all, _) = pieces(book, &neighbour.observations, plank_only)?;
        let (kept, _) = strongest(book, all);
        let mut joint = even;
        for piece in &kept {
            times(&mut joint, &piece.likelihood);
        }
        for (sum, likelihood) in log_sum.iter_mut().zip(plank_of(&joint)) {
            *sum += book.settings.neighbour_share * decibans(likelihood);
        }
    }
    let spread = log_sum.iter().copied().fold(f64::NEG_INFINITY, f64::max)
        - log_sum.iter().copied().fold(f64::INFINITY, f64::min);
    let most = book.settings.neighbour_most_db;
    let scale = if spread > most { most / spread } else { 1.0 };
    let mean = log_sum.iter().sum::<f64>() / 7.0;
    Ok(log_sum.map(|db| libm::pow(10.0, (db - mean) * scale / 10.0)))
}
