//! Repeatable draws: the same seed and name give the same numbers on every machine.

/// A stream of draws (xoshiro256++ of Blackman and Vigna, seeded through splitmix64).
#[derive(Clone, Debug)]
pub struct Dice {
    state: [u64; 4],
}

impl Dice {
    /// Returns the stream of that name under a seed; streams of different names do not disturb each other.
    pub fn new(seed: u64, name: &str) -> Dice {
        // FNV-1a over the name, so that every part of a walk has a stream of its own.
        let named =
            name.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x100_0000_01b3));
        let mut x = seed ^ named;
        let state = std::array::from_fn(|_| {
            x = x.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let mut z = x;
            z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            z ^ (z >> 31)
        });
        Dice { state }
    }

    fn next(&mut self) -> u64 {
        let s = &mut self.state;
        let out = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let t = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= t;
        s[3] = s[3].rotate_left(45);
        out
    }

    /// Returns a number from 0 up to but not including 1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Returns a number evenly spread from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Returns a whole number below `n` (`n` at least 1).
    pub fn below(&mut self, n: usize) -> usize {
        ((self.unit() * n as f64) as usize).min(n.saturating_sub(1))
    }

    /// Tells whether something with that probability happens.
    pub fn happens(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// Returns a standard normal number (Box and Muller).
    pub fn normal(&mut self) -> f64 {
        let u = 1.0 - self.unit();
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.unit()).cos()
    }

    /// Returns a factor whose logarithm is normal with mean 0 and the given deviation.
    pub fn factor(&mut self, sigma: f64) -> f64 {
        (sigma * self.normal()).exp()
    }

    /// Returns a waiting time with the given mean.
    pub fn wait(&mut self, mean: f64) -> f64 {
        -mean * (1.0 - self.unit()).ln()
    }
}
