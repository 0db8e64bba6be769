//! Finding blows in a stream of samples.

mod cues;
mod frames;
mod quantile;
mod score;

pub use cues::NAMES as CUE_NAMES;
pub use frames::HOP;

use crate::{
    Blow, RATE_HZ, db,
    describe::{Describer, LEAD, TAIL},
};
use cues::{AFTER, CueMaker, Surroundings};
use frames::Frames;
use quantile::Quantile;
use score::Score;
use std::collections::VecDeque;

/// Frames within which a candidate may not follow another: 21 ms.
const APART: i64 = 8;

/// Probability from which a sudden sound counts as a blow.
pub const LIKELY: f64 = 0.5;

/// A sudden rise that waits until enough of what follows has been heard.
#[derive(Clone, Copy, Debug)]
struct Rise {
    frame: i64,
    around: Surroundings,
}

/// A sudden sound with what tells a blow from other sounds.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Onset, in samples from the beginning.
    pub onset: i64,
    /// Level of the loudest frame, in decibels of full scale.
    pub level_db: f64,
    /// Cues, in the order of [`CUE_NAMES`].
    pub cues: Vec<f64>,
    /// Probability that this is a hammer blow.
    pub probability: f64,
}

/// The engine: takes samples at [`RATE_HZ`], one channel, in blocks of any size, and gives blows as soon as they are known,
/// at most 150 ms of sound after they fell. Its memory does not grow.
///
/// The same samples give the same blows however they are cut into blocks.
#[derive(Clone, Debug)]
pub struct Listener {
    frames: Frames,
    floor: Quantile,
    session: Quantile,
    rises: VecDeque<Rise>,
    last_rise: i64,
    last_blow: Option<(i64, f64)>,
    maker: CueMaker,
    score: Score,
    describer: Describer,
    heard: Heard,
    padding: bool,
}

/// What a listener can say about the sound as a whole.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heard {
    /// Samples taken.
    pub samples: u64,
    /// Samples that were not numbers and were taken as zero.
    pub not_numbers: u64,
    /// Samples at full scale.
    pub at_full_scale: u64,
    /// Greatest magnitude.
    pub peak: f64,
    /// Sudden rises looked at.
    pub rises: u64,
    /// Of those, taken for blows.
    pub blows: u64,
}

impl Default for Listener {
    fn default() -> Listener {
        Listener::new()
    }
}

impl Listener {
    /// Returns a listener that has heard nothing yet.
    pub fn new() -> Listener {
        Listener {
            frames: Frames::new(),
            floor: Quantile::new(562),
            session: Quantile::new(2250),
            rises: VecDeque::new(),
            last_rise: i64::MIN / 2,
            last_blow: None,
            maker: CueMaker::new(),
            score: Score::built_in(),
            describer: Describer::new(),
            heard: Heard::default(),
            padding: false,
        }
    }

