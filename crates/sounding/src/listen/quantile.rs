//! Running quantile of levels over the last frames, by counting them in steps of a quarter decibel.

use crate::db::SILENCE_DB;

const STEP_DB: f64 = 0.25;
const STEPS: usize = 640;

/// The last `length` levels and how many lie in each step.
#[derive(Clone, Debug)]
pub struct Quantile {
    counts: Vec<u32>,
    kept: Vec<u16>,
    next: usize,
    filled: usize,
}

impl Quantile {
    /// Returns an empty memory of `length` levels.
    pub fn new(length: usize) -> Quantile {
        Quantile { counts: vec![0; STEPS], kept: vec![0; length.max(1)], next: 0, filled: 0 }
    }

    /// Takes a level, in decibels.
    pub fn take(&mut self, level_db: f64) {
        let step = (((level_db - SILENCE_DB) / STEP_DB) as usize).min(STEPS - 1);
        if self.filled == self.kept.len() {
            self.counts[usize::from(self.kept[self.next])] -= 1;
        } else {
            self.filled += 1;
        }
        self.counts[step] += 1;
        self.kept[self.next] = step as u16;
        self.next = (self.next + 1) % self.kept.len();
    }

    /// Returns the level that a share of the last levels does not exceed.
    pub fn at(&self, share: f64) -> f64 {
        let goal = (share * self.filled as f64) as u32;
        let mut below = 0;
        for (step, count) in self.counts.iter().enumerate() {
            below += count;
            if below > goal {
                return SILENCE_DB + (step as f64 + 0.5) * STEP_DB;
            }
        }
        SILENCE_DB
    }
}
