//! Who talks on a walk: speech-like noise made here, or utterances a caller brings (a speech synthesiser's, say).

use crate::{Dice, Filter};

/// A source of speech.
#[derive(Clone, Debug, Default)]
pub enum Voice {
    /// Speech-like noise: voiced syllables of three formants, hiss, and stops with a burst.
    #[default]
    SpeechLike,
    /// Utterances at the walk's rate, one of which is taken for each thing said.
    Utterances(Vec<Vec<f32>>),
    /// Nobody talks.
    Silent,
}

impl Voice {
    /// Says something of about `seconds`, level as it comes.
    pub(crate) fn say(&self, dice: &mut Dice, seconds: f64, rate_hz: f64) -> Vec<f64> {
        match self {
            Voice::SpeechLike => speech_like(dice, seconds, rate_hz),
            Voice::Utterances(all) if !all.is_empty() => {
                all[dice.below(all.len())].iter().map(|x| f64::from(*x)).collect()
            }
            _ => Vec::new(),
        }
    }
}

fn speech_like(dice: &mut Dice, seconds: f64, rate_hz: f64) -> Vec<f64> {
    let mut out = Vec::new();
    let pace = dice.between(3.0, 6.0);
    let pitch = dice.between(95.0, 150.0);
    while (out.len() as f64) < seconds * rate_hz {
        let at = out.len() as f64 / rate_hz / seconds;
        let syllable = dice.factor(0.25) / pace;
        if dice.happens(0.35) {
            let seconds = dice.between(0.04, 0.11);
            out.extend(hiss(dice, seconds, rate_hz));
        } else if dice.happens(0.6) {
            out.extend(stop(dice, rate_hz));
        }
        out.extend(vowel(dice, syllable * 0.7, pitch * (1.1 - 0.25 * at), rate_hz));
        if dice.happens(0.4) {
            out.extend(stop(dice, rate_hz));
        }
    }
    out
}

fn vowel(dice: &mut Dice, seconds: f64, pitch_hz: f64, rate_hz: f64) -> Vec<f64> {
    let count = (seconds * rate_hz) as usize;
    let formants = [dice.between(300.0, 800.0), dice.between(900.0, 2100.0), dice.between(2200.0, 3000.0)];
    let mut source = vec![0.0; count];
    let mut phase = 0.0;
    for (i, s) in source.iter_mut().enumerate() {
        phase += pitch_hz * (1.0 - 0.12 * i as f64 / count.max(1) as f64) * (1.0 + 0.01 * dice.normal()) / rate_hz;
        if phase >= 1.0 {
            phase -= 1.0;
            *s = 1.0;
        }
        *s += 0.004 * dice.normal();
    }
    Filter::low_pass(rate_hz, 500.0, 0.6).pass_all(&mut source);
    let mut out = vec![0.0; count];
    for (formant, gain) in formants.iter().zip([1.0, 0.6, 0.3]) {
        let mut part = source.clone();
        Filter::band_pass(rate_hz, *formant, formant / 90.0).pass_all(&mut part);
        for (y, p) in out.iter_mut().zip(&part) {
            *y += gain * p;
        }
    }
    scale_rms(&mut out, 1.0);
    let edge = 0.025 * rate_hz;
    for (i, y) in out.iter_mut().enumerate() {
        *y *= (i as f64 / edge).min(1.0) * ((count - i) as f64 / edge).min(1.0);
    }
    out
}

fn hiss(dice: &mut Dice, seconds: f64, rate_hz: f64) -> Vec<f64> {
    let (hz, level) = (dice.between(3000.0, 7000.0), dice.between(0.15, 0.5));
    let mut out: Vec<f64> = (0..(seconds * rate_hz) as usize).map(|_| dice.normal()).collect();
    Filter::band_pass(rate_hz, hz, 1.2).pass_all(&mut out);
    scale_rms(&mut out, level);
    let edge = 0.015 * rate_hz;
    let count = out.len();
    for (i, y) in out.iter_mut().enumerate() {
        *y *= (i as f64 / edge).min(1.0) * ((count - i) as f64 / edge).min(1.0);
    }
    out
}

/// A gap of 30 ms and a burst of 3 to 12 ms: the trap for a finder of blows.
fn stop(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let mut out = vec![0.0; (0.03 * rate_hz) as usize];
    let (seconds, hz, level) = (dice.between(0.003, 0.012), dice.between(700.0, 4500.0), dice.between(0.4, 1.4));
    let mut sound: Vec<f64> = (0..(3.0 * seconds * rate_hz) as usize).map(|_| dice.normal()).collect();
    Filter::band_pass(rate_hz, hz, 1.0).pass_all(&mut sound);
    scale_rms(&mut sound, level);
    for (i, y) in sound.iter_mut().enumerate() {
        *y *= (-(i as f64) / rate_hz / seconds).exp();
    }
    out.extend(sound);
    out
}

pub(crate) fn scale_rms(signal: &mut [f64], to: f64) {
    let rms = (signal.iter().map(|x| x * x).sum::<f64>() / signal.len().max(1) as f64).sqrt();
    if rms > 0.0 {
        for x in signal {
            *x *= to / rms;
        }
    }
}
