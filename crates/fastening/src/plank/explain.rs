//! Does the curve explain the larger bungs? The reasoning, step by step.

use super::relax::relaxed;
use super::sprung::Asked;
use crate::Fault;
use crate::planking_table::BungReading;

/// Ratio of force to what the customary fastening is allowed, from which the curve is reason enough. A convention of
/// this workbench, not published.
pub const REASON_ENOUGH: f64 = 1.0;
/// Ratio below which the curve cannot be the reason. A convention of this workbench, not published.
pub const NO_REASON: f64 = 0.3;

/// Where the larger bungs are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Where {
    /// Only at ends: hood ends, butts, and the last rows of the run.
    Ends,
    /// Only in the middle of the run.
    Middle,
    /// All along it.
    Throughout,
}

/// What can be said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// The curve is reason enough.
    Explained,
    /// The curve cannot be the reason.
    NotExplained,
    /// Not to be told from the curve; the test that would tell is named.
    Undecided,
    /// There is nothing to explain: the bung is customary, or within a size of it.
    NothingToExplain,
}

impl Verdict {
    /// Returns it in a word or two.
    pub fn in_words(self) -> &'static str {
        match self {
            Verdict::Explained => "yes",
            Verdict::NotExplained => "no",
            Verdict::Undecided => "undecided",
            Verdict::NothingToExplain => "nothing to explain",
        }
    }
}

/// How the curve stands to one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowVerdict {
    /// Row, 1 first.
    pub row: usize,
    /// Force over what the customary fastening is allowed, new.
    pub ratio_new: f64,
    /// Whether a curve can be the reason for a larger fastening there.
    pub verdict: Verdict,
}

/// The answer with its reasons.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// The answer.
    pub verdict: Verdict,
    /// Each row.
    pub rows: Vec<RowVerdict>,
    /// The reasoning, in sentences.
    pub reasons: Vec<String>,
    /// What would tell, in sentences.
    pub next: Vec<String>,
}

/// Returns whether the curve explains larger bungs. `customary_n` is what the *customary* fastening for the plank is
/// allowed (the least of thread, head and root, adjusted); `weakest` names which that is.
///
/// # Errors
/// When the holding is not greater than nothing or the years are out of range.
pub fn explain(
    bung: &BungReading,
    asked: &Asked,
    customary_n: f64,
    weakest: &str,
    place: Where,
    years: f64,
) -> Result<Explanation, Fault> {
    let customary_n = Fault::positive("customary_n", customary_n)?;
    let left = relaxed(years)?;
    let rows: Vec<RowVerdict> =
        asked.rows.iter().enumerate().map(|(i, row)| row_verdict(i, row.per_fastening_n / customary_n)).collect();
    let (can, cannot): (Vec<_>, Vec<_>) = rows.iter().partition(|row| row.ratio_new >= NO_REASON);
    let at = match place {
        Where::Ends => greatest(&[rows.first(), rows.last()]),
        Where::Middle | Where::Throughout => {
            let middle: Vec<_> = middle(&rows).iter().map(Some).collect();
            if place == Where::Middle { greatest(&middle) } else { least(&middle) }
        }
    };
    let mut reasons = vec![bung.reading.clone()];
    reasons.push(format!(
        "The bend asks {:.0} N of each fastening at row {} when new; the customary #{} is allowed {customary_n:.0} N there, \
         its {weakest} being the weakest: a ratio of {:.2} when new, {:.2} to {:.2} after the years given.",
        asked.force_per_fastening_n,
        asked.worst_row + 1,
        bung.customary.gauge,
        asked.force_per_fastening_n / customary_n,
        left.low * asked.force_per_fastening_n / customary_n,
        left.high * asked.force_per_fastening_n / customary_n
    ));
    reasons.push(rows_sentence(&can, &cannot));
    let verdict = match (bung.excess_sixteenths, place) {
        (i32::MIN..=1, _) => Verdict::NothingToExplain,
        (_, Where::Throughout) if at < NO_REASON => Verdict::NotExplained,
        _ => judged(at),
    };
    reasons.push(conclusion(verdict, place, at));
    Ok(Explanation { verdict, rows, reasons, next: next(verdict, weakest) })
}

