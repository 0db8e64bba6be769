//! Drawing one at a time until the answer is clear: Wald's sequential test, cut off where consent ends.

use crate::Fault;

/// A plan to draw one after another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sequential {
    /// Share of bad that is acceptable, p₀.
    pub acceptable: f64,
    /// Share of bad that is not acceptable, p₁.
    pub unacceptable: f64,
    /// Chance of calling acceptable bad, α.
    pub false_alarm: f64,
    /// Chance of calling unacceptable good, β.
    pub missed: f64,
    /// Most that may be drawn.
    pub cap: u64,
}

/// What to do after so many drawn and so many bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Draw another.
    DrawAnother,
    /// Stop: the share of bad is taken as acceptable.
    Acceptable,
    /// Stop: the share of bad is taken as not acceptable.
    Unacceptable,
    /// Stop: the cap is reached and neither is shown. Report the interval.
    Undecided,
}

impl Verdict {
    /// Returns the verdict in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Verdict::DrawAnother => "draw another",
            Verdict::Acceptable => "stop: acceptable by the test agreed",
            Verdict::Unacceptable => "stop: not acceptable by the test agreed",
            Verdict::Undecided => "stop: the cap is reached and the draw is undecided",
        }
    }
}

/// Chances of each end of a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operating {
    /// Chance of ending acceptable.
    pub acceptable: f64,
    /// Chance of ending not acceptable.
    pub unacceptable: f64,
    /// Chance of ending undecided at the cap.
    pub undecided: f64,
    /// Average number drawn.
    pub mean_drawn: f64,
}

impl Sequential {
    /// Returns a plan.
    ///
    /// # Errors
    /// When the shares or chances are out of range or out of order.
    pub fn new(acceptable: f64, unacceptable: f64, false_alarm: f64, missed: f64, cap: u64) -> Result<Self, Fault> {
        Fault::between("acceptable", acceptable, 0.0001, 0.98)?;
        Fault::between("unacceptable", unacceptable, 0.0002, 0.99)?;
        Fault::between("false_alarm", false_alarm, 0.0001, 0.5)?;
        Fault::between("missed", missed, 0.0001, 0.5)?;
        if unacceptable <= acceptable {
            let why = format!("this is not more than the acceptable share {acceptable}");
            return Err(Fault::value("unacceptable", unacceptable, why, "a larger share"));
        }
        if false_alarm + missed >= 1.0 || cap == 0 || cap > 100_000 {
            return Err(Fault::value("cap", cap as f64, "this is out of range", "a whole number from 1 to 100000"));
        }
        Ok(Self { acceptable, unacceptable, false_alarm, missed, cap })
    }

    /// Returns slope s and intercepts h₁, h₂ of the two lines (Wald 1947): k = ln[p₁(1−p₀)/(p₀(1−p₁))],
    /// s = ln[(1−p₀)/(1−p₁)]/k, h₁ = ln[(1−α)/β]/k, h₂ = ln[(1−β)/α]/k.
    pub fn lines(&self) -> (f64, f64, f64) {
        let (p0, p1) = (self.acceptable, self.unacceptable);
        let k = (p1 * (1.0 - p0) / (p0 * (1.0 - p1))).ln();
        let s = ((1.0 - p0) / (1.0 - p1)).ln() / k;
        (s, ((1.0 - self.false_alarm) / self.missed).ln() / k, ((1.0 - self.missed) / self.false_alarm).ln() / k)
    }

    /// Returns what to do after `drawn` with `bad` among them: acceptable if bad ≤ s n − h₁, not acceptable if
    /// bad ≥ s n + h₂, else another.
    pub fn verdict(&self, drawn: u64, bad: u64) -> Verdict {
        let (s, h1, h2) = self.lines();
        let (n, x) = (drawn as f64, bad as f64);
        if x <= s * n - h1 {
            Verdict::Acceptable
        } else if x >= s * n + h2 {
            Verdict::Unacceptable
        } else if drawn >= self.cap {
            Verdict::Undecided
        } else {
            Verdict::DrawAnother
        }
    }

    /// Returns for x = 0, 1, … bad the number drawn at which to stop as acceptable, up to the cap.
    pub fn accept_at(&self) -> Vec<(u64, u64)> {
        let (s, h1, _) = self.lines();
        (0..)
            .map(|bad: u64| (bad, ((bad as f64 + h1) / s - 1e-9).ceil() as u64))
            .take_while(|(_, drawn)| *drawn <= self.cap)
            .collect()
    }

    /// Returns for x bad the greatest number drawn up to which x bad stop it as not acceptable, for each x that
    /// can, up to the cap.
    pub fn reject_up_to(&self) -> Vec<(u64, u64)> {
        let (s, _, h2) = self.lines();
        let mut rows = Vec::new();
        for bad in 1..=self.cap {
            let drawn = ((bad as f64 - h2) / s + 1e-9).floor();
            if drawn < bad as f64 {
                continue;
            }
            rows.push((bad, (drawn as u64).min(self.cap)));
            if drawn as u64 >= self.cap {
                break;
            }
        }
        rows
    }

    /// Returns the plan's exact chances when `bad` of `population` are bad, drawing without putting back.
    ///
    /// # Errors
    /// When there is no population or more bad than it.
    pub fn operating(&self, population: u64, bad: u64) -> Result<Operating, Fault> {
        super::sample::population_checked(population)?;
        super::sample::counted("bad", bad, population)?;
        let mut ends = Operating { acceptable: 0.0, unacceptable: 0.0, undecided: 0.0, mean_drawn: 0.0 };
        let last = self.cap.min(population);
        // alive[x]: the chance of still drawing with x bad so far
        let mut alive = vec![1.0_f64];
        for drawn in 1..=last {
            let left = (population - drawn + 1) as f64;
            let mut next = vec![0.0; alive.len() + 1];
            for (found, chance) in alive.iter().enumerate() {
                let bad_left = bad.saturating_sub(found as u64) as f64;
                next[found + 1] += chance * bad_left / left;
                next[found] += chance * (1.0 - bad_left / left);
            }
            for (found, chance) in next.iter_mut().enumerate() {
                let verdict = match self.verdict(drawn, found as u64) {
                    Verdict::DrawAnother if drawn == last => Verdict::Undecided,
                    verdict => verdict,
                };
                let end = match verdict {
                    Verdict::DrawAnother => continue,
                    Verdict::Acceptable => &mut ends.acceptable,
                    Verdict::Unacceptable => &mut ends.unacceptable,
                    Verdict::Undecided => &mut ends.undecided,
                };
                *end += *chance;
                ends.mean_drawn += *chance * drawn as f64;
                *chance = 0.0;
            }
            alive = next;
        }
        Ok(ends)
    }
}
