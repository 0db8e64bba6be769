//! Adding up lines into a total with its spread.

use crate::causes::Causes;
use crate::{Fault, Line, Rate, Seeded, Spread};

/// Lines to be added up.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The lines.
    pub lines: Vec<Line>,
    /// Rates of trades. A line whose trade has a rate is a quantity; the rate is drawn once a trial for all of them.
    pub rates: Vec<Rate>,
    /// How far all lines go together, 0 to 1: the correlation of their normal scores (Gaussian copula with one common
    /// cause: access, weather, the same yard). At 0 they are independent; at 1 all are low or high together. Whether a line
    /// is needed stays independent.
    pub dependence: f64,
    /// How far lines of one named trade go together, 0 to 1, in the same sense: their common cause is that trade's rate. At 1
    /// a trade's lines are all low or high together. Never less than `dependence`, which holds for them too.
    pub trade_dependence: f64,
    /// Trials of the simulation.
    pub trials: u32,
    /// Seed of the simulation.
    pub seed: u64,
}

impl Default for Estimate {
    fn default() -> Self {
        Self { lines: Vec::new(), rates: Vec::new(), dependence: 0.0, trade_dependence: 0.0, trials: 20_000, seed: 1 }
    }
}

/// The total.
#[derive(Clone, Debug, PartialEq)]
pub struct Total {
    /// Cost that is not exceeded with a chance of 10 %.
    pub p10: f64,
    /// Median cost.
    pub p50: f64,
    /// Cost that is not exceeded with a chance of 90 %.
    pub p90: f64,
    /// Mean, in closed form.
    pub mean: f64,
    /// Standard deviation, in closed form when the lines are independent, else simulated.
    pub sd: f64,
    /// Whether `sd` is in closed form.
    pub sd_is_exact: bool,
    /// Mean of the simulation, beside the closed form as a check.
    pub simulated_mean: f64,
    /// Standard deviation of the simulation.
    pub simulated_sd: f64,
    /// Half-width of the 95 % interval that the simulation leaves about the least certain of the three percentiles.
    pub simulation_error: f64,
    /// What drives the total, the strongest first.
    pub drivers: Vec<Driver>,
    /// The totals of all trials, in order, for drawing.
    pub sorted: Vec<f64>,
}

/// One line or rate and how much of the total's variance comes with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Driver {
    /// Item, or the trade whose rate it is.
    pub name: String,
    /// Whether it is a trade's rate.
    pub is_rate: bool,
    /// Its mean cost; for a rate, the mean cost of all that it multiplies.
    pub mean: f64,
    /// Covariance with the total over the total's variance, in percent. Over all lines and rates these add up to nearly 100;
    /// what is missing is rate and quantity acting together, and chance.
    pub share_percent: f64,
}

impl Total {
    /// Returns the cost that is not exceeded with a chance of 0, 1, … 100 %, for drawing: 101 figures, rising.
    pub fn percentiles(&self) -> Vec<f64> {
        (0..=100).map(|percent| quantile(&self.sorted, f64::from(percent) / 100.0)).collect()
    }
}

