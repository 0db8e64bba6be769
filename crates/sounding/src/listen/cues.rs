//! What a sudden sound has and has not in common with a hammer blow: the cues the probability rests on.

use super::frames::{Frames, Levels};
use crate::spectrum::{Transform, fading, hann};
use crate::{RATE_HZ, db};

/// Frames after the onset that the cues look at: 52 of 2.667 ms, 139 ms.
pub const AFTER: i64 = 52;
/// Bands whose share of the first 21 ms is a cue: corners in hertz.
const BANDS: [f64; 9] = [150.0, 300.0, 500.0, 800.0, 1200.0, 1900.0, 3000.0, 5000.0, 9000.0];

/// Names of the cues, in their order.
pub const NAMES: &[&str] = &[
    "rise_db",
    "rise_low_db",
    "rise_high_db",
    "over_before_db",
    "over_before_mean_db",
    "fall_20ms_db",
    "fall_40ms_db",
    "fall_75ms_db",
    "fall_115ms_db",
    "fall_least_db",
    "fall_low_40ms_db",
    "fall_low_115ms_db",
    "fall_high_20ms_db",
    "fall_high_40ms_db",
    "high_share_db",
    "low_share_db",
    "over_floor_db",
    "over_session_db",
    "attack_ms",
    "width_10db_ms",
    "width_20db_ms",
    "kurtosis",
    "crest_db",
    "pitch_after",
    "pitch_before",
    "pulses_after",
    "pulses_before",
    "flatness",
    "flatness_later",
    "peak_over_mean_db",
    "like_before",
    "like_after",
    "ring_100ms_db",
    "straight_db",
    "floor_rise_db",
    "band_1",
    "band_2",
    "band_3",
    "band_4",
    "band_5",
    "band_6",
    "band_7",
    "band_8",
];

/// What the level of the last seconds was when a candidate came.
#[derive(Clone, Copy, Debug)]
pub struct Surroundings {
    /// Median level of the last 1.5 s, broad band, in decibels.
    pub floor_db: f64,
    /// Level that the loudest twentieth of the last 6 s exceeds, in decibels.
    pub session_db: f64,
}

/// Computes cues; keeps the planned transforms.
#[derive(Clone, Debug)]
pub struct CueMaker {
    short: Transform,
    fading: Vec<f64>,
    hann: Vec<f64>,
}

/// Length of the short spectra, in samples: 21 ms.
const SHORT: usize = 1024;

impl CueMaker {
    /// Plans the transforms.
    pub fn new() -> CueMaker {
        CueMaker { short: Transform::new(SHORT), fading: fading(SHORT), hann: hann(SHORT) }
    }

    /// Returns the cues of a sudden rise at a frame whose refined onset is at a sample.
    pub fn cues(&mut self, frames: &Frames, frame: i64, onset: i64, around: Surroundings) -> Vec<f64> {
        let level = |from: i64, to: i64, of: fn(&Levels) -> f64| {
            let levels = (frame + from..frame + to).map(move |i| of(&frames.at(i)));
            let (mut most, mut sum) = (f64::MIN, 0.0);
            for l in levels {
                most = most.max(l);
                sum += l;
            }
            (most, sum / (to - from) as f64)
        };
        let (broad, low, high) = (|l: &Levels| l.broad, |l: &Levels| l.low, |l: &Levels| l.high);
        let (peak, _) = level(0, 6, broad);
        let (peak_low, _) = level(0, 8, low);
        let (peak_high, _) = level(0, 6, high);
        let mut cues = Vec::with_capacity(NAMES.len());
        cues.push(peak - level(-12, -1, broad).0);
        cues.push(peak_low - level(-12, -1, low).0);
        cues.push(peak_high - level(-12, -1, high).0);
        cues.push(peak - level(-75, -12, broad).0);
        cues.push(peak - level(-75, -3, broad).1);
        cues.push(peak - level(5, 10, broad).1);
        cues.push(peak - level(10, 20, broad).1);
        cues.push(peak - level(20, 35, broad).1);
        cues.push(peak - level(35, AFTER, broad).1);
        cues.push(peak - level(22, AFTER, broad).0);
        cues.push(peak_low - level(10, 20, low).1);
        cues.push(peak_low - level(35, AFTER, low).1);
        cues.push(peak_high - level(5, 10, high).1);
        cues.push(peak_high - level(10, 20, high).1);
        cues.push(peak_high - peak);
        cues.push(peak_low - peak);
        cues.push(peak - around.floor_db);
        cues.push(peak - around.session_db);
        self.shape(frames, onset, &mut cues);
        voice(frames, onset, &mut cues);
        self.colour(frames, onset, &mut cues);
        // How far the fall is from a straight line in decibels until it meets the level before.
        let before = level(-40, -3, broad).1;
        cues.push(straightness(&(0..36).map(|i| frames.at(frame + 3 + i).broad).collect::<Vec<_>>(), before));
        cues.push(level(35, AFTER, broad).1 - before);
        let bands = self.bands(frames, onset);
        cues.extend(bands);
        cues
    }

