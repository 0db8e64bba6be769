//! Features of one blow, by which it is compared with others.

mod colour;
mod mel;
mod modes;
mod shape;

pub use colour::{BANDS_HZ, Colour};
pub use mel::{Cepstrum, KEPT};
pub use modes::{Mode, peaks, quality};
pub use shape::{
    OCTAVES_HZ, attack_ms, chatter_db, crest_and_kurtosis, crossings_per_s, decay_ms, t60_ms, time_centroid_ms,
};

use crate::{
    RATE_HZ, db,
    filter::Butterworth,
    spectrum::{Transform, fading},
};
use serde::{Deserialize, Serialize};

/// Length of the spectrum, padded with zeros.
const LENGTH: usize = 8192;
/// Samples of the analysed 60 ms, from 1 ms before the onset.
const FRAME: usize = 2880;
/// Samples before the onset that a description needs: 200 ms.
pub const LEAD: usize = 9600;
/// Samples after the onset that a description looks at: 134 ms.
pub const TAIL: usize = 6432;

/// Features of one blow. Levels are in decibels of full scale.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Description {
    /// Energy over 80 ms, 10 log₁₀ Σx², in decibels.
    pub level_db: f64,
    /// Greatest magnitude, in decibels of full scale.
    pub peak_db: f64,
    /// Energy of the first 100 ms over that of as much noise before, in decibels.
    pub snr_db: f64,
    /// Centre of the power, in hertz.
    pub centroid_hz: f64,
    /// Spread of the power, in hertz.
    pub bandwidth_hz: f64,
    /// Frequency below which 85 % of the power lies, in hertz.
    pub rolloff_hz: f64,
    /// Geometric over arithmetic mean of the power spectrum.
    pub flatness: f64,
    /// Share of 150-500, 500-1000, 1000-2000, 2000-4000 and 4000-8000 Hz, in decibels.
    pub bands_db: [f64; 5],
    /// Up to four notes, strongest first.
    pub modes: Vec<Mode>,
    /// Centre of the energy in time, over 80 ms, in milliseconds.
    pub time_centroid_ms: f64,
    /// Time from 10 % to 90 % of the peak, in milliseconds.
    pub attack_ms: f64,
    /// Peak over root mean square over 50 ms, in decibels.
    pub crest_db: f64,
    /// Excess kurtosis over 50 ms.
    pub kurtosis: f64,
    /// Changes of sign per second, over 30 ms.
    pub crossings_per_s: f64,
    /// Time of a fall by 60 dB of the whole sound above 150 Hz, in milliseconds.
    pub decay_ms: Option<f64>,
    /// The same in octaves about 250, 500, 1000, 2000 and 4000 Hz.
    pub octave_decay_ms: [Option<f64>; 5],
    /// Cepstral coefficients 1 to 12.
    pub mfcc: [f64; KEPT],
    /// Second peak 3 to 12 ms after the first, against it, in decibels.
    pub chatter_db: Option<f64>,
    /// Whether the recorder's limit was met.
    pub clipped: bool,
}

impl Description {
    /// Returns the strongest note, in hertz; 0 where there is none.
    pub fn dominant_hz(&self) -> f64 {
        self.modes.first().map_or(0.0, |m| m.hz)
    }
}

/// Describes blows; keeps the planned transform.
#[derive(Clone, Debug)]
pub struct Describer {
    transform: Transform,
    cepstrum: Cepstrum,
    window: Vec<f64>,
}

impl Default for Describer {
    fn default() -> Describer {
        Describer::new()
    }
}

impl Describer {
    /// Plans the transform.
    pub fn new() -> Describer {
        Describer {
            transform: Transform::new(LENGTH),
            window: fading(FRAME),
            cepstrum: Cepstrum::new(f64::from(RATE_HZ) / LENGTH as f64, LENGTH / 2 + 1),
        }
    }

    /// Returns the power spectrum of a blow less that of the noise before it, floored at 5 %, and the spacing of its bins in
    /// hertz. `x` begins [`LEAD`] samples before the onset.
    pub fn spectrum(&mut self, x: &[f64]) -> (Vec<f64>, f64) {
        let ms = RATE_HZ as usize / 1000;
        let from = LEAD - ms;
        let mut power = self.transform.power(&x[from..(from + FRAME).min(x.len())], &self.window);
        let before = LEAD - 20 * ms - FRAME;
        let noise = self.transform.power(&x[before..before + FRAME], &self.window);
        for (p, n) in power.iter_mut().zip(noise) {
            *p = (*p - n).max(0.05 * *p);
        }
        (power, f64::from(RATE_HZ) / LENGTH as f64)
    }

    /// Describes the blow in samples that begin [`LEAD`] before its onset and go on [`TAIL`] after it. Missing samples count as
    /// silence. `clipped` is told by who saw the samples as they came.
    pub fn describe(&mut self, samples: &[f64], clipped: bool) -> Description {
        let mut x = samples.to_vec();
        x.resize(LEAD + TAIL, 0.0);
        let (power, bin_hz) = self.spectrum(&x);
        let colour = Colour::of(&power, bin_hz);
        let at = |from_ms: usize, to_ms: usize| &x[LEAD + from_ms * 48..LEAD + to_ms * 48];
        let lead = &x[LEAD - 80 * 48..LEAD - 48];
        let energy = |part: &[f64]| part.iter().map(|v| v * v).sum::<f64>();
        let (level, peak) = (energy(at(0, 80)), at(0, 80).iter().fold(0.0_f64, |m, v| m.max(v.abs())));
        let (crest_db, kurtosis) = crest_and_kurtosis(at(0, 50));
        let mut modes = peaks(&power, bin_hz);
        for mode in &mut modes {
            mode.q = quality(lead, &x[LEAD..], mode.hz);
        }
        let mut steady = Butterworth::high_pass(150.0);
        let filtered: Vec<f64> = x[LEAD - 480..LEAD + 30 * 48].iter().map(|v| steady.pass(*v)).collect();
        let noise = energy(lead) * 100.0 / 79.0;
        Description {
            level_db: db::of_power(level),
            peak_db: db::of_power(peak * peak),
            snr_db: db::of_power(energy(at(0, 100))) - db::of_power(noise),
            centroid_hz: colour.centroid_hz,
            bandwidth_hz: colour.bandwidth_hz,
            rolloff_hz: colour.rolloff_hz,
            flatness: colour.flatness,
            bands_db: colour.bands_db,
            modes,
            time_centroid_ms: time_centroid_ms(at(0, 80)),
            attack_ms: attack_ms(at(0, 50)),
            crest_db,
            kurtosis,
            crossings_per_s: crossings_per_s(&filtered[480..]),
            decay_ms: t60_ms(lead, &x[LEAD..], 150.0, 10_000.0),
            octave_decay_ms: OCTAVES_HZ.map(|f| {
                let half = std::f64::consts::SQRT_2;
                t60_ms(lead, &x[LEAD..], f / half, f * half)
            }),
            mfcc: self.cepstrum.of(&power),
            chatter_db: chatter_db(at(0, 20)),
            clipped,
        }
    }
}

/// Returns the power spectrum of a blow's 60 ms with nothing subtracted, and the spacing of its bins in hertz. `x` begins
/// [`LEAD`] samples before the onset.
pub fn power_of_frame(x: &[f64]) -> (Vec<f64>, f64) {
    let from = LEAD - RATE_HZ as usize / 1000;
    let part = x.get(from..(from + FRAME).min(x.len())).unwrap_or(&[]);
    (Transform::new(LENGTH).power(part, &fading(FRAME)), f64::from(RATE_HZ) / LENGTH as f64)
}