impl Estimate {
    /// Adds up.
    ///
    /// # Errors
    /// There are no lines, or dependence, trials or a probability is out of range.
    pub fn total(&self) -> Result<Total, Fault> {
        self.check()?;
        let lines: Vec<Prepared> = self.lines.iter().map(|line| self.prepared(line)).collect();
        let mean: f64 = lines.iter().map(|line| line.mean).sum();
        let mut sums = Sums::new(lines.len(), self.rates.len());
        let mut seeded = Seeded::new(self.seed);
        let mut totals = Vec::with_capacity(self.trials as usize);
        let mut own = vec![0.0; lines.len()];
        let mut rate_draws = vec![0.0; self.rates.len()];
        let causes = Causes::of(self);
        let mut trade_draws = vec![0.0; causes.trades];
        for _ in 0..self.trials {
            for (draw, rate) in rate_draws.iter_mut().zip(&self.rates) {
                *draw = rate.spread.quantile(seeded.share());
            }
            let common = if causes.common > 0.0 { seeded.normal() } else { 0.0 };
            trade_draws.iter_mut().for_each(|draw| *draw = seeded.normal());
            let mut total = 0.0;
            for ((drawn, line), cause) in own.iter_mut().zip(&lines).zip(&causes.lines) {
                let p = if causes.common > 0.0 || cause.trade.is_some() {
                    let of_trade = cause.trade.map_or(0.0, |trade| causes.within * trade_draws[trade]);
                    normal_share(causes.common * common + of_trade + cause.own * seeded.normal())
                } else {
                    seeded.share()
                };
                let needed = line.probability >= 1.0 || seeded.share() < line.probability;
                *drawn = if needed { line.spread.quantile(p) } else { 0.0 };
                total += *drawn * line.rate.map_or(1.0, |rate| rate_draws[rate]);
            }
            sums.add(&lines, &self.rates, &own, &rate_draws, total - mean);
            totals.push(total);
        }
        totals.sort_by(f64::total_cmp);
        Ok(self.summed(&lines, mean, &sums, totals))
    }

    fn summed(&self, lines: &[Prepared], mean: f64, sums: &Sums, sorted: Vec<f64>) -> Total {
        let n = f64::from(self.trials);
        let simulated_sd = libm::sqrt((sums.square - sums.plain * sums.plain / n).max(0.0) / (n - 1.0));
        let exact = Causes::of(self).none().then(|| libm::sqrt(self.independent_variance(lines)));
        Total {
            p10: quantile(&sorted, 0.1),
            p50: quantile(&sorted, 0.5),
            p90: quantile(&sorted, 0.9),
            mean,
            sd: exact.unwrap_or(simulated_sd),
            sd_is_exact: exact.is_some(),
            simulated_mean: mean + sums.plain / n,
            simulated_sd,
            simulation_error: [0.1, 0.5, 0.9].into_iter().map(|p| half_width(&sorted, p)).fold(0.0, f64::max),
            drivers: self.drivers(lines, sums),
            sorted,
        }
    }

    fn check(&self) -> Result<(), Fault> {
        if self.lines.is_empty() {
            return Err(Fault::Nothing("there are no cost lines".to_owned()));
        }
        let range = |name: &str, given: f64, accepted: &str| {
            Err(Fault::Range { name: name.to_owned(), given, accepted: accepted.to_owned() })
        };
        for (name, given) in [("a dependence", self.dependence), ("a trade's dependence", self.trade_dependence)] {
            if !(0.0..=1.0).contains(&given) {
                return range(name, given, "a number from 0 to 1");
            }
        }
        if self.trials < 100 {
            return range("a number of trials", f64::from(self.trials), "a whole number from 100");
        }
        match self.lines.iter().find(|line| !(0.0..=1.0).contains(&line.probability)) {
            Some(line) => range(&format!("a probability for {}", line.item), line.probability, "a number from 0 to 1"),
            None => Ok(()),
        }
    }