    /// Takes samples and returns the blows known with them, in order.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Blow> {
        let mut blows = Vec::new();
        self.each_candidate(samples, &mut |listener, candidate| {
            if let Some(blow) = listener.settle(candidate) {
                blows.push(blow);
            }
        });
        blows
    }

    /// Takes samples and returns every sudden sound looked at, blow or not: for choosing and testing the weights.
    pub fn push_for_candidates(&mut self, samples: &[f32]) -> Vec<Candidate> {
        let mut all = Vec::new();
        self.each_candidate(samples, &mut |_, candidate| all.push(candidate));
        all
    }

    /// Ends the sound: blows whose tail was cut off by the end are judged with silence after it.
    pub fn finish(&mut self) -> Vec<Blow> {
        self.padding = true;
        let silence = vec![0.0; (AFTER as usize + 8) * HOP];
        let blows = self.push(&silence);
        self.padding = false;
        blows
    }

    /// Returns what was heard so far.
    pub fn heard(&self) -> Heard {
        self.heard
    }

    fn each_candidate(&mut self, samples: &[f32], take: &mut dyn FnMut(&mut Listener, Candidate)) {
        let mut rest = samples;
        while !rest.is_empty() {
            let (now, later) = rest.split_at(self.frames.room().min(rest.len()));
            rest = later;
            let mut taken = [0.0; HOP];
            let taken = &mut taken[..now.len()];
            self.look_over(now, taken);
            if self.frames.take(taken) {
                self.frame(take);
            }
        }
    }

    /// Copies samples; what is no number is silence. Counts what can be said of the sound as a whole.
    fn look_over(&mut self, samples: &[f32], into: &mut [f32]) {
        let (mut peak, mut at_full_scale, mut not_numbers) = (0.0_f32, 0_u32, 0_u32);
        for (slot, sample) in into.iter_mut().zip(samples) {
            let is_number = sample.is_finite();
            *slot = if is_number { sample.clamp(-8.0, 8.0) } else { 0.0 };
            not_numbers += u32::from(!is_number);
            peak = peak.max(slot.abs());
            at_full_scale += u32::from(slot.abs() > 0.9995);
        }
        self.heard.not_numbers += u64::from(not_numbers);
        if !self.padding {
            self.heard.samples += samples.len() as u64;
            self.heard.peak = self.heard.peak.max(f64::from(peak));
            self.heard.at_full_scale += u64::from(at_full_scale);
        }
    }

    /// One more frame of levels: is there a rise, and has enough been heard after an earlier one?
    fn frame(&mut self, take: &mut dyn FnMut(&mut Listener, Candidate)) {
        let now = self.frames.complete() as i64 - 1;
        let levels = self.frames.at(now);
        if now - self.last_rise >= APART && self.is_sudden(now) {
            let (floor_db, session_db) = (self.floor.at(0.5), self.session.at(0.95));
            if levels.broad >= floor_db + 5.0 {
                self.last_rise = now;
                self.rises.push_back(Rise { frame: now, around: Surroundings { floor_db, session_db } });
            }
        }
        self.floor.take(levels.broad);
        self.session.take(levels.broad);
        while let Some(rise) = self.rises.front().copied() {
            if now < rise.frame + AFTER {
                break;
            }
            self.rises.pop_front();
            self.heard.rises += 1;
            let candidate = self.candidate(rise);
            take(self, candidate);
        }
    }

    /// Tells whether the level jumps over that of the 30 ms before.
    fn is_sudden(&self, now: i64) -> bool {
        let levels = self.frames.at(now);
        if levels.broad < -85.0 {
            return false;
        }
        let (mut broad, mut high) = (f64::MIN, f64::MIN);
        for i in now - 11..now {
            let before = self.frames.at(i);
            broad = broad.max(before.broad);
            high = high.max(before.high);
        }
        levels.broad - broad > 5.0 || (levels.high - high > 9.0 && levels.broad - broad > 1.0)
    }

    fn candidate(&mut self, rise: Rise) -> Candidate {
        let onset = self.onset(rise.frame);
        let cues = self.maker.cues(&self.frames, rise.frame, onset, rise.around);
        let level_db = (0..6).map(|i| self.frames.at(rise.frame + i).broad).fold(db::SILENCE_DB, f64::max);
        let probability = self.score.probability(&cues);
        Candidate { onset, level_db, cues, probability }
    }

    /// Finds the first moment of contact: where the band first passes a tenth of its peak and what was there before.
    fn onset(&self, frame: i64) -> i64 {
        let hop = HOP as i64;
        let from = (frame - 2) * hop;
        let x = self.frames.copy(from, 6 * HOP, true);
        let before = self.frames.copy(from - 8 * hop, 8 * HOP, true);
        let most = x.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        let before = before.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        let gate = (0.12 * most).max(1.1 * before).min(0.5 * most);
        from + x.iter().position(|v| v.abs() >= gate).unwrap_or(2 * HOP) as i64 - (f64::from(RATE_HZ) * 0.0002) as i64
    }

    fn settle(&mut self, candidate: Candidate) -> Option<Blow> {
        if candidate.probability < LIKELY {
            return None;
        }
        if let Some((at, level)) = self.last_blow {
            let gap_ms = (candidate.onset - at) as f64 * 1000.0 / f64::from(RATE_HZ);
            if gap_ms < 90.0 && candidate.level_db < level + 3.0 {
                return None;
            }
        }
        self.last_blow = Some((candidate.onset, candidate.level_db));
        self.heard.blows += 1;
        Some(self.describe(&candidate))
    }

    fn describe(&mut self, candidate: &Candidate) -> Blow {
        let samples = self.frames.copy(candidate.onset - LEAD as i64, LEAD + TAIL, false);
        let clipped = self.frames.clipped(candidate.onset - 96, 30 * 48);
        let description = self.describer.describe(&samples, clipped);
        let cue = |name: &str| cues::value(&candidate.cues, name);
        // Within 8 dB of the loudest before, or a voice's pulses after: something lies under the blow.
        let overlapped = cue("over_before_db") < 8.0 || (cue("pitch_after") > 0.75 && cue("fall_115ms_db") < 15.0);
        let double = self.doubled(candidate);
        Blow {
            time_s: candidate.onset.max(0) as f64 / f64::from(RATE_HZ),
            probability: candidate.probability,
            description,
            overlapped,
            double,
        }
    }

    /// Tells whether the level rises by 8 dB to within 12 dB of the peak again, 16 to 135 ms after the onset.
    fn doubled(&self, candidate: &Candidate) -> bool {
        let first = candidate.onset.max(0) / HOP as i64;
        let level = |i: i64| self.frames.at(i).broad;
        let peak = candidate.level_db;
        (first + 6..first + 49).any(|i| {
            let before = (i - 4..i).map(level).fold(f64::MIN, f64::max);
            level(i) > before + 8.0 && level(i) > peak - 12.0
        })
    }
}
