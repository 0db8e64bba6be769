//! Modes: the notes a place rings with, and how long each rings.

use crate::{RATE_HZ, db, filter::Butterworth};
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// One note in a blow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mode {
    /// Frequency, in hertz.
    pub hz: f64,
    /// Level against the strongest, in decibels.
    pub level_db: f64,
    /// Quality: π f / α of the envelope e^(-αt); missing where it does not stand above the noise long enough.
    pub q: Option<f64>,
}

/// Finds up to four peaks at least 12 dB above the median round them, between 150 Hz and 6 kHz, strongest first.
pub fn peaks(power: &[f64], bin_hz: f64) -> Vec<Mode> {
    let levels: Vec<f64> = power.iter().take((6000.0 / bin_hz) as usize + 2).map(|p| db::of_power(*p)).collect();
    let reach = (350.0 / bin_hz) as usize;
    let mut found = Vec::new();
    for i in ((150.0 / bin_hz) as usize).max(1)..levels.len().saturating_sub(1) {
        if levels[i] < levels[i - 1] || levels[i] <= levels[i + 1] {
            continue;
        }
        let mut round: Vec<f64> =
            levels[i.saturating_sub(reach)..(i + reach).min(levels.len())].iter().step_by(4).copied().collect();
        let half = round.len() / 2;
        let (_, median, _) = round.select_nth_unstable_by(half, f64::total_cmp);
        if levels[i] - *median < 6.0 {
            continue;
        }
        // The top of the parabola through three levels in decibels.
        let (a, b, c) = (levels[i - 1], levels[i], levels[i + 1]);
        let shift = if (a - 2.0 * b + c).abs() > 1e-12 { 0.5 * (a - c) / (a - 2.0 * b + c) } else { 0.0 };
        found.push((
            Mode { hz: (i as f64 + shift) * bin_hz, level_db: b - 0.25 * (a - c) * shift, q: None },
            levels[i] - *median,
        ));
    }
    found.sort_by(|a, b| b.0.level_db.total_cmp(&a.0.level_db));
    let top = found.first().map_or(0.0, |m| m.0.level_db);
    let mut kept: Vec<Mode> = Vec::new();
    for (mode, above) in found {
        let apart = kept.iter().all(|k: &Mode| (k.hz - mode.hz).abs() > 60.0);
        // The strongest always counts, so that even a shapeless thud has a note to compare.
        if kept.len() < 4 && apart && (kept.is_empty() || (above >= 12.0 && mode.level_db > top - 30.0)) {
            kept.push(Mode { level_db: mode.level_db - top, ..mode });
        }
    }
    kept
}

/// Measures the quality of a note: the sound is brought down by its frequency, freed of what lies more than 15 % away, and a
/// line is laid through the logarithm of the envelope from 5 to 25 ms after its peak, or to 6 dB above the noise. The band rings
/// itself with a quality near 9, so that lower ones read as about 9.
pub fn quality(lead: &[f64], x: &[f64], hz: f64) -> Option<f64> {
    let mut parts = [Butterworth::low_pass(0.15 * hz), Butterworth::low_pass(0.15 * hz)];
    let step = TAU * hz / f64::from(RATE_HZ);
    // The turning factor by recurrence: one multiplication instead of two functions for each sample.
    let (cos, sin) = (libm::cos(step), libm::sin(step));
    let (mut re, mut im) = (1.0, 0.0);
    let mut envelope = Vec::with_capacity(lead.len() + x.len());
    for v in lead.iter().chain(x) {
        let (a, b) = (parts[0].pass(v * re), parts[1].pass(-v * im));
        envelope.push(a * a + b * b);
        (re, im) = (re * cos - im * sin, re * sin + im * cos);
    }
    let quiet = &envelope[lead.len() / 3..lead.len().max(lead.len() / 3 + 1).min(envelope.len())];
    let noise = quiet.iter().sum::<f64>() / quiet.len().max(1) as f64;
    let after = &envelope[lead.len()..];
    let ms = f64::from(RATE_HZ) / 1000.0;
    let search = &after[..after.len().min((30.0 * ms) as usize)];
    let peak = search.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?.0;
    let from = peak + (5.0 * ms) as usize;
    let mut to = (peak + (25.0 * ms) as usize).min(after.len());
    if let Some(low) = after.get(from..to)?.iter().position(|e| *e < 4.0 * noise) {
        to = from + low;
    }
    if to < from + (3.0 * ms) as usize {
        return None;
    }
    let logs: Vec<f64> = after[from..to].iter().map(|e| 0.5 * libm::log(e.max(1e-300))).collect();
    let n = logs.len() as f64;
    let mean = logs.iter().sum::<f64>() / n;
    let (sxy, sxx) = logs.iter().enumerate().fold((0.0, 0.0), |(a, b), (i, l)| {
        let t = i as f64 - (n - 1.0) / 2.0;
        (a + t * (l - mean), b + t * t)
    });
    let alpha = -sxy / sxx * f64::from(RATE_HZ);
    if alpha > 0.0 { Some(std::f64::consts::PI * hz / alpha) } else { None }
}