fn row_verdict(index: usize, ratio_new: f64) -> RowVerdict {
    RowVerdict { row: index + 1, ratio_new, verdict: judged(ratio_new) }
}

fn judged(ratio: f64) -> Verdict {
    if ratio >= REASON_ENOUGH {
        Verdict::Explained
    } else if ratio < NO_REASON {
        Verdict::NotExplained
    } else {
        Verdict::Undecided
    }
}

/// The rows that are neither the last two at either end, or all but the ends in a short run.
fn middle(rows: &[RowVerdict]) -> &[RowVerdict] {
    let n = rows.len();
    if n >= 7 { &rows[3..n - 3] } else { &rows[1..n - 1] }
}

fn greatest(rows: &[Option<&RowVerdict>]) -> f64 {
    rows.iter().flatten().map(|row| row.ratio_new).fold(0.0, f64::max)
}

fn least(rows: &[Option<&RowVerdict>]) -> f64 {
    rows.iter().flatten().map(|row| row.ratio_new).fold(f64::INFINITY, f64::min)
}

fn rows_sentence(can: &[&RowVerdict], cannot: &[&RowVerdict]) -> String {
    let list = |rows: &[&RowVerdict]| rows.iter().map(|r| r.row.to_string()).collect::<Vec<_>>().join(", ");
    match (can.is_empty(), cannot.is_empty()) {
        (true, _) => "In no row is the force enough for the curve to be the reason.".to_owned(),
        (_, true) => "In every row the curve may be the reason.".to_owned(),
        _ => format!(
            "The curve may be the reason at rows {}; it cannot be at rows {}, where an even curve asks little or presses the \
             plank on to the frame.",
            list(can),
            list(cannot)
        ),
    }
}

fn conclusion(verdict: Verdict, place: Where, ratio: f64) -> String {
    let there = match place {
        Where::Ends => "at the ends",
        Where::Middle => "in the middle of the run",
        Where::Throughout => "all along the run, the middle included",
    };
    match verdict {
        Verdict::NothingToExplain => {
            "The bung is customary or within a size of it: there is nothing for the curve to explain.".to_owned()
        }
        Verdict::Explained => format!(
            "Larger fastenings {there} are explained by the curve: the ratio there is {ratio:.2}, at or over {REASON_ENOUGH}."
        ),
        Verdict::NotExplained => format!(
            "Larger fastenings {there} are not explained by the curve: the ratio there is {ratio:.2}, under {NO_REASON}. \
             Refastening, repair or lost holding is the better explanation."
        ),
        Verdict::Undecided => format!(
            "The curve alone does not settle larger fastenings {there}: the ratio there is {ratio:.2}, between {NO_REASON} \
             and {REASON_ENOUGH}."
        ),
    }
}

fn next(verdict: Verdict, weakest: &str) -> Vec<String> {
    let mut next = Vec::new();
    match verdict {
        Verdict::NothingToExplain => {}
        Verdict::Explained => next.push(format!(
            "Look for what answers the {weakest}: a washer or larger head under the bung, a screw one gauge up, a through bolt."
        )),
        Verdict::NotExplained | Verdict::Undecided => {
            next.push("Draw one of the larger and one of the customary and measure both.".to_owned());
            next.push("Free one plank end and measure how far it springs: that is the direct test of the force.".to_owned());
            next.push("Probe and meter the frame round the larger bungs.".to_owned());
        }
    }
    next.push(
        "Against the curve speak doubled bungs beside old ones, bungs off the frame's middle, bungs set across the grain, one \
         side only, one frame rather than one strake, or the garboard alone."
            .to_owned(),
    );
    next
}
