//! What the place adds to a blow: a few reflections and a diffuse tail.

use crate::Dice;
use realfft::RealFftPlanner;

/// The response of the surroundings.
#[derive(Clone, Debug)]
pub(crate) struct Place {
    response: Vec<f64>,
}

impl Place {
    /// Draws four reflections of 3 to 28 ms at -9 to -20 dB and a tail of T60 0.18 to 0.4 s from 12 ms.
    pub(crate) fn draw(dice: &mut Dice, rate_hz: f64) -> Place {
        let mut response = vec![0.0; (0.4 * rate_hz) as usize];
        let t60 = dice.between(0.18, 0.4);
        let start = (0.012 * rate_hz) as usize;
        let mut energy = 0.0;
        for (i, y) in response.iter_mut().enumerate().skip(start) {
            *y = dice.normal() * (-6.9078 * i as f64 / rate_hz / t60).exp();
            energy += *y * *y;
        }
        for y in &mut response {
            *y *= 0.35 / f64::max(energy, 1e-30).sqrt();
        }
        response[0] = 1.0;
        for _ in 0..4 {
            let at = (dice.between(0.003, 0.028) * rate_hz) as usize;
            let sign = if dice.happens(0.5) { 1.0 } else { -1.0 };
            response[at] += sign * 10_f64.powf(dice.between(-20.0, -9.0) / 20.0);
        }
        Place { response }
    }

    /// Returns a sound as heard there.
    pub(crate) fn heard(&self, sound: &[f64]) -> Vec<f64> {
        let length = sound.len() + self.response.len();
        let size = length.next_power_of_two();
        let mut planner = RealFftPlanner::<f64>::new();
        let (there, back) = (planner.plan_fft_forward(size), planner.plan_fft_inverse(size));
        let spectrum = |signal: &[f64]| {
            let mut padded = there.make_input_vec();
            padded[..signal.len()].copy_from_slice(signal);
            let mut out = there.make_output_vec();
            // Lengths are those the plan made, so it cannot fail.
            let _ = there.process(&mut padded, &mut out);
            out
        };
        let mut product = spectrum(sound);
        for (p, r) in product.iter_mut().zip(spectrum(&self.response)) {
            *p *= r;
        }
        let mut out = back.make_output_vec();
        let _ = back.process(&mut product, &mut out);
        out.truncate(length);
        for y in &mut out {
            *y /= size as f64;
        }
        out
    }
}
