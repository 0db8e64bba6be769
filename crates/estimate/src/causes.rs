//! What moves several lines at once: one cause common to all, and one for each trade.

use crate::Estimate;

/// How strongly each line's normal score follows the common cause, its trade's and its own. The squares add up to 1.
pub(crate) struct Causes {
    /// Weight of the cause common to all lines.
    pub(crate) common: f64,
    /// Weight of a trade's cause in the lines of that trade.
    pub(crate) within: f64,
    /// How many trades have a cause of their own.
    pub(crate) trades: usize,
    /// Each line's trade and the weight of what is its own.
    pub(crate) lines: Vec<Cause>,
}

/// What moves one line beside the common cause.
pub(crate) struct Cause {
    /// Its trade among those with a cause.
    pub(crate) trade: Option<usize>,
    /// Weight of what is its own.
    pub(crate) own: f64,
}

impl Causes {
    /// Returns the causes of an estimate's lines. A trade has a cause when it is named on two lines or more.
    pub(crate) fn of(estimate: &Estimate) -> Self {
        let common = estimate.dependence.clamp(0.0, 1.0);
        let together = estimate.trade_dependence.clamp(common, 1.0);
        let mut trades: Vec<&str> = Vec::new();
        let lines = estimate.lines.iter().map(|line| {
            let trade = line.trade.as_str();
            let shared = !trade.is_empty() && estimate.lines.iter().filter(|other| other.trade == trade).count() > 1;
            let trade = (shared && together > common).then(|| {
                trades.iter().position(|known| *known == trade).unwrap_or_else(|| {
                    trades.push(trade);
                    trades.len() - 1
                })
            });
            let left = 1.0 - if trade.is_some() { together } else { common };
            Cause { trade, own: libm::sqrt(left) }
        });
        let lines = lines.collect();
        Self { common: libm::sqrt(common), within: libm::sqrt(together - common), trades: trades.len(), lines }
    }

    /// Tells whether every line stands by itself.
    pub(crate) fn none(&self) -> bool {
        self.common == 0.0 && self.trades == 0
    }
}
