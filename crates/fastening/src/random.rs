//! A small generator for picks and simulations: the same seed gives the same numbers on every machine.

/// SplitMix64 (Steele, Lea and Flood 2014).
#[derive(Clone, Debug)]
pub struct Random {
    state: u64,
}

impl Random {
    /// Returns a generator from a seed.
    pub fn seeded(seed: u64) -> Self {
        Self { state: seed }
    }

    /// Returns the next 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Returns a whole number below `n`, each equally likely (numbers that would favour some are thrown away).
    /// Returns 0 when `n` is 0.
    pub fn below(&mut self, n: u64) -> u64 {
        if n == 0 {
            return 0;
        }
        let limit = u64::MAX - u64::MAX % n;
        loop {
            let bits = self.bits();
            if bits < limit {
                return bits % n;
            }
        }
    }

    /// Returns a number from 0 up to but not including 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Returns a normal number of mean 0 and deviation 1 (Box–Muller).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.share()).ln()).sqrt();
        radius * (2.0 * core::f64::consts::PI * self.share()).cos()
    }
}