    /// Attack, widths, kurtosis and crest.
    fn shape(&self, frames: &Frames, onset: i64, cues: &mut Vec<f64>) {
        let ms = f64::from(RATE_HZ) / 1000.0;
        let x = frames.copy(onset - ms as i64, (51.0 * ms) as usize, true);
        // Envelope: peak of |x| falling by 1 ms time constants, so that a wave's own zeros do not count.
        let keep = libm::exp(-1.0 / ms);
        let mut envelope = Vec::with_capacity(x.len());
        let mut e = 0.0_f64;
        for v in &x {
            e = (e * keep).max(v.abs());
            envelope.push(e);
        }
        let first = (15.0 * ms) as usize;
        let (at, most) =
            envelope[..first].iter().enumerate().fold((0, 1e-9), |b, (i, v)| if *v > b.1 { (i, *v) } else { b });
        let reach = |share: f64| envelope.iter().position(|v| *v >= share * most).unwrap_or(0) as f64;
        cues.push((reach(0.9) - reach(0.1)) / ms);
        let width = |share: f64| envelope[at..].iter().take_while(|v| **v >= share * most).count() as f64 / ms;
        cues.push(width(0.316_227_8));
        cues.push(width(0.1));
        let n = x.len() as f64;
        let mean = x.iter().sum::<f64>() / n;
        let (m2, m4) = x.iter().fold((0.0, 0.0), |(a, b), v| {
            let d = (v - mean) * (v - mean);
            (a + d, b + d * d)
        });
        let (m2, m4) = (m2 / n, m4 / n);
        cues.push(if m2 > 1e-18 { libm::log(m4 / (m2 * m2)) } else { 0.0 });
        let most = x.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        cues.push(db::of_power(most * most) - db::of_power(m2));
    }

    /// Flatness, peaks, likeness to before and after, and what still rings after 100 ms.
    fn colour(&mut self, frames: &Frames, onset: i64, cues: &mut Vec<f64>) {
        let ms = f64::from(RATE_HZ) / 1000.0;
        let mut spectrum = |from_ms: f64, fade: bool| {
            let x = frames.copy(onset + (from_ms * ms) as i64, SHORT, false);
            let p = self.short.power(&x, if fade { &self.fading } else { &self.hann });
            p[4..192].to_vec()
        };
        let (first, before, later, last) =
            (spectrum(-0.5, true), spectrum(-24.0, false), spectrum(22.0, false), spectrum(115.0, false));
        cues.push(flatness_db(&first));
        cues.push(flatness_db(&later));
        let most = first.iter().fold(0.0_f64, |m, v| m.max(*v));
        cues.push(db::of_power(most) - db::of_power(first.iter().sum::<f64>() / first.len() as f64));
        cues.push(likeness(&first, &before));
        cues.push(likeness(&first, &later));
        let (peak, _) = last.iter().enumerate().fold((0, 0.0), |b, (i, v)| if *v > b.1 { (i, *v) } else { b });
        let near = |p: &[f64]| p[peak.saturating_sub(1)..(peak + 2).min(p.len())].iter().sum::<f64>();
        cues.push(db::of_power(near(&first)) - db::of_power(near(&last)));
    }

    fn bands(&mut self, frames: &Frames, onset: i64) -> Vec<f64> {
        let ms = f64::from(RATE_HZ) / 1000.0;
        let x = frames.copy(onset - (0.5 * ms) as i64, SHORT, false);
        let p = self.short.power(&x, &self.fading);
        let bin = f64::from(RATE_HZ) / SHORT as f64;
        let sums: Vec<f64> = BANDS
            .windows(2)
            .map(|w| {
                let (a, b) = ((w[0] / bin) as usize, (w[1] / bin) as usize);
                p[a..b].iter().sum::<f64>()
            })
            .collect();
        let all = db::of_power(sums.iter().sum());
        sums.iter().map(|s| (db::of_power(*s) - all).max(-50.0)).collect()
    }
}

/// Flatness of a power spectrum, in decibels: geometric over arithmetic mean.
fn flatness_db(power: &[f64]) -> f64 {
    let n = power.len() as f64;
    let logs = power.iter().map(|p| db::of_power(*p)).sum::<f64>() / n;
    logs - db::of_power(power.iter().sum::<f64>() / n)
}

