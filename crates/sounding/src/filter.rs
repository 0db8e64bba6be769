//! Butterworth filters of fourth order, as two second-order sections by the bilinear transform with prewarping.

use crate::RATE_HZ;
use std::f64::consts::PI;

/// Qualities of the two sections of a fourth-order Butterworth filter, 1/(2 cos(π/8)) and 1/(2 cos(3π/8)).
const QUALITIES: [f64; 2] = [0.541_196_100_146_197, 1.306_562_964_876_376_4];

/// One second-order section, transposed direct form II.
#[derive(Clone, Copy, Debug)]
struct Section {
    b: [f64; 3],
    a: [f64; 2],
    z: [f64; 2],
}

impl Section {
    fn new(corner_hz: f64, q: f64, high: bool) -> Section {
        let k = libm::tan(PI * corner_hz / f64::from(RATE_HZ));
        let norm = 1.0 / (1.0 + k / q + k * k);
        let b = if high { [norm, -2.0 * norm, norm] } else { [k * k * norm, 2.0 * k * k * norm, k * k * norm] };
        Section { b, a: [2.0 * (k * k - 1.0) * norm, (1.0 - k / q + k * k) * norm], z: [0.0; 2] }
    }

    #[inline]
    fn pass(&mut self, x: f64) -> f64 {
        let y = self.b[0] * x + self.z[0];
        self.z[0] = self.b[1] * x - self.a[0] * y + self.z[1];
        self.z[1] = self.b[2] * x - self.a[1] * y;
        y
    }
}

/// A fourth-order Butterworth low-pass or high-pass at the engine's rate.
#[derive(Clone, Copy, Debug)]
pub struct Butterworth {
    sections: [Section; 2],
}

impl Butterworth {
    /// Returns the low-pass with its -3 dB corner at `corner_hz`.
    pub fn low_pass(corner_hz: f64) -> Butterworth {
        Butterworth { sections: QUALITIES.map(|q| Section::new(corner_hz, q, false)) }
    }

    /// Returns the high-pass with its -3 dB corner at `corner_hz`.
    pub fn high_pass(corner_hz: f64) -> Butterworth {
        Butterworth { sections: QUALITIES.map(|q| Section::new(corner_hz, q, true)) }
    }

    /// Passes one sample.
    #[inline]
    pub fn pass(&mut self, x: f64) -> f64 {
        let y = self.sections[0].pass(x);
        self.sections[1].pass(y)
    }
}
