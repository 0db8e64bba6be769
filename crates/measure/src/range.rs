//! Quantities known only within bounds: `12 ± 1 mm`, `10 to 12 mm`.

use crate::scan::is_of_number;
use crate::{Fault, Quantity, System};

/// A quantity between two bounds, both included. What the bounds mean (all that was seen, a standard deviation, a
/// guess) is for whoever keeps the range to say.
///
/// ```
/// use measure::{Length, Range, System};
/// let gap: Range<Length> = Range::read("12 ± 1 mm")?;
/// assert_eq!((gap.low().mm(), gap.high().mm()), (11.0, 13.0));
/// assert_eq!(gap.write(System::Metric), "11 mm to 13 mm");
/// assert_eq!(gap.write_middle(System::Metric), "12 mm ± 1 mm");
/// # Ok::<(), measure::Fault>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range<Q> {
    low: Q,
    high: Q,
}

impl<Q: Quantity> Range<Q> {
    /// Returns the range between two bounds, or none when they are the wrong way round or not numbers.
    pub fn between(low: Q, high: Q) -> Option<Self> {
        (low.base() <= high.base()).then_some(Self { low, high })
    }

    /// Reads a range: `12 ± 1 mm`, `12 +/- 1 mm`, `10 to 12 mm`, `10–12 mm`, `1/4" - 1/2"`. A unit written once, at
    /// the end, is that of both figures. A single quantity is a range of no width.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let alone = match Q::read(text) {
            Ok(only) => return Ok(Self { low: only, high: only }),
            Err(fault) => fault,
        };
        let chars: Vec<char> = text.chars().collect();
        let Some(split) = split(&chars) else { return Err(alone) };
        let right_from = split.at + split.len;
        let (left, right) = (&chars[..split.at], &chars[right_from..]);
        let left_text = with_unit(left, right);
        let right_text: String = right.iter().collect();
        // With no unit anywhere, the place where one is missing is the end.
        if left_text.chars().all(is_of_number) {
            Q::read(&right_text).map_err(|fault| fault.moved(right_from))?;
        }
        let first = Q::read(&left_text).map_err(|fault| within(fault, left.len()))?;
        let (low, high) = if split.plus_minus {
            let half = Q::read_difference(&right_text).map_err(|fault| fault.moved(right_from))?;
            if half < 0.0 {
                return Err(Fault::new(right_from + 1, "what follows ± must not be negative"));
            }
            (Q::from_base(first.base() - half), Q::from_base(first.base() + half))
        } else {
            (first, Q::read(&right_text).map_err(|fault| fault.moved(right_from))?)
        };
        Self::between(low, high)
            .ok_or_else(|| Fault::new(right_from + 1, "a range goes from the lesser to the greater"))
    }

    /// Returns the lower bound.
    pub fn low(&self) -> Q {
        self.low
    }

    /// Returns the upper bound.
    pub fn high(&self) -> Q {
        self.high
    }

    /// Returns the value half-way between the bounds.
    pub fn middle(&self) -> Q {
        Q::from_base(self.low.base() / 2.0 + self.high.base() / 2.0)
    }

    /// Returns half the distance between the bounds, in the base unit of the quantity.
    pub fn half_width(&self) -> f64 {
        self.high.base() / 2.0 - self.low.base() / 2.0
    }

    /// Tells whether the quantity lies within the bounds.
    pub fn holds(&self, quantity: Q) -> bool {
        (self.low.base()..=self.high.base()).contains(&quantity.base())
    }

    /// Writes the two bounds: `11 mm to 13 mm`, or one of them when both are written alike.
    pub fn write(&self, system: System) -> String {
        let (low, high) = (self.low.write(system), self.high.write(system));
        if low == high { low } else { format!("{low} to {high}") }
    }

    /// Writes the middle and half the width: `12 mm ± 1 mm`. Both are rounded as the quantity is, so prefer
    /// [`Range::write`] where the bounds matter.
    pub fn write_middle(&self, system: System) -> String {
        format!("{} ± {}", self.middle().write(system), Q::write_difference(self.half_width(), system))
    }
}

/// Where the two figures of a range part.
struct Split {
    at: usize,
    len: usize,
    plus_minus: bool,
}

/// Finds the sign between two figures, the plainest first.
fn split(chars: &[char]) -> Option<Split> {
    let signs: [(&str, bool); 10] = [
        ("±", true),
        ("+/-", true),
        ("+-", true),
        (" to ", false),
        ("…", false),
        ("–", false),
        ("—", false),
        (" - ", false),
        ("..", false),
        ("-", false),
    ];
    for (sign, plus_minus) in signs {
        let sign: Vec<char> = sign.chars().collect();
        // Never at the very beginning, where a dash is a minus.
        let found = (1..chars.len()).find(|at| chars[*at..].starts_with(&sign));
        if let Some(at) = found {
            return Some(Split { at, len: sign.len(), plus_minus });
        }
    }
    None
}

/// Returns the left figure, with the unit of the right one when it has none of its own.
fn with_unit(left: &[char], right: &[char]) -> String {
    let mut text: String = left.iter().collect();
    let bare = left.iter().all(|c| is_of_number(*c));
    let from = right.iter().position(|c| !is_of_number(*c)).unwrap_or(right.len());
    let unit: String = right[from..].iter().collect();
    // 3'-4" is not one figure with one unit, but m3 is.
    let single = !unit.trim_end().trim_end_matches('3').contains(|c: char| c.is_ascii_digit());
    let after_a_number = right[..from].iter().any(|c| *c != ' ');
    if bare && single && after_a_number {
        text.push_str(&unit);
    }
    text
}

/// Keeps a fault of the left figure within that figure, where the unit it borrowed does not stand.
fn within(mut fault: Fault, left: usize) -> Fault {
    fault.at = fault.at.min(left + 1);
    fault
}
