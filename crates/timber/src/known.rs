//! A figure with what it rests on.

/// How a figure came into the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// Read in the source named, or in a reprint or transcription of it (the source says which).
    Read,
    /// Worked out from figures that were read; the source says how.
    Derived,
    /// Set down from memory of the source named and not confirmed since.
    FromMemory,
}

impl Mark {
    /// Returns the mark in words: `read`, `derived`, `from memory`.
    pub fn words(self) -> &'static str {
        match self {
            Mark::Read => "read",
            Mark::Derived => "derived",
            Mark::FromMemory => "from memory",
        }
    }

    pub(crate) fn from_table(word: &str) -> Option<Self> {
        match word {
            "read" => Some(Mark::Read),
            "derived" => Some(Mark::Derived),
            "memory" => Some(Mark::FromMemory),
            _ => None,
        }
    }
}

/// One figure, the range over which sources disagree, its mark and its source. The unit is that of the field
/// that holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// The figure to reckon with.
    pub value: f64,
    /// Least value that a source gives; equals `value` when sources agree or only one is known.
    pub low: f64,
    /// Greatest value that a source gives; equals `value` when sources agree or only one is known.
    pub high: f64,
    /// How it came into the table.
    pub mark: Mark,
    /// Title, edition and table, with what other sources say.
    pub source: &'static str,
}

impl Known {
    /// Returns whether sources disagree.
    pub fn is_in_conflict(&self) -> bool {
        self.high > self.low
    }

    /// Returns whether the figure can be shown without a caution: not from memory and no conflict.
    pub fn is_firm(&self) -> bool {
        self.mark != Mark::FromMemory && !self.is_in_conflict()
    }

    /// Returns the same figure put through a rising or falling function, ends and mark kept.
    pub fn map(&self, f: impl Fn(f64) -> f64) -> Self {
        let (a, b) = (f(self.low), f(self.high));
        Self { value: f(self.value), low: a.min(b), high: a.max(b), ..*self }
    }

    /// Returns a sentence to show beside an answer that rests on this figure, when one is called for.
    /// `what` names the figure, e.g. `specific gravity of iroko`.
    pub fn caution(&self, what: &str) -> Option<String> {
        let range = format!("sources give {} to {}", short(self.low), short(self.high));
        match (self.mark, self.is_in_conflict()) {
            (Mark::FromMemory, true) => {
                Some(format!("The {what} is from memory, unconfirmed, and {range} ({}).", self.source))
            }
            (Mark::FromMemory, false) => Some(format!("The {what} is from memory, unconfirmed ({}).", self.source)),
            (_, true) => Some(format!("For the {what} {range} ({}).", self.source)),
            (_, false) => None,
        }
    }
}

/// A class or group in words, with its mark and source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rating {
    /// The class or group as its source words it, e.g. `2-3`, `resistant or very resistant`.
    pub words: &'static str,
    /// How it came into the table.
    pub mark: Mark,
    /// Title, edition and table.
    pub source: &'static str,
}

/// Writes a number with three figures or so, for a sentence.
fn short(value: f64) -> String {
    let decimals = match value.abs() {
        v if v >= 100.0 => 0,
        v if v >= 10.0 => 1,
        v if v >= 0.1 => 2,
        _ => 5,
    };
    format!("{value:.decimals$}")
}
