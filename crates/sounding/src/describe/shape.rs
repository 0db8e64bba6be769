//! Features of the course of a blow in time. All take samples from the onset at the engine's rate.

use crate::{RATE_HZ, db, filter::Butterworth};

fn samples(ms: f64) -> usize {
    (ms * f64::from(RATE_HZ) / 1000.0) as usize
}

/// Returns the centre of the energy in time, Σ t x² / Σ x², in milliseconds.
pub fn time_centroid_ms(x: &[f64]) -> f64 {
    let (moment, energy) = x.iter().enumerate().fold((0.0, 0.0), |(m, e), (i, v)| (m + i as f64 * v * v, e + v * v));
    if energy > 0.0 { moment / energy * 1000.0 / f64::from(RATE_HZ) } else { 0.0 }
}

/// Returns the time from 10 % to 90 % of the peak of the root mean square over 1 ms, in milliseconds.
pub fn attack_ms(x: &[f64]) -> f64 {
    let width = samples(1.0);
    let mut sum: f64 = x.iter().take(width).map(|v| v * v).sum();
    let mut envelope = vec![sum];
    for (old, new) in x.iter().zip(x.iter().skip(width)) {
        sum += new * new - old * old;
        envelope.push(sum);
    }
    let most = envelope.iter().fold(0.0_f64, |m, v| m.max(*v));
    let reach = |share: f64| envelope.iter().position(|v| *v >= share * share * most).unwrap_or(0) as f64;
    (reach(0.9) - reach(0.1)) * 1000.0 / f64::from(RATE_HZ)
}

/// Returns the peak over the root mean square, in decibels, and the excess kurtosis.
pub fn crest_and_kurtosis(x: &[f64]) -> (f64, f64) {
    let n = x.len().max(1) as f64;
    let mean = x.iter().sum::<f64>() / n;
    let (mut square, mut fourth, mut peak, mut power) = (0.0, 0.0, 0.0_f64, 0.0);
    for v in x {
        let d = (v - mean) * (v - mean);
        square += d;
        fourth += d * d;
        peak = peak.max(v.abs());
        power += v * v;
    }
    if square <= 0.0 {
        return (0.0, 0.0);
    }
    (10.0 * libm::log10(peak * peak / (power / n)), fourth / n / (square / n * square / n) - 3.0)
}

/// Returns the changes of sign per second.
pub fn crossings_per_s(x: &[f64]) -> f64 {
    let changes = x.windows(2).filter(|w| (w[0] >= 0.0) != (w[1] >= 0.0)).count();
    changes as f64 * f64::from(RATE_HZ) / x.len().max(1) as f64
}

/// Returns the second peak of the envelope 3 to 12 ms after the first, in decibels against the first; `None` without one.
pub fn chatter_db(x: &[f64]) -> Option<f64> {
    let width = samples(1.0);
    let step = samples(0.25);
    let envelope: Vec<f64> = x
        .windows(width)
        .step_by(step)
        .map(|w| db::of_power(w.iter().map(|v| v * v).sum::<f64>() / width as f64))
        .collect();
    let first = envelope.iter().take(24).enumerate().max_by(|a, b| a.1.total_cmp(b.1))?.0;
    let (from, to) = (first + 12, (first + 48).min(envelope.len().saturating_sub(1)));
    let mut best: Option<f64> = None;
    for i in from..to {
        // A peak stands 1.5 dB above the least level between it and the first.
        let dip = envelope[first..i].iter().fold(f64::MAX, |m, v| m.min(*v));
        let here = envelope[i];
        if here >= envelope[i - 1] && here >= envelope[i + 1] && here > dip + 1.5 {
            best = Some(best.map_or(here, |b: f64| b.max(here)));
        }
    }
    best.map(|b| b - envelope[first])
}

/// Octave bands whose decay is given: centres in hertz.
pub const OCTAVES_HZ: [f64; 5] = [250.0, 500.0, 1000.0, 2000.0, 4000.0];

/// Returns the time in which a band would fall by 60 dB, in milliseconds, by backward integration (Schroeder): a line through
/// -5 to -20 dB. `lead` holds samples before the onset, from which the noise is taken. `None` where the band does not stand far
/// enough above the noise.
pub fn t60_ms(lead: &[f64], x: &[f64], low_hz: f64, high_hz: f64) -> Option<f64> {
    let (mut high_pass, mut low_pass) = (Butterworth::high_pass(low_hz), Butterworth::low_pass(high_hz));
    let mut band = |v: &f64| {
        let y = high_pass.pass(*v);
        let y = low_pass.pass(y);
        y * y
    };
    let before: Vec<f64> = lead.iter().map(&mut band).collect();
    let power: Vec<f64> = x.iter().map(&mut band).collect();
    let settled = before.len() / 3;
    let quiet = before.get(settled..).unwrap_or(&[]);
    let noise = quiet.iter().sum::<f64>() / quiet.len().max(1) as f64;
    decay_ms(&power, noise)
}

/// Returns the time of a fall by 60 dB of an instantaneous power above a steady noise power, in milliseconds.
pub fn decay_ms(power: &[f64], noise: f64) -> Option<f64> {
    let width = samples(4.0);
    // The integral stops where the mean over 4 ms comes within 6 dB of the noise.
    let peak = power.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?.0;
    let mut end = power.len();
    let mut at = peak;
    while at + width <= power.len() {
        if power[at..at + width].iter().sum::<f64>() / (width as f64) < 4.0 * noise {
            end = at;
            break;
        }
        at += width / 2;
    }
    let mut sum = 0.0;
    let mut integral: Vec<f64> = power[..end]
        .iter()
        .rev()
        .map(|p| {
            sum += (p - noise).max(0.0);
            sum
        })
        .collect();
    integral.reverse();
    let whole = *integral.first()?;
    if whole <= 0.0 {
        return None;
    }
    let from = integral.iter().position(|s| *s <= whole * 0.316_227_766)?;
    let to = integral.iter().position(|s| *s <= whole * 0.01).unwrap_or(0);
    if to < from + samples(1.0) || to - from < 24 {
        return None;
    }
    let line = &integral[from..to];
    let n = line.len() as f64;
    let middle = (n - 1.0) / 2.0;
    let logs: Vec<f64> = line.iter().map(|s| 10.0 * libm::log10(*s)).collect();
    let mean = logs.iter().sum::<f64>() / n;
    let (sxy, sxx) = logs.iter().enumerate().fold((0.0, 0.0), |(a, b), (i, l)| {
        let t = i as f64 - middle;
        (a + t * (l - mean), b + t * t)
    });
    let slope = sxy / sxx;
    if slope >= 0.0 { None } else { Some(-60.0 / slope * 1000.0 / f64::from(RATE_HZ)) }
}
