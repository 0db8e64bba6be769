//! The yard round the boat: wind, hum, machines, and knocks that are not the surveyor's.

use crate::{
    Dice, Filter,
    strike::{add_damped, burst},
    voice::scale_rms,
};
use std::f64::consts::{PI, TAU};

/// How loud the surroundings are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Noise {
    /// A quiet shed.
    Light,
    /// A working yard.
    Yard,
    /// A hard day: machines, talk over the blows.
    Hard,
}

impl Noise {
    /// All of them, quietest first.
    pub const ALL: [Noise; 3] = [Noise::Light, Noise::Yard, Noise::Hard];

    /// Returns its word.
    pub fn word(self) -> &'static str {
        match self {
            Noise::Light => "light",
            Noise::Yard => "yard",
            Noise::Hard => "hard",
        }
    }

    pub(crate) fn bed_db(self) -> f64 {
        [-58.0, -46.0, -36.0][self as usize]
    }

    pub(crate) fn speech_db(self) -> f64 {
        [-16.0, -12.0, -6.0][self as usize]
    }

    fn clanks_per_minute(self) -> f64 {
        [0.3, 2.0, 5.0][self as usize]
    }
}

/// Returns the bed of noise with knocks of the yard in it; 1 is the peak of the walk's median solid blow.
pub(crate) fn yard(dice: &mut Dice, noise: Noise, count: usize, rate_hz: f64) -> Vec<f64> {
    let bed = 10_f64.powf(noise.bed_db() / 20.0);
    let mut out = pink(dice, count);
    scale_rms(&mut out, bed);
    let hum = bed * dice.between(0.2, 0.8);
    for (i, y) in out.iter_mut().enumerate() {
        let t = i as f64 / rate_hz;
        *y += hum
            * [1.0, 0.5, 0.3, 0.15]
                .iter()
                .zip([50.0, 100.0, 150.0, 250.0])
                .map(|(g, f)| g * (TAU * f * t).sin())
                .sum::<f64>();
    }
    gusts(dice, &mut out, 2.5 * bed, rate_hz);
    let minutes = count as f64 / rate_hz / 60.0;
    let rate = noise.clanks_per_minute();
    let mut scatter = |out: &mut [f64], per_minute: f64, make: &dyn Fn(&mut Dice) -> Vec<f64>| {
        let mut at = dice.wait(60.0 / per_minute.max(1e-9));
        while at < minutes * 60.0 {
            let sound = make(dice);
            for (y, x) in out.iter_mut().skip((at * rate_hz) as usize).zip(&sound) {
                *y += x;
            }
            at += dice.wait(60.0 / per_minute.max(1e-9));
        }
    };
    scatter(&mut out, 0.4 * rate, &|d| grinder(d, 6.0 * bed, rate_hz));
    scatter(&mut out, rate, &|d| clank(d, rate_hz));
    scatter(&mut out, 1.5 * rate, &|d| nailing(d, rate_hz));
    scatter(&mut out, 4.0 * rate.sqrt(), &|d| footsteps(d, rate_hz));
    scatter(&mut out, 0.5 * rate, &|d| door(d, rate_hz));
    scatter(&mut out, 1.5 * rate.sqrt(), &|d| handling(d, rate_hz));
    scatter(&mut out, 0.3 * rate, &|d| bark(d, rate_hz));
    out
}

/// Pink noise by Voss's sum of held random numbers, one per octave.
fn pink(dice: &mut Dice, count: usize) -> Vec<f64> {
    let mut held = [0.0; 14];
    let next = |i: usize| {
        for (k, h) in held.iter_mut().enumerate() {
            if i.is_multiple_of(1 << k) {
                *h = dice.normal();
            }
        }
        held.iter().sum::<f64>()
    };
    (0..count).map(next).collect()
}

fn gusts(dice: &mut Dice, out: &mut [f64], level: f64, rate_hz: f64) {
    let mut low = Filter::low_pass(rate_hz, 180.0, 0.7);
    let (mut now, mut goal, mut left) = (0.0, 0.0, 0_usize);
    for y in out {
        if left == 0 {
            // A gamma variable of shape 2: the sum of two waits.
            goal = level * 0.5 * (dice.wait(1.0) + dice.wait(1.0));
            left = (dice.between(0.5, 2.5) * rate_hz) as usize;
        }
        left -= 1;
        now += (goal - now) * 3.0 / rate_hz;
        *y += 6.0 * now * low.pass(dice.normal());
    }
}