/// Correlation of two spectra in decibels, smoothed over three bins.
fn likeness(a: &[f64], b: &[f64]) -> f64 {
    let smooth = |p: &[f64]| -> Vec<f64> { p.windows(3).map(|w| db::of_power(w.iter().sum())).collect() };
    correlation(&smooth(a), &smooth(b))
}

fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let n = a.len() as f64;
    let (ma, mb) = (a.iter().sum::<f64>() / n, b.iter().sum::<f64>() / n);
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        ab += (x - ma) * (y - mb);
        aa += (x - ma) * (x - ma);
        bb += (y - mb) * (y - mb);
    }
    if aa * bb > 0.0 { ab / libm::sqrt(aa * bb) } else { 0.0 }
}

/// Deviation of levels from their own straight line, over the frames before they come within 6 dB of the level before.
fn straightness(levels: &[f64], before: f64) -> f64 {
    let n = levels.iter().position(|l| *l < before + 6.0).unwrap_or(levels.len()).max(6).min(levels.len());
    let y = &levels[..n];
    let t = |i: usize| i as f64 - (n as f64 - 1.0) / 2.0;
    let mean = y.iter().sum::<f64>() / n as f64;
    let (sxy, sxx) = y.iter().enumerate().fold((0.0, 0.0), |(a, b), (i, v)| (a + t(i) * (v - mean), b + t(i) * t(i)));
    let slope = sxy / sxx;
    let square: f64 = y.iter().enumerate().map(|(i, v)| (v - mean - slope * t(i)) * (v - mean - slope * t(i))).sum();
    libm::sqrt(square / n as f64)
}

/// How much of a voice's pitch is in the sound after and before.
fn voice(frames: &Frames, onset: i64, cues: &mut Vec<f64>) {
    let ms = f64::from(RATE_HZ) / 1000.0;
    let after = frames.copy(onset + (12.0 * ms) as i64, (80.0 * ms) as usize, false);
    let before = frames.copy(onset - (86.0 * ms) as i64, (80.0 * ms) as usize, false);
    cues.push(pitch(&decimate(&after)));
    cues.push(pitch(&decimate(&before)));
    let after = frames.copy(onset + (12.0 * ms) as i64, (110.0 * ms) as usize, true);
    let before = frames.copy(onset - (116.0 * ms) as i64, (110.0 * ms) as usize, true);
    cues.push(pulses(&after));
    cues.push(pulses(&before));
}

/// Brings samples to 8 kHz: mean of six, twice over.
fn decimate(x: &[f64]) -> Vec<f64> {
    let first: Vec<f64> = x.windows(6).map(|w| w.iter().sum::<f64>()).collect();
    first.windows(6).step_by(6).map(|w| w.iter().sum::<f64>()).collect()
}

/// Greatest autocorrelation at lags of 75 to 400 Hz, not made up for decay.
fn pitch(x: &[f64]) -> f64 {
    let energy: f64 = x.iter().map(|v| v * v).sum();
    if energy < 1e-15 {
        return 0.0;
    }
    let n = x.len();
    let lag =
        |k: usize| x[..n - k].iter().zip(&x[k..]).map(|(a, b)| a * b).sum::<f64>() / energy * n as f64 / (n - k) as f64;
    (20..107.min(n / 2)).map(lag).fold(0.0, f64::max)
}

/// Greatest autocorrelation, at lags of 75 to 350 Hz, of the logarithm of the envelope freed of its slope: pulses of a voice.
fn pulses(x: &[f64]) -> f64 {
    // Envelope at 2 kHz.
    let logs: Vec<f64> =
        x.chunks_exact(24).map(|c| db::of_power(c.iter().map(|v| v * v).sum::<f64>() / 24.0)).collect();
    let n = logs.len();
    // The slope of some 15 ms round each point is taken away.
    let half = 15;
    let flat: Vec<f64> = (0..n)
        .map(|i| {
            let w = &logs[i.saturating_sub(half)..(i + half + 1).min(n)];
            logs[i] - w.iter().sum::<f64>() / w.len() as f64
        })
        .collect();
    let energy: f64 = flat.iter().map(|v| v * v).sum();
    if energy < 1e-9 {
        return 0.0;
    }
    let lag = |k: usize| {
        flat[..n - k].iter().zip(&flat[k..]).map(|(a, b)| a * b).sum::<f64>() / energy * n as f64 / (n - k) as f64
    };
    (6..27).map(lag).fold(0.0, f64::max)
}

/// Returns the cue of that name.
pub fn value(cues: &[f64], name: &str) -> f64 {
    NAMES.iter().position(|n| *n == name).and_then(|i| cues.get(i)).copied().unwrap_or(0.0)
}
