//! The value that adjusted comparables point to.

use super::{Adjusted, Adjustments, Comparable};
use crate::Fault;
use crate::robust::{MedianRange, hodges_lehmann, median, median_absolute_deviation, median_range};

/// The published definition of value on which an opinion rests.
pub const FAIR_MARKET_VALUE: &str = "Fair market value: the price at which the property would change hands between a willing buyer \
     and a willing seller, neither being under any compulsion to buy or to sell and both having reasonable knowledge of relevant \
     facts (26 CFR 20.2031-1(b); United States v. Cartwright, 411 U.S. 546 (1973))";

/// Confidence wanted of the range, in percent.
const WANTED_PERCENT: f64 = 90.0;

/// What adjusted comparables point to.
#[derive(Clone, Debug, PartialEq)]
pub struct Opinion {
    /// Low end.
    pub low: f64,
    /// Middle: the median of the adjusted prices.
    pub middle: f64,
    /// High end.
    pub high: f64,
    /// The range and how far it can be trusted.
    pub range: MedianRange,
    /// Median of the means of pairs, beside the median.
    pub hodges_lehmann: f64,
    /// Median of the distances from the median.
    pub median_absolute_deviation: f64,
    /// The method, in words.
    pub method: String,
    /// The comparables with their adjustments.
    pub adjusted: Vec<Adjusted>,
}

/// Returns what the comparables point to: their median, and as a range the exact 90 % interval of the median where there are
/// enough of them, else simply from the lowest to the highest.
///
/// # Errors
/// There are no comparables, or an adjustment for all of them makes no sense.
pub fn opinion(comparables: &[Comparable], table: &Adjustments) -> Result<Opinion, Fault> {
    check(table)?;
    let adjusted: Vec<Adjusted> = comparables.iter().map(|comparable| comparable.adjusted(table)).collect();
    let prices: Vec<f64> = adjusted.iter().map(|a| a.price).collect();
    let range = median_range(&prices, WANTED_PERCENT)
        .ok_or_else(|| Fault::Nothing("an opinion without comparables is only an assertion".to_owned()))?;
    Ok(Opinion {
        low: range.low,
        middle: median(&prices),
        high: range.high,
        hodges_lehmann: hodges_lehmann(&prices),
        median_absolute_deviation: median_absolute_deviation(&prices),
        method: method(prices.len(), &range),
        range,
        adjusted,
    })
}

fn method(count: usize, range: &MedianRange) -> String {
    let boats = if count == 1 { "one adjusted comparable".to_owned() } else { format!("{count} adjusted comparables") };
    let chance = range.coverage_percent;
    match count {
        1 => format!(
            "sales comparison: {boats}; a single price has no range, and the figure is little more than an assertion"
        ),
        _ if range.is_whole_range => format!(
            "sales comparison: median of {boats}; the range is from the lowest to the highest, which would hold the median of such boats with a chance of {chance:.0} % if they were drawn at random"
        ),
        _ => format!(
            "sales comparison: median of {boats}; the range is between order statistics and would hold the median of such boats with a chance of {chance:.0} % if they were drawn at random"
        ),
    }
}

fn check(table: &Adjustments) -> Result<(), Fault> {
    let range = |name: &str, given: f64, accepted: &str| {
        Err(Fault::Range { name: name.to_owned(), given, accepted: accepted.to_owned() })
    };
    match table {
        Adjustments { asking_discount_percent: Some(p), .. } if !(0.0..100.0).contains(p) => {
            range("an asking discount in percent", *p, "a number from 0 to below 100")
        }
        Adjustments { length_m: Some(length), .. } if !(*length > 0.0 && length.is_finite()) => {
            range("a length in metres", *length, "a number above 0")
        }
        Adjustments { length_exponent: Some(power), .. } if !(0.0..=6.0).contains(power) => {
            range("a power of length", *power, "a number from 0 to 6")
        }
        _ => Ok(()),
    }
}
