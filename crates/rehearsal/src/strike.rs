//! One blow of a hammer on one place, by physics: contact after Hertz, bending modes of a plank, damping.

use crate::{Dice, Filter};
use std::f64::consts::{PI, TAU};

/// What is struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Member {
    /// Whether it is backbone (keel, stem, deadwood) rather than planking.
    pub backbone: bool,
    /// Span between fastenings, in metres.
    pub span_m: f64,
    /// Depth, in metres.
    pub depth_m: f64,
    /// Density, in kg/m³.
    pub density_kg_m3: f64,
    /// Modulus along the grain, in pascals.
    pub modulus_pa: f64,
    /// Loss factor.
    pub loss: f64,
}

/// The state of a place, by what is wrong with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mechanism {
    /// Nothing.
    Solid,
    /// Fastenings no longer hold.
    Loose,
    /// Checks run through it.
    Checked,
    /// A skin over a hollow.
    Void,
    /// Decayed wood.
    Decay,
}

/// How such a place sounds to an ear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sound {
    /// Rings.
    Solid,
    /// Rings less, buzzes or drums.
    Dull,
    /// Does not ring.
    Dead,
}

impl Mechanism {
    /// Returns how such a place sounds.
    pub fn sound(self) -> Sound {
        match self {
            Mechanism::Solid => Sound::Solid,
            Mechanism::Decay => Sound::Dead,
            _ => Sound::Dull,
        }
    }
}

/// A member in its condition: what all blows on one place share.
#[derive(Clone, Debug)]
pub struct Struck {
    /// Mode frequencies, in hertz.
    pub modes_hz: Vec<f64>,
    /// Loss factor of the first mode.
    pub loss: f64,
    /// Modulus across the grain, in pascals: what the hammer feels.
    pub across_pa: f64,
    contact_factor: f64,
    gain: f64,
    drum: bool,
    rattles: bool,
}

/// The hammer of one walk.
#[derive(Clone, Copy, Debug)]
pub struct Hammer {
    /// Mass, in kilograms.
    pub mass_kg: f64,
    /// Radius of its face, in metres.
    pub radius_m: f64,
}

/// A blow as it leaves the wood.
#[derive(Clone, Debug)]
pub struct Strike {
    /// Samples, from the first moment of contact.
    pub samples: Vec<f64>,
    /// Time in contact, in seconds.
    pub contact_s: f64,
    /// Speed of the hammer, in m/s.
    pub speed_m_s: f64,
}

impl Hammer {
    /// Draws a hammer.
    pub fn draw(dice: &mut Dice) -> Hammer {
        Hammer { mass_kg: dice.between(0.10, 0.25), radius_m: dice.between(0.006, 0.015) }
    }

    /// Returns contact time in seconds and peak force in newtons of a sphere on a half space (Hertz):
    /// T = 2.943 w/v with w = (15 m v²/(16 E* √R))^0.4 and F = (4/3) E* √R w^1.5.
    pub fn contact(&self, effective_pa: f64, speed_m_s: f64) -> (f64, f64) {
        let root = self.radius_m.sqrt();
        let w = (15.0 * self.mass_kg * speed_m_s * speed_m_s / (16.0 * effective_pa * root)).powf(0.4);
        (2.943 * w / speed_m_s, 4.0 / 3.0 * effective_pa * root * w.powf(1.5))
    }
}

impl Member {
    /// Draws a plank or a backbone timber of one boat.
    pub fn draw(dice: &mut Dice, backbone: bool, boat_depth_factor: f64) -> Member {
        let (span, depth, loss) = if backbone {
            (dice.between(0.30, 0.45), dice.between(0.10, 0.16), dice.between(0.04, 0.07))
        } else {
            (dice.between(0.20, 0.34), dice.between(0.022, 0.045), dice.between(0.025, 0.045))
        };
        Member {
            backbone,
            span_m: span,
            depth_m: depth * boat_depth_factor,
            density_kg_m3: dice.between(520.0, 760.0),
            modulus_pa: dice.between(9e9, 13e9),
            loss,
        }
    }

    /// Returns the like of this member a little further on: every property jittered.
    pub fn jittered(&self, dice: &mut Dice, sigma: f64) -> Member {
        Member {
            backbone: self.backbone,
            span_m: self.span_m * dice.factor(sigma),
            depth_m: self.depth_m * dice.factor(sigma),
            density_kg_m3: self.density_kg_m3 * dice.factor(sigma * 0.5),
            modulus_pa: self.modulus_pa * dice.factor(sigma),
            loss: self.loss * dice.factor(sigma),
        }
    }

