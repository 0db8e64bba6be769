//! Second-order filters for making sounds (bilinear transform of the textbook prototypes).

use std::f64::consts::TAU;

/// One second-order section.
#[derive(Clone, Debug)]
pub struct Filter {
    b: [f64; 3],
    a: [f64; 2],
    z: [f64; 2],
}

impl Filter {
    fn of(b: [f64; 3], a: [f64; 3]) -> Filter {
        Filter { b: b.map(|v| v / a[0]), a: [a[1] / a[0], a[2] / a[0]], z: [0.0; 2] }
    }

    /// Returns a low-pass with corner `hz` and quality `q`.
    pub fn low_pass(rate_hz: f64, hz: f64, q: f64) -> Filter {
        let w = TAU * (hz / rate_hz).min(0.49);
        let (c, alpha) = (w.cos(), w.sin() / (2.0 * q));
        Filter::of([(1.0 - c) / 2.0, 1.0 - c, (1.0 - c) / 2.0], [1.0 + alpha, -2.0 * c, 1.0 - alpha])
    }

    /// Returns a high-pass with corner `hz` and quality `q`.
    pub fn high_pass(rate_hz: f64, hz: f64, q: f64) -> Filter {
        let w = TAU * (hz / rate_hz).min(0.49);
        let (c, alpha) = (w.cos(), w.sin() / (2.0 * q));
        Filter::of([f64::midpoint(1.0, c), -(1.0 + c), f64::midpoint(1.0, c)], [1.0 + alpha, -2.0 * c, 1.0 - alpha])
    }

    /// Returns a band-pass of unit gain at `hz` with quality `q`.
    pub fn band_pass(rate_hz: f64, hz: f64, q: f64) -> Filter {
        let w = TAU * (hz / rate_hz).min(0.49);
        let (c, alpha) = (w.cos(), w.sin() / (2.0 * q));
        Filter::of([alpha, 0.0, -alpha], [1.0 + alpha, -2.0 * c, 1.0 - alpha])
    }

    /// Passes one sample.
    pub fn pass(&mut self, x: f64) -> f64 {
        let y = self.b[0] * x + self.z[0];
        self.z[0] = self.b[1] * x - self.a[0] * y + self.z[1];
        self.z[1] = self.b[2] * x - self.a[1] * y;
        y
    }

    /// Passes a whole signal in place.
    pub fn pass_all(mut self, signal: &mut [f64]) {
        for x in signal {
            *x = self.pass(*x);
        }
    }
}
