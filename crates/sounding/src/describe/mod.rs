//! Features of one blow.
use crate::listen::Candidate;
use crate::{Blow, RATE_HZ};

/// Describes blows.
#[derive(Clone, Debug)]
pub struct Describer;
impl Describer {
    /// New.
    pub fn new() -> Describer {
        Describer
    }
    /// Blow.
    pub(crate) fn blow<T>(&mut self, _frames: &T, candidate: &Candidate) -> Blow {
        Blow { time_s: candidate.onset as f64 / f64::from(RATE_HZ), probability: candidate.probability }
    }
}