    /// Returns the first modes of bending of a beam held between pinned (`fixity` 0) and clamped (1), corrected for
    /// shear and rotation: f = λ² h √(E/12ρ)/(2πL²) / √(1 + (λ/L)²(h²/12)(1 + E/κG)), κ = 5/6, E/G = 15.
    pub fn modes_hz(&self, fixity: f64, count: usize, limit_hz: f64) -> Vec<f64> {
        let speed = (self.modulus_pa / (12.0 * self.density_kg_m3)).sqrt();
        let mode = |n: usize| {
            let clamped = match n {
                1 => 4.730_041,
                2 => 7.853_205,
                3 => 10.995_608,
                _ => (n as f64 + 0.5) * PI,
            };
            let lambda = (1.0 - fixity) * n as f64 * PI + fixity * clamped;
            let thin = lambda * lambda * self.depth_m * speed / (TAU * self.span_m * self.span_m);
            let slender = lambda / self.span_m;
            thin / (1.0 + slender * slender * self.depth_m * self.depth_m / 12.0 * (1.0 + 15.0 * 6.0 / 5.0)).sqrt()
        };
        (1..=count).map(mode).take_while(|f| *f < limit_hz).collect()
    }

    /// Puts a place of this member into a condition.
    pub fn struck(&self, dice: &mut Dice, mechanism: Mechanism, rate_hz: f64) -> Struck {
        let limit = 0.42 * rate_hz;
        let mut wood = *self;
        let mut across = self.modulus_pa / 12.0;
        let (mut contact_factor, mut gain, mut drum, mut rattles) = (1.08, 1.0, false, false);
        let modes_hz = match mechanism {
            Mechanism::Solid => {
                wood.loss *= dice.factor(0.12);
                wood.modes_hz(dice.between(0.5, 1.0), 12, limit)
            }
            Mechanism::Loose => {
                wood.span_m *= dice.between(1.2, 1.8);
                wood.loss *= dice.between(1.8, 3.3);
                (contact_factor, rattles) = (1.25, true);
                wood.modes_hz(dice.between(0.0, 0.2), 12, limit)
            }
            Mechanism::Checked => {
                wood.depth_m *= dice.between(0.6, 0.8);
                wood.modulus_pa *= dice.between(0.8, 0.95);
                wood.loss *= dice.between(2.0, 4.0);
                across *= 0.75;
                wood.modes_hz(dice.between(0.3, 0.8), 12, limit)
            }
            Mechanism::Void => {
                let skin = dice.between(0.25, 0.4) * wood.depth_m.min(0.06);
                let radius = dice.between(0.07, 0.13);
                wood.loss *= dice.between(1.2, 2.2);
                (contact_factor, drum) = (1.25, true);
                // Clamped round plate, f = 0.469 (s/a²) √(E'/(ρ(1-ν²))), E' = √(E_L E_perp), ν 0.3.
                let plate = (self.modulus_pa * across).sqrt();
                let f1 = 0.469 * skin / (radius * radius) * (plate / (wood.density_kg_m3 * 0.91)).sqrt();
                [1.0, 2.08, 3.41, 3.89].iter().map(|r| r * f1).take_while(|f| *f < limit).collect()
            }
            Mechanism::Decay => {
                wood.modulus_pa *= dice.between(0.1, 0.35);
                wood.density_kg_m3 *= dice.between(0.7, 0.9);
                wood.loss = dice.between(0.16, 0.4);
                across *= dice.between(0.04, 0.25);
                gain = 10_f64.powf(-5.0 / 20.0);
                wood.modes_hz(dice.between(0.2, 0.7), 12, limit)
            }
        };
        Struck { modes_hz, loss: wood.loss, across_pa: across, contact_factor, gain, drum, rattles }
    }
}

