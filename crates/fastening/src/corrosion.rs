//! Published rates of corrosion in sea water, as ranges. They bound; they never certify.
//!
//! Under a plank, behind a bung or in a joint the water is stagnant and short of oxygen: open-water rates do not
//! hold there, and stainless steel goes active and pits. A measured loss goes before any of them.

use crate::metal::Metal;
use crate::table_text::{mark, number, rows, words};
use std::sync::LazyLock;
use timber::Mark;

/// A published rate of loss of thickness from one face.
#[derive(Clone, Debug, PartialEq)]
pub struct Rate {
    /// Short name of the metal.
    pub metal: String,
    /// Exposure in words.
    pub exposure: String,
    /// Least and greatest loss from one face, mm a year.
    pub mm_per_year: (f64, f64),
    /// What it rests on.
    pub mark: Mark,
    /// Remark.
    pub note: String,
    /// Source.
    pub source: String,
}

impl Rate {
    /// Returns the loss of diameter, mm a year: twice that of one face.
    pub fn diameter_mm_per_year(&self) -> (f64, f64) {
        (2.0 * self.mm_per_year.0, 2.0 * self.mm_per_year.1)
    }
}

/// Returns the published rates of a metal; empty when none can be used, as for stainless steel and Monel under
/// a plank, where only a measured pit tells.
pub fn rates(metal: &Metal) -> Vec<&'static Rate> {
    table().iter().filter(|rate| rate.metal == metal.id).collect()
}

/// Returns the least and greatest loss of diameter that any published rate of the metal gives, mm a year.
pub fn diameter_range_mm_per_year(metal: &Metal) -> Option<(f64, f64)> {
    let all = rates(metal);
    let low = all.iter().map(|rate| rate.diameter_mm_per_year().0).reduce(f64::min)?;
    let high = all.iter().map(|rate| rate.diameter_mm_per_year().1).reduce(f64::max)?;
    Some((low, high))
}

/// Returns what a general rate does not show for the metal, in a sentence.
pub fn hidden(metal: &Metal) -> &'static str {
    match metal.id.as_str() {
        "naval-brass" => {
            "Brass loses its zinc and keeps its size: count only the metal that is not coppery; a screw that breaks \
             red and granular counts as nothing in tension (trade practice, from memory)."
        }
        "stainless-316" | "monel" => {
            "This metal pits and rots in crevices where water is stagnant: no mean rate can be used, only the depth of \
             the deepest pit measured (from memory)."
        }
        "mild-steel" | "wrought-iron" | "galvanised-steel" | "lag-steel" => {
            "Iron and steel waist at the joint between timbers while head and nut look sound; measure the least \
             diameter over the whole length, in two directions (US Army TB 55-1900-201-45/1, 2-8)."
        }
        _ => {
            "Copper alloys slow down with time except Muntz metal (Tuthill 1987), but stray current takes them whatever \
             the rate."
        }
    }
}

/// Returns the whole table.
pub fn table() -> &'static [Rate] {
    static TABLE: LazyLock<Vec<Rate>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some(Rate {
                metal: words(&row, 0)?,
                exposure: words(&row, 1)?,
                mm_per_year: (number(&row, 2)?, number(&row, 3)?),
                mark: mark(&row, 4)?,
                note: words(&row, 5)?,
                source: words(&row, 6)?,
            })
        };
        rows(include_str!("../data/corrosion-rates.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}
