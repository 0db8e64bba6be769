//! What surveys say now, kept in memory between requests, so that only new entries are folded.

use std::sync::{Arc, Mutex, PoisonError};
use store::{Position, Store, StoreFault};
use survey::{State, SurveyId};

/// How many surveys are held in memory.
const HELD: usize = 8;

/// Entries read at a time.
const BATCH: usize = 500;

/// The states last read, the one that changed last at the end.
#[derive(Default)]
pub struct Folded {
    held: Mutex<Vec<(SurveyId, Position, Arc<State>)>>,
}

impl Folded {
    /// Returns what a survey says now, and the position up to which it was read. A survey of which nothing is kept
    /// has an empty state. Blocks while it reads.
    pub fn state(&self, store: &dyn Store, survey: SurveyId) -> Result<(Position, Arc<State>), StoreFault> {
        let found =
            self.lock().iter().find(|(held, ..)| *held == survey).map(|(_, at, state)| (*at, Arc::clone(state)));
        let (mut position, mut state) = found.unwrap_or_else(|| (Position::START, Arc::new(State::new(survey))));
        let mut batch = store.entries_since(survey, position, BATCH)?;
        if batch.is_empty() {
            return Ok((position, state));
        }
        // It is let go of while it is read on, so that it is copied only where another request still reads it.
        self.lock().retain(|(held, at, _)| *held != survey || *at > position);
        while let Some((last, _)) = batch.last() {
            position = *last;
            let state = Arc::make_mut(&mut state);
            for (_, entry) in batch {
                state.take(entry);
            }
            batch = store.entries_since(survey, position, BATCH)?;
        }
        let mut held = self.lock();
        // Two requests may have read on at once; the one that came further counts.
        if !held.iter().any(|(other, at, _)| *other == survey && *at > position) {
            held.retain(|(other, ..)| *other != survey);
            held.push((survey, position, Arc::clone(&state)));
            let surplus = held.len().saturating_sub(HELD);
            held.drain(..surplus);
        }
        drop(held);
        Ok((position, state))
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Vec<(SurveyId, Position, Arc<State>)>> {
        self.held.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