impl Struck {
    /// Strikes the place once.
    pub fn strike(&self, dice: &mut Dice, hammer: &Hammer, rate_hz: f64) -> Strike {
        let speed = dice.factor(0.35).clamp(0.4, 2.6);
        let (contact, force) = hammer.contact(self.across_pa / (1.0 - 0.09), speed);
        let contact = contact * self.contact_factor;
        let mut samples = self.once(dice, contact, rate_hz);
        if self.rattles {
            let first = samples.clone();
            for _ in 0..=usize::from(dice.happens(0.5)) {
                let at = (dice.between(0.004, 0.010) * rate_hz) as usize;
                let level = 10_f64.powf(dice.between(-16.0, -9.0) / 20.0);
                for (y, x) in samples.iter_mut().skip(at).zip(&first) {
                    *y += level * x;
                }
            }
        }
        for y in &mut samples {
            *y *= force * self.gain;
        }
        Strike { samples, contact_s: contact, speed_m_s: speed }
    }

    fn once(&self, dice: &mut Dice, contact_s: f64, rate_hz: f64) -> Vec<f64> {
        let length = (0.45 * rate_hz) as usize;
        let x = dice.between(0.3, 0.7);
        let mut ring = vec![0.0; length];
        for (i, f) in self.modes_hz.iter().enumerate() {
            let n = (i + 1) as f64;
            let shape = (n * PI * x).sin().powi(2);
            let gain = if self.drum || i % 2 == 0 { shape / n } else { 0.45 * shape / n };
            let alpha = PI * f * self.loss * (1.0 + 0.12 * i as f64);
            add_damped(&mut ring, gain * (f / 1000.0).sqrt(), *f, alpha, rate_hz);
        }
        let pulse = half_sine(contact_s, rate_hz);
        let mut y = convolve(&ring, &pulse);
        let slope: Vec<f64> =
            (0..=pulse.len()).map(|i| pulse.get(i).unwrap_or(&0.0) - if i > 0 { pulse[i - 1] } else { 0.0 }).collect();
        let steepest = slope.iter().fold(1e-300_f64, |m, v| m.max(v.abs()));
        let click = 0.16 / (contact_s / 0.8e-3).sqrt() / steepest;
        for (y, s) in y.iter_mut().zip(&slope) {
            *y += click * s;
        }
        let head = dice.between(3200.0, 6200.0);
        add_damped(&mut y, 0.02, head, PI * head / 90.0, rate_hz);
        y
    }
}

/// Adds gain · e^(-αt) sin 2πft.
pub(crate) fn add_damped(signal: &mut [f64], gain: f64, hz: f64, alpha: f64, rate_hz: f64) {
    let w = TAU * hz / rate_hz;
    let r = (-alpha / rate_hz).exp();
    // Recurrence of a damped sine: y[n] = 2 r cos w y[n-1] - r² y[n-2].
    let (c1, c2) = (2.0 * r * w.cos(), r * r);
    let (mut y2, mut y1) = (-gain * w.sin() / r, 0.0);
    for y in signal {
        *y += y1;
        let next = c1 * y1 - c2 * y2;
        (y2, y1) = (y1, next);
    }
}

/// Returns a half-sine pulse of unit sum, made at 16 times the rate and averaged.
fn half_sine(contact_s: f64, rate_hz: f64) -> Vec<f64> {
    let fine = 16.0 * rate_hz;
    let count = (contact_s * fine).ceil() as usize;
    let mut pulse = vec![0.0; count / 16 + 1];
    for i in 0..count {
        pulse[i / 16] += (PI * (i as f64 + 0.5) / (contact_s * fine)).sin().max(0.0);
    }
    let sum: f64 = pulse.iter().sum();
    pulse.iter().map(|p| p / sum).collect()
}

fn convolve(signal: &[f64], pulse: &[f64]) -> Vec<f64> {
    let at = |i: usize| pulse.iter().take(i + 1).enumerate().map(|(k, p)| p * signal[i - k]).sum();
    (0..signal.len()).map(at).collect()
}

/// Returns noise through a band-pass with an envelope: for footsteps, bursts, handling.
pub(crate) fn burst(
    dice: &mut Dice,
    seconds: f64,
    rate_hz: f64,
    hz: f64,
    q: f64,
    envelope: impl Fn(f64) -> f64,
) -> Vec<f64> {
    let mut out: Vec<f64> = (0..(seconds * rate_hz) as usize).map(|_| dice.normal()).collect();
    Filter::band_pass(rate_hz, hz, q).pass_all(&mut out);
    for (i, y) in out.iter_mut().enumerate() {
        *y *= envelope(i as f64 / rate_hz);
    }
    out
}
