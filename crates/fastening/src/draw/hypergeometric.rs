//! The exact chances of a draw without putting back.

use crate::special::ln_choose;

/// A population with some bad, and a draw from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hypergeometric {
    /// All fastenings, N.
    pub population: u64,
    /// Bad ones among them, D. At most the population.
    pub bad: u64,
    /// Drawn, n. At most the population.
    pub drawn: u64,
}

impl Hypergeometric {
    /// Returns the least and the greatest number of bad ones that can be drawn.
    pub fn support(&self) -> (u64, u64) {
        let good = self.population - self.bad;
        (self.drawn.saturating_sub(good), self.drawn.min(self.bad))
    }

    /// Returns the chance of drawing exactly k bad: C(D, k) C(N − D, n − k) / C(N, n).
    pub fn pmf(&self, k: u64) -> f64 {
        let (least, greatest) = self.support();
        if k < least || k > greatest {
            return 0.0;
        }
        let good = self.population - self.bad;
        (ln_choose(self.bad, k) + ln_choose(good, self.drawn - k) - ln_choose(self.population, self.drawn)).exp()
    }

    /// Returns the chance of drawing k or fewer bad.
    pub fn cdf(&self, k: u64) -> f64 {
        let (least, greatest) = self.support();
        if k < least {
            return 0.0;
        }
        if k >= greatest {
            return 1.0;
        }
        let mean = self.drawn as f64 * self.bad as f64 / self.population as f64;
        // The shorter tail is summed, from its near end outwards, so that nothing is lost by cancelling.
        if k as f64 <= mean { self.sum_down(k) } else { 1.0 - self.sum_up(k + 1) }
    }

    /// Returns the chance of drawing k or more bad.
    pub fn at_least(&self, k: u64) -> f64 {
        let (least, greatest) = self.support();
        if k <= least {
            return 1.0;
        }
        if k > greatest {
            return 0.0;
        }
        let mean = self.drawn as f64 * self.bad as f64 / self.population as f64;
        if (k as f64) > mean { self.sum_up(k) } else { 1.0 - self.sum_down(k - 1) }
    }

    fn sum_down(&self, from: u64) -> f64 {
        let (least, _) = self.support();
        let (n, d, all) = (self.drawn as f64, self.bad as f64, self.population as f64);
        let mut term = self.pmf(from);
        let mut sum = term;
        let mut k = from;
        while k > least && term > sum * 1e-18 {
            let kf = k as f64;
            term *= kf * (all - d - n + kf) / ((d - kf + 1.0) * (n - kf + 1.0));
            sum += term;
            k -= 1;
        }
        sum.min(1.0)
    }

    fn sum_up(&self, from: u64) -> f64 {
        let (_, greatest) = self.support();
        let (n, d, all) = (self.drawn as f64, self.bad as f64, self.population as f64);
        let mut term = self.pmf(from);
        let mut sum = term;
        let mut k = from;
        while k < greatest && term > sum * 1e-18 {
            let kf = k as f64;
            term *= (d - kf) * (n - kf) / ((kf + 1.0) * (all - d - n + kf + 1.0));
            sum += term;
            k += 1;
        }
        sum.min(1.0)
    }
}
