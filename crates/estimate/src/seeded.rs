//! A small generator of random numbers that is the same everywhere.

/// A generator started from a seed: xoshiro256++ (D. Blackman and S. Vigna, 2019), filled by splitmix64. The same seed gives
/// the same figures on every machine.
#[derive(Clone, Debug)]
pub struct Seeded {
    state: [u64; 4],
}

impl Seeded {
    /// Returns the generator of that seed.
    pub fn new(seed: u64) -> Self {
        let mut at = seed;
        let state = std::array::from_fn(|_| {
            at = at.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let z = (at ^ (at >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            z ^ (z >> 31)
        });
        Self { state }
    }

    /// Returns a number evenly spread strictly between 0 and 1.
    pub fn share(&mut self) -> f64 {
        ((self.next() >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// Returns a whole number from 0 up to, not including, `count`; 0 when there is none.
    pub fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// Returns a standard normal deviate (Box and Muller, 1958).
    pub fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(self.share()));
        radius * libm::cos(2.0 * std::f64::consts::PI * self.share())
    }

    fn next(&mut self) -> u64 {
        let s = &mut self.state;
        let result = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let t = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= t;
        s[3] = s[3].rotate_left(45);
        result
    }
}
