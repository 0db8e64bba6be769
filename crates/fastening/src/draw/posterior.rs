//! What is to be believed of the rest after a draw, from a prior that is shown.

use super::interval::all_checked;
use crate::Fault;
use crate::special::ln_beta;

/// A prior for the share of bad, as so many imagined fastenings drawn before: Beta(bad, good).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// Imagined bad ones; more than 0.
    pub bad: f64,
    /// Imagined good ones; more than 0.
    pub good: f64,
}

impl Prior {
    /// Every share equally likely beforehand.
    pub const UNIFORM: Prior = Prior { bad: 1.0, good: 1.0 };
    /// Jeffreys' prior, which leans to the ends.
    pub const JEFFREYS: Prior = Prior { bad: 0.5, good: 0.5 };

    /// Returns a prior.
    ///
    /// # Errors
    /// When either part is not more than 0 and at most 10,000.
    pub fn new(bad: f64, good: f64) -> Result<Self, Fault> {
        Fault::between("prior_bad", bad, 1e-3, 10_000.0)?;
        Fault::between("prior_good", good, 1e-3, 10_000.0)?;
        Ok(Self { bad, good })
    }

    /// Returns the prior in words for the report.
    pub fn in_words(&self) -> String {
        if *self == Self::UNIFORM {
            return "before drawing every share of bad was held equally likely (Beta 1, 1)".to_owned();
        }
        let (bad, good) = (self.bad, self.good);
        format!("before drawing it was held as if {bad} bad and {good} good had been seen already (Beta {bad}, {good})")
    }
}

/// The chances of how many bad are left among those not drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BetaBinomial {
    /// Fastenings not drawn.
    pub left: u64,
    /// First parameter: prior bad + bad found.
    pub bad: f64,
    /// Second parameter: prior good + good found.
    pub good: f64,
}

impl BetaBinomial {
    /// Returns what is to be believed after a draw.
    ///
    /// # Errors
    /// When more was drawn than there is, or more bad than drawn.
    pub fn after(prior: Prior, population: u64, drawn: u64, bad: u64) -> Result<Self, Fault> {
        all_checked(population, drawn, bad)?;
        Ok(Self { left: population - drawn, bad: prior.bad + bad as f64, good: prior.good + (drawn - bad) as f64 })
    }

    /// Returns the expected number of bad left.
    pub fn mean(&self) -> f64 {
        self.left as f64 * self.bad / (self.bad + self.good)
    }

    /// Returns the chance of exactly k bad left.
    pub fn pmf(&self, k: u64) -> f64 {
        if k > self.left {
            return 0.0;
        }
        let (k, rest) = (k as f64, (self.left - k) as f64);
        // 1/((n + 1) B(k + 1, n − k + 1)) = C(n, k)
        let choose = -(self.left as f64 + 1.0).ln() - ln_beta(k + 1.0, rest + 1.0);
        (choose + ln_beta(k + self.bad, rest + self.good) - ln_beta(self.bad, self.good)).exp()
    }

    /// Returns the chance of k or fewer bad left.
    pub fn cdf(&self, k: u64) -> f64 {
        if k >= self.left {
            return 1.0;
        }
        self.sum(0, k).min(1.0)
    }

    /// Returns the chance of more than k bad left.
    pub fn more_than(&self, k: u64) -> f64 {
        if k >= self.left { 0.0 } else { self.sum(k + 1, self.left).min(1.0) }
    }

    /// Returns the least k with chance of k or fewer at least p.
    pub fn quantile(&self, p: f64) -> u64 {
        let mut sum = 0.0;
        let mut term = self.pmf(0);
        for k in 0..self.left {
            sum += term;
            if sum >= p - 1e-12 {
                return k;
            }
            term = self.next(k, term);
        }
        self.left
    }

    fn sum(&self, from: u64, to: u64) -> f64 {
        let mut term = self.pmf(from);
        let mut sum = 0.0;
        for k in from..=to {
            sum += term;
            // A term so small that it cannot be carried on is reckoned afresh.
            term = if term > 1e-250 { self.next(k, term) } else { self.pmf(k + 1) };
        }
        sum
    }

    fn next(&self, k: u64, term: f64) -> f64 {
        if k >= self.left {
            return 0.0;
        }
        if term <= 1e-250 {
            return self.pmf(k + 1);
        }
        let (kf, rest) = (k as f64, (self.left - k) as f64);
        term * rest / (kf + 1.0) * (kf + self.bad) / (rest - 1.0 + self.good)
    }
}
