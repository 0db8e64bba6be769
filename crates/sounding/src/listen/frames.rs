//! Levels of the sound in three bands, one frame per 128 samples, and the samples of the last moments.

use crate::{db, filter::Butterworth};
use std::collections::VecDeque;

/// Samples in one frame: 2.667 ms.
pub const HOP: usize = 128;
/// Frames kept, a power of two: 2.7 s.
const KEPT_FRAMES: usize = 1024;
/// Samples kept, a power of two: 1.4 s.
const KEPT_SAMPLES: usize = 1 << 16;

/// Levels of one frame, in decibels of full scale.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Levels {
    /// 350 to 9000 Hz.
    pub broad: f64,
    /// 70 to 350 Hz.
    pub low: f64,
    /// Above 2500 Hz.
    pub high: f64,
}

/// The filters and the short memory of the engine.
#[derive(Clone, Debug)]
pub struct Frames {
    rumble: Butterworth,
    broad: [Butterworth; 2],
    low: Butterworth,
    high: Butterworth,
    sums: [f64; 3],
    samples: Vec<f32>,
    banded: Vec<f32>,
    levels: Vec<Levels>,
    count: u64,
    limited: u32,
    clips: VecDeque<u64>,
}

impl Frames {
    /// Returns filters at rest.
    pub fn new() -> Frames {
        Frames {
            rumble: Butterworth::high_pass(70.0),
            broad: [Butterworth::high_pass(350.0), Butterworth::low_pass(9000.0)],
            low: Butterworth::low_pass(350.0),
            high: Butterworth::high_pass(2500.0),
            sums: [0.0; 3],
            samples: vec![0.0; KEPT_SAMPLES],
            banded: vec![0.0; KEPT_SAMPLES],
            levels: vec![Levels { broad: db::SILENCE_DB, low: db::SILENCE_DB, high: db::SILENCE_DB }; KEPT_FRAMES],
            count: 0,
            limited: 0,
            clips: VecDeque::new(),
        }
    }

    /// Returns how many samples are wanting until the frame that is being taken is complete.
    pub fn room(&self) -> usize {
        HOP - (self.count % HOP as u64) as usize
    }

    /// Takes samples, no more than there is [`room`](Self::room) for; tells whether a frame is complete with them.
    pub fn take(&mut self, samples: &[f32]) -> bool {
        let samples = &samples[..samples.len().min(self.room())];
        self.watch_limit(samples);
        // A frame never runs over the end of the memory, for its length divides that of the memory.
        let from = (self.count as usize) & (KEPT_SAMPLES - 1);
        let kept = self.samples[from..from + samples.len()].iter_mut().zip(&mut self.banded[from..]);
        // The filters are worked on beside the memory: in it, each sample would wait for the last to be written.
        let (mut rumble, [mut above, mut below]) = (self.rumble, self.broad);
        let (mut low, mut high, mut sums) = (self.low, self.high, self.sums);
        for (sample, (plain, banded)) in samples.iter().zip(kept) {
            let x = rumble.pass(f64::from(*sample));
            let (broad, low, high) = (above.pass(x), low.pass(x), high.pass(x));
            let broad = below.pass(broad);
            *plain = x as f32;
            *banded = broad as f32;
            sums[0] += broad * broad;
            sums[1] += low * low;
            sums[2] += high * high;
        }
        (self.rumble, self.broad, self.low, self.high, self.sums) = (rumble, [above, below], low, high, sums);
        self.count += samples.len() as u64;
        if samples.is_empty() || !self.count.is_multiple_of(HOP as u64) {
            return false;
        }
        let level = self.sums.map(|s| db::of_power(s / HOP as f64));
        let frame = (self.count / HOP as u64 - 1) as usize & (KEPT_FRAMES - 1);
        self.levels[frame] = Levels { broad: level[0], low: level[1], high: level[2] };
        self.sums = [0.0; 3];
        true
    }

    /// Remembers where more than three samples in a row stood at full scale.
    fn watch_limit(&mut self, samples: &[f32]) {
        for (n, sample) in samples.iter().enumerate() {
            if sample.abs() < 0.9995 {
                self.limited = 0;
                continue;
            }
            self.limited += 1;
            if self.limited == 4 {
                if self.clips.len() == 64 {
                    self.clips.pop_front();
                }
                self.clips.push_back(self.count + n as u64);
            }
        }
    }

    /// Tells whether the recorder's limit was met in `length` samples from a position.
    pub fn clipped(&self, from: i64, length: i64) -> bool {
        self.clips.iter().any(|c| (from..from + length).contains(&(*c as i64)))
    }

    /// Returns the number of frames completed.
    pub fn complete(&self) -> u64 {
        self.count / HOP as u64
    }

    /// Returns the levels of a frame; before the beginning all is silence.
    pub fn at(&self, frame: i64) -> Levels {
        if frame < 0 {
            return Levels { broad: db::SILENCE_DB, low: db::SILENCE_DB, high: db::SILENCE_DB };
        }
        self.levels[frame as usize & (KEPT_FRAMES - 1)]
    }

    /// Copies samples without rumble from an absolute position; what lies outside the memory is zero.
    pub fn copy(&self, from: i64, length: usize, banded: bool) -> Vec<f64> {
        let kept = if banded { &self.banded } else { &self.samples };
        let oldest = self.count.saturating_sub(KEPT_SAMPLES as u64) as i64;
        let mut out = vec![0.0; length];
        let (first, end) = (from.max(oldest), (from + length as i64).min(self.count as i64));
        let mut at = first;
        // In at most two runs, for the memory is a ring.
        while at < end {
            let place = at as usize & (KEPT_SAMPLES - 1);
            let run = ((end - at) as usize).min(KEPT_SAMPLES - place);
            let slots = &mut out[(at - from) as usize..];
            for (slot, x) in slots.iter_mut().zip(&kept[place..place + run]) {
                *slot = f64::from(*x);
            }
            at += run as i64;
        }
        out
    }
}
