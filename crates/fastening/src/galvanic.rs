//! Pairs of metals in sea water: which one corrodes for the other.

use crate::Fault;
use crate::table_text::{number, rows, words};
use std::sync::LazyLock;

/// Difference over which the more negative metal is said to corrode, mV.
pub const MATTERS_MV: f64 = 200.0;

/// The potential of a metal in sea water as one source prints it.
#[derive(Clone, Debug, PartialEq)]
pub struct Potential {
    /// Metal as the source names it.
    pub metal: String,
    /// Noble (less negative) end, mV.
    pub noble_mv: f64,
    /// Base (more negative) end, mV.
    pub base_mv: f64,
    /// Reference electrode.
    pub electrode: String,
    /// Source.
    pub source: String,
}

/// Two metals of one source set against each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The metal that corrodes if either does: the more negative.
    pub corrodes: Potential,
    /// The metal that is protected.
    pub protected: Potential,
    /// Least and greatest difference in mV over the printed ranges; the least is 0 where they overlap.
    pub difference_mv: (f64, f64),
    /// What that says, in a sentence.
    pub reading: String,
}

/// Returns the pairings of two metals, one for each source that lists both. Rows of different sources are never
/// mixed, since sources disagree by up to 150 mV.
///
/// # Errors
/// When no source lists both.
pub fn pairs(one: &str, other: &str) -> Result<Vec<Pair>, Fault> {
    let mut found = Vec::new();
    for a in listed(one)? {
        for b in listed(other)? {
            if a.source == b.source && a != b {
                found.push(pair(a, b));
            }
        }
    }
    if found.is_empty() {
        return Err(Fault::Meaningless(format!("No one source lists both {one} and {other}.")));
    }
    Ok(found)
}

/// Returns the rows that name a metal.
///
/// # Errors
/// When none does; the message lists what is there.
pub fn listed(metal: &str) -> Result<Vec<&'static Potential>, Fault> {
    let wanted: Vec<String> =
        metal.to_lowercase().replace(['-', '_'], " ").split_whitespace().map(str::to_owned).collect();
    let has = |p: &&Potential| {
        let name = p.metal.to_lowercase();
        let words: Vec<&str> = name.split(|c: char| !c.is_alphanumeric()).collect();
        !wanted.is_empty() && wanted.iter().all(|w| words.contains(&w.as_str()))
    };
    let rows: Vec<_> = table().iter().filter(has).collect();
    if rows.is_empty() {
        let mut names: Vec<_> = table().iter().map(|p| p.metal.clone()).collect();
        names.dedup();
        return Err(Fault::text("metal", metal, "this metal is not in the galvanic series", names.join("; ")));
    }
    Ok(rows)
}

fn pair(a: &Potential, b: &Potential) -> Pair {
    let middle = |p: &Potential| (p.noble_mv + p.base_mv) / 2.0;
    let (corrodes, protected) = if middle(a) <= middle(b) { (a, b) } else { (b, a) };
    let least = (protected.base_mv - corrodes.noble_mv).max(0.0);
    let greatest = protected.noble_mv - corrodes.base_mv;
    let reading = if least > MATTERS_MV {
        format!(
            "{} corrodes for {}: {least:.0} to {greatest:.0} mV apart, over the {MATTERS_MV:.0} mV from which it matters.",
            corrodes.metal, protected.metal
        )
    } else if greatest <= MATTERS_MV {
        format!(
            "{} and {} are at most {greatest:.0} mV apart: little galvanic attack.",
            corrodes.metal, protected.metal
        )
    } else {
        format!(
            "{} may corrode for {}: {least:.0} to {greatest:.0} mV apart by the printed ranges; measure it.",
            corrodes.metal, protected.metal
        )
    };
    Pair { corrodes: corrodes.clone(), protected: protected.clone(), difference_mv: (least, greatest), reading }
}

/// Returns the whole table.
pub fn table() -> &'static [Potential] {
    static TABLE: LazyLock<Vec<Potential>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some(Potential {
                metal: words(&row, 0)?,
                noble_mv: number(&row, 1)?,
                base_mv: number(&row, 2)?,
                electrode: words(&row, 3)?,
                source: words(&row, 4)?,
            })
        };
        rows(include_str!("../data/galvanic-series.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}
