//! Metals of fastenings and their strength.

use crate::Fault;
use crate::table_text::{mark, number, rows, words};
use std::sync::LazyLock;
use timber::Mark;

/// A metal with its strength as a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Metal {
    /// Short stable name, e.g. `silicon-bronze`.
    pub id: String,
    /// Name in words.
    pub name: String,
    /// Ultimate strength in N/mm², low and high.
    pub ultimate_mpa: (f64, f64),
    /// Yield or 0.2 % proof strength in N/mm², low and high.
    pub yield_mpa: (f64, f64),
    /// What the figures rest on.
    pub mark: Mark,
    /// Source.
    pub source: String,
}

impl Metal {
    /// Returns a sentence to show beside an answer that rests on the strength, when one is called for.
    pub fn caution(&self) -> Option<String> {
        (self.mark == Mark::FromMemory).then(|| {
            format!(
                "The strength of {} is from memory ({}), unconfirmed, and of new metal; a bolt's own metal is known \
                 only by test.",
                self.name, self.source
            )
        })
    }

    /// Returns the bending yield strength in N/mm², low and high, as the mean of yield and ultimate (convention
    /// of the National Design Specification Appendix I, from memory).
    pub fn bending_yield_mpa(&self) -> (f64, f64) {
        let mean = |a: f64, b: f64| (a + b) / 2.0;
        (mean(self.yield_mpa.0, self.ultimate_mpa.0), mean(self.yield_mpa.1, self.ultimate_mpa.1))
    }
}

/// Returns all metals.
pub fn table() -> &'static [Metal] {
    static TABLE: LazyLock<Vec<Metal>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some(Metal {
                id: words(&row, 0)?,
                name: words(&row, 1)?,
                ultimate_mpa: (number(&row, 2)?, number(&row, 3)?),
                yield_mpa: (number(&row, 4)?, number(&row, 5)?),
                mark: mark(&row, 6)?,
                source: words(&row, 7)?,
            })
        };
        rows(include_str!("../data/metals.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}

/// Finds a metal by its short name or its name in words.
///
/// # Errors
/// When it is not in the table; the message lists what is.
pub fn find(name: &str) -> Result<&'static Metal, Fault> {
    let plain = |s: &str| s.to_lowercase().replace([' ', '_'], "-");
    let wanted = plain(name.trim());
    let called = match wanted.as_str() {
        "steel" | "iron" | "carbon-steel" => "mild-steel",
        "galvanised-iron" | "galvanized-steel" | "galvanized-iron" => "galvanised-steel",
        "stainless" | "stainless-steel" | "stainless-304" | "316" => "stainless-316",
        "bronze" => "silicon-bronze",
        "brass" => "naval-brass",
        "monel-400" => "monel",
        other => other,
    };
    table().iter().find(|metal| metal.id == called || plain(&metal.name) == called).ok_or_else(|| {
        let names: Vec<_> = table().iter().map(|metal| metal.id.clone()).collect();
        Fault::text("metal", name, "this metal is not in the table", names.join(", "))
    })
}