fn grinder(dice: &mut Dice, level: f64, rate_hz: f64) -> Vec<f64> {
    let (seconds, hum) = (dice.between(2.0, 6.0), dice.between(60.0, 140.0));
    let mut out = burst(dice, seconds, rate_hz, 3700.0, 0.6, |t| {
        (t / 0.3).min(1.0) * ((seconds - t) / 0.3).clamp(0.0, 1.0) * (1.0 + 0.5 * (TAU * hum * t).sin())
    });
    scale_rms(&mut out, level);
    out
}

fn clank(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let mut out = vec![0.0; (0.7 * rate_hz) as usize];
    let base = dice.between(1400.0, 2600.0);
    for i in 0..5 {
        let hz = base * (1.0 + 0.62 * f64::from(i)) * dice.factor(0.08);
        let q = dice.between(250.0, 700.0);
        add_damped(&mut out, dice.between(0.3, 1.0), hz, PI * hz / q, rate_hz);
    }
    to_peak(out, dice.between(0.2, 1.2))
}

fn nailing(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let blows = 2 + dice.below(5);
    let mut out = vec![0.0; (0.55 * (blows + 1) as f64 * rate_hz) as usize];
    let (hz, level) = (dice.between(180.0, 900.0), dice.between(0.05, 0.25));
    for k in 0..blows {
        let rise = dice.between(0.008, 0.02);
        let one = burst(dice, 0.3, rate_hz, hz, 1.2, |t| (t / rise).min(1.0) * (-t / 0.05).exp());
        let at = ((0.05 + 0.5 * k as f64 + dice.between(0.0, 0.05)) * rate_hz) as usize;
        for (y, x) in out.iter_mut().skip(at).zip(&to_peak(one, level)) {
            *y += x;
        }
    }
    out
}

fn footsteps(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let steps = 1 + dice.below(5);
    let mut out = vec![0.0; (0.6 * (steps + 1) as f64 * rate_hz) as usize];
    for k in 0..steps {
        let (rise, level) = (dice.between(0.005, 0.02), dice.between(0.03, 0.3));
        let mut one = burst(dice, 0.25, rate_hz, 120.0, 0.8, |t| (t / rise).min(1.0) * (-t / 0.04).exp());
        let grit = burst(dice, 0.25, rate_hz, 2500.0, 0.7, |t| 0.25 * (t / rise).min(1.0) * (-t / 0.06).exp());
        for (y, g) in one.iter_mut().zip(&grit) {
            *y += g;
        }
        let at = ((0.55 * k as f64 + dice.between(0.0, 0.06)) * rate_hz) as usize;
        for (y, x) in out.iter_mut().skip(at).zip(&to_peak(one, level)) {
            *y += x;
        }
    }
    out
}

fn door(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let (rise, hz) = (dice.between(0.005, 0.03), dice.between(80.0, 250.0));
    let mut out = burst(dice, 0.5, rate_hz, hz, 0.9, |t| (t / rise).min(1.0) * (-t / 0.08).exp());
    let rattle = burst(dice, 0.5, rate_hz, 1800.0, 0.6, |t| 0.3 * (t / rise).min(1.0) * (-t / 0.05).exp());
    for (y, r) in out.iter_mut().zip(&rattle) {
        *y += r;
    }
    to_peak(out, dice.between(0.1, 0.5))
}

fn handling(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let seconds = dice.between(0.2, 0.9);
    let (hz, flutter) = (dice.between(80.0, 400.0), dice.between(7.0, 25.0));
    let out =
        burst(dice, seconds, rate_hz, hz, 0.5, |t| (PI * t / seconds).sin() * (1.0 + 0.6 * (TAU * flutter * t).sin()));
    to_peak(out, dice.between(0.03, 0.3))
}

fn bark(dice: &mut Dice, rate_hz: f64) -> Vec<f64> {
    let (pitch, seconds) = (dice.between(300.0, 700.0), dice.between(0.12, 0.25));
    let mut out: Vec<f64> = (0..(seconds * rate_hz) as usize)
        .map(|i| {
            let t = i as f64 / rate_hz;
            let tone: f64 = (1..12).map(|k| (TAU * pitch * f64::from(k) * t).sin() / f64::from(k)).sum();
            (t / 0.015).min(1.0) * (PI * t / seconds).sin() * (tone + 0.4 * dice.normal())
        })
        .collect();
    Filter::band_pass(rate_hz, 1100.0, 0.8).pass_all(&mut out);
    to_peak(out, dice.between(0.05, 0.35))
}

pub(crate) fn to_peak(mut signal: Vec<f64>, peak: f64) -> Vec<f64> {
    let loudest = signal.iter().fold(1e-300_f64, |m, x| m.max(x.abs()));
    for x in &mut signal {
        *x *= peak / loudest;
    }
    signal
}
