//! Reports laid out to be looked at, kept so that turning a page does not typeset again.

use report::Pages;
use std::sync::{Arc, Mutex, PoisonError};
use survey::{Digest, SurveyId};

/// How many reports are held.
const HELD: usize = 4;

/// What a layout depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Of {
    /// The survey.
    pub survey: SurveyId,
    /// Digest of the field book.
    pub field_book: Digest,
    /// The paper.
    pub paper: report::Paper,
    /// Whether feet and inches come first.
    pub imperial_first: bool,
}

/// The layouts last asked for, the latest at the end.
#[derive(Default)]
pub struct Previews {
    held: Mutex<Vec<(Of, Arc<Pages>)>>,
}

impl Previews {
    /// Returns a layout, made anew only where it is not held. One is made at a time: pages asked for together wait
    /// for the same one. Blocks.
    pub fn pages<E>(&self, of: Of, make: impl FnOnce() -> Result<Pages, E>) -> Result<Arc<Pages>, E> {
        let mut held = self.held.lock().unwrap_or_else(PoisonError::into_inner);
        let pages = match held.iter().position(|(other, _)| *other == of) {
            Some(found) => held.remove(found).1,
            None => Arc::new(make()?),
        };
        // An older state of the same survey is not asked for again.
        held.retain(|(other, _)| other.survey != of.survey || other.field_book == of.field_book);
        held.push((of, Arc::clone(&pages)));
        let surplus = held.len().saturating_sub(HELD);
        held.drain(..surplus);
        Ok(pages)
    }
}
