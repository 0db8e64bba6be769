//! What is drawn on the boat: conditions by hatching, and marks.

use crate::Place;
use drawing::Hatch;

/// The condition of a place: bare = sound, sparse = watch, close = work needed, solid = failed; a dashed
/// outline = not seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Condition {
    /// Where.
    pub place: Place,
    /// How it is filled.
    pub hatch: Hatch,
    /// Whether the outline is dashed: not seen.
    pub dashed: bool,
    /// A word or two drawn beside it, or empty. The hatch alone should never have to carry the meaning.
    pub word: String,
}

impl Condition {
    /// Returns a place that was seen, filled by hatching.
    pub fn seen(place: Place, hatch: Hatch) -> Condition {
        Condition { place, hatch, dashed: false, word: String::new() }
    }

    /// Returns a place that was not seen.
    pub fn not_seen(place: Place) -> Condition {
        Condition { place, hatch: Hatch::Bare, dashed: true, word: String::new() }
    }

    /// Returns the same with a word beside it.
    pub fn word(mut self, word: impl Into<String>) -> Condition {
        self.word = word.into();
        self
    }
}

/// What a mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkKind {
    /// Something observed: a ring.
    Observation,
    /// A photograph: a small square with a dot.
    Photograph,
    /// A fastening drawn: a ring with a cross.
    Draw,
    /// A blow with the hammer: a tick.
    Blow,
    /// A moisture reading: a lozenge.
    Moisture,
    /// A butt of planking: a short line across the strake.
    Butt,
    /// A scarph of planking: a slanting line across the strake.
    Scarph,
}

impl MarkKind {
    /// Every kind, in the order of the key.
    pub const ALL: [MarkKind; 7] = [
        MarkKind::Observation,
        MarkKind::Photograph,
        MarkKind::Draw,
        MarkKind::Blow,
        MarkKind::Moisture,
        MarkKind::Butt,
        MarkKind::Scarph,
    ];

    /// Returns the kind's word.
    pub const fn word(self) -> &'static str {
        match self {
            MarkKind::Observation => "observation",
            MarkKind::Photograph => "photograph",
            MarkKind::Draw => "fastening drawn",
            MarkKind::Blow => "blow",
            MarkKind::Moisture => "moisture",
            MarkKind::Butt => "butt",
            MarkKind::Scarph => "scarph",
        }
    }
}

/// A mark at a place, with a word beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where; for a stretch its middle.
    pub place: Place,
    /// What it stands for.
    pub kind: MarkKind,
    /// Word or number beside it, or empty.
    pub word: String,
}

impl Mark {
    /// Returns a mark.
    pub fn new(place: Place, kind: MarkKind, word: impl Into<String>) -> Mark {
        Mark { place, kind, word: word.into() }
    }
}
