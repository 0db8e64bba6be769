//! Writing figures: rounding that never shows a nought with a minus, and fractions of an inch.

use crate::factor::inches_from_mm;

/// What is shown for a value that is no number; the readers never give one.
pub(crate) const NO_NUMBER: &str = "not a number";

/// Returns the value to so many decimals, never as `-0`.
pub(crate) fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.')) { text.replace('-', "") } else { text }
}

/// Returns the value to at most so many decimals, without noughts at the end.
pub(crate) fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Returns whether a length is shown with a minus, and its size in whole parts of an inch, so many to the inch.
pub(crate) fn parts_of_inch(mm: f64, to_the_inch: u32) -> (bool, u64) {
    let parts = (inches_from_mm(mm) * f64::from(to_the_inch)).round();
    // Float to integer casts saturate, and what is too great for such parts is never written in them.
    (parts < 0.0, parts.abs() as u64)
}

/// Returns parts of an inch, so many to the inch, as inches: `4 1/2`, `5/8`, `0`.
pub(crate) fn inches(parts: u64, to_the_inch: u32) -> String {
    let of = u64::from(to_the_inch);
    let (whole, mut top, mut below) = (parts / of, parts % of, of);
    while top != 0 && top % 2 == 0 {
        (top, below) = (top / 2, below / 2);
    }
    match (whole, top) {
        (whole, 0) => whole.to_string(),
        (0, top) => format!("{top}/{below}"),
        (whole, top) => format!("{whole} {top}/{below}"),
    }
}
