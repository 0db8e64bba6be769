//! From the file's sample rate to the engine's.

use rubato::{FftFixedIn, Resampler as _};
use sounding::RATE_HZ;

/// Frames given to the resampler at a time.
const CHUNK: usize = 1024;

/// A resampler that takes blocks of any length and whose output begins with the first sample of its input.
pub(crate) struct Resampler {
    work: Option<FftFixedIn<f32>>,
    waiting: Vec<f32>,
    skip: usize,
    taken: u64,
    given: u64,
    rate_hz: u32,
}

impl Resampler {
    /// Makes one for a file's rate; `None` where the rate makes no sense.
    pub(crate) fn new(rate_hz: u32) -> Option<Resampler> {
        if !(1000..=768_000).contains(&rate_hz) {
            return None;
        }
        let work = if rate_hz == RATE_HZ {
            None
        } else {
            Some(FftFixedIn::new(rate_hz as usize, RATE_HZ as usize, CHUNK, 4, 1).ok()?)
        };
        let skip = work.as_ref().map_or(0, |w| w.output_delay());
        Some(Resampler { work, waiting: Vec::new(), skip, taken: 0, given: 0, rate_hz })
    }

    pub(crate) fn take(&mut self, samples: &[f32], give: &mut dyn FnMut(&[f32])) {
        if self.work.is_none() {
            give(samples);
            return;
        }
        self.taken += samples.len() as u64;
        self.waiting.extend_from_slice(samples);
        self.work_off(give, u64::MAX);
    }

    fn work_off(&mut self, give: &mut dyn FnMut(&[f32]), most: u64) {
        let Some(work) = &mut self.work else { return };
        let mut used = 0;
        loop {
            let need = work.input_frames_next();
            let Some(part) = self.waiting.get(used..used + need) else { break };
            let Ok(out) = work.process(&[part], None) else { break };
            used += need;
            let Some(out) = out.first() else { break };
            let skip = self.skip.min(out.len());
            self.skip -= skip;
            let left = usize::try_from(most.saturating_sub(self.given)).unwrap_or(usize::MAX);
            let out = &out[skip..out.len().min(skip.saturating_add(left))];
            self.given += out.len() as u64;
            give(out);
        }
        self.waiting.drain(..used);
    }

    /// Gives what is still inside, so that the length is that of the input.
    pub(crate) fn end(&mut self, give: &mut dyn FnMut(&[f32])) {
        if self.work.is_none() {
            return;
        }
        let due = (self.taken as f64 * f64::from(RATE_HZ) / f64::from(self.rate_hz)).round() as u64;
        for _ in 0..64 {
            if self.given >= due {
                break;
            }
            self.waiting.resize(self.waiting.len() + CHUNK, 0.0);
            self.work_off(give, due);
        }
    }
}
