//! Saying where: side, strake, frame, distance from the stem; members of the backbone by name.

use std::fmt;

/// Side of the boat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Left when facing forward.
    Port,
    /// Right when facing forward.
    Starboard,
}

impl Side {
    /// Returns the other side.
    pub const fn other(self) -> Side {
        match self {
            Side::Port => Side::Starboard,
            Side::Starboard => Side::Port,
        }
    }

    /// Returns the side's word in lower case.
    pub const fn word(self) -> &'static str {
        match self {
            Side::Port => "port",
            Side::Starboard => "starboard",
        }
    }
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// How far along the boat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Along {
    /// At the stem: the fore end of the strake, seam or deck in question.
    Stem,
    /// At a frame, counted from forward, the first being 1; 7.5 is half-way between frames 7 and 8.
    Frame(f64),
    /// Metres abaft the foremost point of the stem, measured along the centre line.
    FromStemM(f64),
    /// At the stern: the after end of the strake, seam or deck in question.
    Stern,
}

/// A place on the planking: one strake or several, from one point along the boat to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Side.
    pub side: Side,
    /// Lowest strake, counted from the garboard, which is 1.
    pub strake: usize,
    /// Highest strake; the same as `strake` for one.
    pub to_strake: usize,
    /// Fore end.
    pub from: Along,
    /// After end; equal to `from` for a spot.
    pub to: Along,
    /// Lower limit as a share of the lowest strake's width, 0 at its lower edge.
    pub low: f64,
    /// Upper limit as a share of the highest strake's width, 1 at its upper edge.
    pub high: f64,
}

impl Patch {
    /// Returns a whole strake, stem to stern.
    pub const fn strake(side: Side, strake: usize) -> Patch {
        Patch { side, strake, to_strake: strake, from: Along::Stem, to: Along::Stern, low: 0.0, high: 1.0 }
    }

    /// Returns one spot in the middle of a strake.
    pub const fn spot(side: Side, strake: usize, at: Along) -> Patch {
        Patch { side, strake, to_strake: strake, from: at, to: at, low: 0.5, high: 0.5 }
    }

    /// Returns the patch from one point along the boat to another.
    pub const fn between(mut self, from: Along, to: Along) -> Patch {
        self.from = from;
        self.to = to;
        self
    }

    /// Returns the patch widened up to another strake.
    pub const fn up_to(mut self, strake: usize) -> Patch {
        self.to_strake = strake;
        self
    }
}

/// A place anywhere on the boat that one of the sheets can show.
#[derive(Clone, Debug, PartialEq)]
pub enum Place {
    /// On the planking.
    Shell(Patch),
    /// Along a seam; seam 0 is the garboard seam at the rabbet, seam k the upper edge of strake k.
    Seam {
        /// Side.
        side: Side,
        /// Seam.
        seam: usize,
        /// Fore end.
        from: Along,
        /// After end.
        to: Along,
    },
    /// A frame, counted from forward.
    Frame {
        /// Side.
        side: Side,
        /// Frame.
        frame: usize,
    },
    /// A floor, at the frame of that number.
    Floor {
        /// Frame at which it lies.
        frame: usize,
    },
    /// A deck beam, counted from forward.
    Beam {
        /// Beam.
        beam: usize,
    },
    /// A stretch of deck, between two shares of the half-breadth (0 centre line, 1 covering board).
    Deck {
        /// Side.
        side: Side,
        /// Fore end.
        from: Along,
        /// After end.
        to: Along,
        /// Inner limit, share of the half-breadth.
        inner: f64,
        /// Outer limit, share of the half-breadth.
        outer: f64,
    },
    /// A spot or plank of the transom: share of the half-breadth (negative to port) and of the height.
    Transom {
        /// From this share of the half-breadth …
        from: f64,
        /// … to this one; port is negative.
        to: f64,
        /// From this share of the height …
        low: f64,
        /// … to this one.
        high: f64,
    },
    /// A member by the name that the backbone, framing or deck sheet draws it under, such as `stem` or `keel`.
    Member {
        /// The name.
        name: String,
    },
}

impl Place {
    /// Returns the member of that name.
    pub fn member(name: impl Into<String>) -> Place {
        Place::Member { name: name.into() }
    }

    /// Returns the side on which the place lies, when it lies on one.
    pub fn side(&self) -> Option<Side> {
        match self {
            Place::Shell(patch) => Some(patch.side),
            Place::Seam { side, .. } | Place::Frame { side, .. } | Place::Deck { side, .. } => Some(*side),
            _ => None,
        }
    }

    /// Returns the same place on the other side; places on the centre line stay, the transom's are mirrored.
    pub fn mirrored(&self) -> Place {
        let mut other = self.clone();
        match &mut other {
            Place::Shell(patch) => patch.side = patch.side.other(),
            Place::Seam { side, .. } | Place::Frame { side, .. } | Place::Deck { side, .. } => *side = side.other(),
            Place::Transom { from, to, .. } => (*from, *to) = (-*to, -*from),
            _ => {}
        }
        other
    }
}