    fn prepared<'a>(&self, line: &'a Line) -> Prepared<'a> {
        let rate = self.rates.iter().position(|rate| rate.trade == line.trade && !line.trade.is_empty());
        let rate_mean = rate.map_or(1.0, |rate| self.rates[rate].spread.mean());
        let (mean, variance) = (line.spread.mean(), line.spread.variance());
        // A line that may not be needed: mean q mu, variance q (var + mu²) - (q mu)².
        let q = line.probability;
        let own_mean = q * mean;
        let own_variance = q * (variance + mean * mean) - own_mean * own_mean;
        Prepared {
            spread: &line.spread,
            probability: q,
            rate,
            own_mean,
            own_variance,
            rate_mean,
            mean: own_mean * rate_mean,
        }
    }

    /// Variance of the total when the lines are independent: lines without a rate add; for each rate
    /// `Var(R A) = E(R²) E(A²) - (E R E A)²` with `A` the sum of its quantities.
    fn independent_variance(&self, lines: &[Prepared]) -> f64 {
        let alone: f64 = lines.iter().filter(|line| line.rate.is_none()).map(|line| line.own_variance).sum();
        let of_rate = |(index, rate): (usize, &Rate)| {
            let of = lines.iter().filter(|line| line.rate == Some(index));
            let (mean, variance) = of.fold((0.0, 0.0), |(m, v), line| (m + line.own_mean, v + line.own_variance));
            let (r, var_r) = (rate.spread.mean(), rate.spread.variance());
            var_r * variance + var_r * mean * mean + r * r * variance
        };
        alone + self.rates.iter().enumerate().map(of_rate).sum::<f64>()
    }

    fn drivers(&self, lines: &[Prepared], sums: &Sums) -> Vec<Driver> {
        let share = |cross: f64| if sums.square > 0.0 { 100.0 * cross / sums.square } else { 0.0 };
        let of_line = |(index, line): (usize, &Line)| Driver {
            name: line.item.clone(),
            is_rate: false,
            mean: lines[index].mean,
            share_percent: share(sums.lines[index]),
        };
        let of_rate = |(index, rate): (usize, &Rate)| Driver {
            name: rate.trade.clone(),
            is_rate: true,
            mean: lines.iter().filter(|line| line.rate == Some(index)).map(|line| line.mean).sum(),
            share_percent: share(sums.rates[index]),
        };
        let mut drivers: Vec<Driver> = self.lines.iter().enumerate().map(of_line).collect();
        drivers.extend(self.rates.iter().enumerate().map(of_rate));
        drivers.sort_by(|a, b| b.share_percent.total_cmp(&a.share_percent));
        drivers
    }
}

/// A line made ready for the trials.
struct Prepared<'a> {
    spread: &'a Spread,
    probability: f64,
    rate: Option<usize>,
    own_mean: f64,
    own_variance: f64,
    rate_mean: f64,
    mean: f64,
}

/// Sums over the trials, of deviations from the exact means so that no digits are lost.
struct Sums {
    plain: f64,
    square: f64,
    lines: Vec<f64>,
    rates: Vec<f64>,
}

impl Sums {
    fn new(lines: usize, rates: usize) -> Self {
        Self { plain: 0.0, square: 0.0, lines: vec![0.0; lines], rates: vec![0.0; rates] }
    }

    fn add(&mut self, lines: &[Prepared], rates: &[Rate], own: &[f64], rate_draws: &[f64], off: f64) {
        self.plain += off;
        self.square += off * off;
        for ((sum, line), drawn) in self.lines.iter_mut().zip(lines).zip(own) {
            *sum += (drawn - line.own_mean) * line.rate_mean * off;
        }
        for (index, rate) in rates.iter().enumerate() {
            let quantity: f64 = lines.iter().filter(|line| line.rate == Some(index)).map(|line| line.own_mean).sum();
            self.rates[index] += (rate_draws[index] - rate.spread.mean()) * quantity * off;
        }
    }
}

/// Quantile of sorted figures, linear between neighbours (type 7 of R. J. Hyndman and Y. Fan, 1996).
pub(crate) fn quantile(sorted: &[f64], p: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else { return f64::NAN };
    let at = p * last as f64;
    let under = libm::floor(at) as usize;
    let over = (under + 1).min(last);
    sorted[under] + (at - under as f64) * (sorted[over] - sorted[under])
}

/// Half of what lies between the order statistics 1.96 standard errors below and above a quantile.
fn half_width(sorted: &[f64], p: f64) -> f64 {
    let step = 1.96 * libm::sqrt(p * (1.0 - p) / sorted.len() as f64);
    0.5 * (quantile(sorted, (p + step).min(1.0)) - quantile(sorted, (p - step).max(0.0)))
}

/// Share of the standard normal distribution below `z`.
fn normal_share(z: f64) -> f64 {
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
}
