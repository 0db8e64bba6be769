//! What is drawn on the boat: conditions by hatching, and marks.

use crate::{Along, Place};
use drawing::Hatch;

/// The condition of a place: bare = nothing against it, sparse = watch, close = work needed, solid = failed; a dashed
/// outline = not seen; dots = nothing recorded yet.
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
    /// What it rests on, for a page that is pointed at: the name of an entry, or empty.
    pub entry: String,
}

impl Condition {
    /// Returns a place that was seen, filled by hatching.
    pub fn seen(place: Place, hatch: Hatch) -> Condition {
        Condition { place, hatch, dashed: false, word: String::new(), entry: String::new() }
    }

    /// Returns a place that was not seen.
    pub fn not_seen(place: Place) -> Condition {
        Condition { dashed: true, ..Condition::seen(place, Hatch::Bare) }
    }

    /// Returns a place of which nothing is recorded yet: it may or may not have been looked at.
    pub fn not_recorded(place: Place) -> Condition {
        Condition::seen(place, Hatch::Dots)
    }

    /// Tells whether nothing is recorded of the place.
    pub fn is_not_recorded(&self) -> bool {
        self.hatch == Hatch::Dots
    }

    /// Returns the same with a word beside it.
    pub fn word(mut self, word: impl Into<String>) -> Condition {
        self.word = word.into();
        self
    }

    /// Returns the same resting on an entry.
    pub fn of(mut self, entry: impl Into<String>) -> Condition {
        self.entry = entry.into();
        self
    }

    /// Returns what the hatching and the outline say, in words.
    pub const fn state(&self) -> &'static str {
        match (self.dashed, self.hatch) {
            (true, _) => "not seen",
            (_, Hatch::Sparse) => "watch",
            (_, Hatch::Close) => "work needed",
            (_, Hatch::Solid) => "failed",
            (_, Hatch::Dots) => "nothing recorded yet",
            _ => "nothing against it",
        }
    }
}

/// What a mark stands for. What speaks against a member is drawn solid, what does not is drawn open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkKind {
    /// Something observed: a ring.
    Observation,
    /// Something observed that speaks against the member: a solid disc.
    ObservationAgainst,
    /// A photograph: a small square with a dot.
    Photograph,
    /// A fastening drawn and found good: a ring with a cross.
    Draw,
    /// A fastening drawn and found wasted, broken or without bite: a solid disc with a cross left out.
    DrawAgainst,
    /// A fastening picked and still to be drawn: a broken ring about a point.
    ToDraw,
    /// A fastening that would not draw: a cross.
    WouldNotDraw,
    /// A blow with the hammer that rings: an open triangle, point down.
    BlowRings,
    /// A blow that is dull or hollow: a solid triangle, point down.
    BlowDull,
    /// A blow that chatters: a triangle split down the middle, half of it solid.
    BlowChatters,
    /// A blow of which it cannot be told: an open triangle with a bar across.
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
    pub const ALL: [MarkKind; 14] = [
        MarkKind::Observation,
        MarkKind::ObservationAgainst,
        MarkKind::Photograph,
        MarkKind::Draw,
        MarkKind::DrawAgainst,
        MarkKind::ToDraw,
        MarkKind::WouldNotDraw,
        MarkKind::BlowRings,
        MarkKind::BlowDull,
        MarkKind::BlowChatters,
        MarkKind::Blow,
        MarkKind::Moisture,
        MarkKind::Butt,
        MarkKind::Scarph,
    ];

    /// Returns the kind's word.
    pub const fn word(self) -> &'static str {
        match self {
            MarkKind::Observation => "observation",
            MarkKind::ObservationAgainst => "observation against it",
            MarkKind::Photograph => "photograph",
            MarkKind::Draw => "fastening drawn, good",
            MarkKind::DrawAgainst => "fastening drawn, not good",
            MarkKind::ToDraw => "fastening to draw",
            MarkKind::WouldNotDraw => "fastening would not draw",
            MarkKind::BlowRings => "blow rings",
            MarkKind::BlowDull => "blow dull or hollow",
            MarkKind::BlowChatters => "blow chatters",
            MarkKind::Blow => "blow, cannot be told",
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
    /// The name of the entry it stands for, for a page that is pointed at; or empty.
    pub entry: String,
}

impl Mark {
    /// Returns a mark.
    pub fn new(place: Place, kind: MarkKind, word: impl Into<String>) -> Mark {
        Mark { place, kind, word: word.into(), entry: String::new() }
    }

    /// Returns the same standing for an entry.
    pub fn of(mut self, entry: impl Into<String>) -> Mark {
        self.entry = entry.into();
        self
    }
}

/// Returns what a page is told of a place when it is pointed at: side, strakes, frames, member.
pub(crate) fn told_of(place: &Place) -> Vec<(&'static str, String)> {
    let mut told = Vec::new();
    let mut along = |from: Along, to: Along| {
        let number = |a: Along| match a {
            Along::Frame(n) => Some(n),
            _ => None,
        };
        // A stretch of half a bay to either side of frame 12 is frame 12.
        let (from, to) = (number(from).map(f64::ceil), number(to).map(f64::floor));
        let mut put = |name, n: Option<f64>| told.extend(n.map(|n| (name, format!("{n:.0}"))));
        put("frame", from.or(to));
        put("to-frame", to.filter(|to| from.is_some_and(|from| *to > from)));
    };
    match place {
        Place::Shell(patch) => {
            along(patch.from, patch.to);
            told.push(("strake", patch.strake.to_string()));
            if patch.to_strake != patch.strake {
                told.push(("to-strake", patch.to_strake.to_string()));
            }
        }
        Place::Seam { seam, from, to, .. } => {
            along(*from, *to);
            told.push(("seam", seam.to_string()));
        }
        Place::Deck { from, to, .. } => along(*from, *to),
        Place::Frame { frame, .. } => told.push(("frame", frame.to_string())),
        Place::Floor { frame } => told.extend([("frame", frame.to_string()), ("member", "floor".to_owned())]),
        Place::Beam { beam } => told.push(("beam", beam.to_string())),
        Place::Transom { .. } => told.push(("member", "transom".to_owned())),
        Place::Member { name } => told.push(("member", name.clone())),
    }
    if let Some(side) = place.side() {
        told.insert(0, ("side", side.to_string()));
    }
    told
}
