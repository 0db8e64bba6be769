//! The parts of a hull whose fastenings are drawn and judged apart.

use crate::Fault;

/// A part of the planking.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Zone {
    /// Garboards, into keel and deadwood and at the floors.
    Garboards,
    /// Hood ends, into stem and sternpost.
    HoodEnds,
    /// Butts, on their blocks or frames.
    Butts,
    /// Turn of the bilge.
    TurnOfBilge,
    /// Plank ends at the transom.
    TransomEnds,
    /// Under tanks, engine and what else cannot be seen behind.
    UnderTanks,
    /// Wind and water.
    WindAndWater,
    /// Topsides.
    Topsides,
    /// What else of the bottom is planked: in no zone above.
    Bottom,
}

impl Zone {
    /// All zones, from the keel up.
    pub const ALL: [Zone; 9] = [
        Zone::Garboards,
        Zone::HoodEnds,
        Zone::Butts,
        Zone::Bottom,
        Zone::TurnOfBilge,
        Zone::TransomEnds,
        Zone::UnderTanks,
        Zone::WindAndWater,
        Zone::Topsides,
    ];

    /// Returns the zone's short name, e.g. `turn-of-bilge`.
    pub fn id(self) -> &'static str {
        match self {
            Zone::Garboards => "garboards",
            Zone::HoodEnds => "hood-ends",
            Zone::Butts => "butts",
            Zone::TurnOfBilge => "turn-of-bilge",
            Zone::TransomEnds => "transom-ends",
            Zone::UnderTanks => "under-tanks",
            Zone::WindAndWater => "wind-and-water",
            Zone::Topsides => "topsides",
            Zone::Bottom => "bottom",
        }
    }

    /// Returns the zone in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Zone::Garboards => "garboards",
            Zone::HoodEnds => "hood ends",
            Zone::Butts => "butts",
            Zone::TurnOfBilge => "turn of the bilge",
            Zone::TransomEnds => "plank ends at the transom",
            Zone::UnderTanks => "under tanks and engine",
            Zone::WindAndWater => "wind and water",
            Zone::Topsides => "topsides",
            Zone::Bottom => "bottom elsewhere",
        }
    }

    /// Returns the weight of a failure there, 1 to 3. A convention of this workbench, not published: 3 where a
    /// plank's end or the garboard can spring and let in the sea, 2 elsewhere under water, 1 above it.
    pub fn consequence(self) -> f64 {
        match self {
            Zone::Garboards | Zone::HoodEnds | Zone::Butts | Zone::TransomEnds => 3.0,
            Zone::TurnOfBilge | Zone::UnderTanks | Zone::WindAndWater | Zone::Bottom => 2.0,
            Zone::Topsides => 1.0,
        }
    }

    /// Finds a zone by its short name or words.
    ///
    /// # Errors
    /// When there is none of that name.
    pub fn named(name: &str) -> Result<Self, Fault> {
        let plain = |s: &str| s.trim().to_lowercase().replace([' ', '_'], "-");
        let wanted = plain(name);
        let found = Zone::ALL.into_iter().find(|zone| zone.id() == wanted || plain(zone.in_words()) == wanted);
        found.ok_or_else(|| {
            let names: Vec<_> = Zone::ALL.iter().map(|zone| zone.id()).collect();
            Fault::text("zone", name, "there is no such zone", names.join(", "))
        })
    }
}

/// How fastenings lie in a zone, so that each has a number: frames from forward, strakes from the garboard up,
/// rows from the plank's lower edge, port before starboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Layout {
    /// First strake in the zone, counted from the garboard (1).
    pub first_strake: u64,
    /// Strakes in the zone.
    pub strakes: u64,
    /// First frame in the zone, counted from forward (1).
    pub first_frame: u64,
    /// Frames crossed.
    pub frames: u64,
    /// Fastenings in each plank at each frame.
    pub per_frame: u64,
    /// Sides: 1 or 2.
    pub sides: u64,
}

/// Where one fastening is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Whether it is to port.
    pub port: bool,
    /// Strake from the garboard, 1 first.
    pub strake: u64,
    /// Frame from forward, 1 first.
    pub frame: u64,
    /// Row from the plank's lower edge, 1 first.
    pub row: u64,
}

impl Layout {
    /// Returns the number of fastenings.
    ///
    /// # Errors
    /// When a count is nothing, sides are not 1 or 2, or the product is over a million.
    pub fn population(&self) -> Result<u64, Fault> {
        let counts = [
            ("strakes", self.strakes, 60),
            ("frames", self.frames, 500),
            ("per_frame", self.per_frame, 12),
            ("sides", self.sides, 2),
            ("first_strake", self.first_strake, 60),
            ("first_frame", self.first_frame, 500),
        ];
        for (name, count, greatest) in counts {
            if count == 0 || count > greatest {
                let accepted = format!("a whole number from 1 to {greatest}");
                return Err(Fault::value(name, count as f64, "this is out of range", accepted));
            }
        }
        Ok(self.strakes * self.frames * self.per_frame * self.sides)
    }

    /// Returns where the fastening of a number (1 first) is; `None` beyond the last.
    pub fn place(&self, number: u64) -> Option<Place> {
        let n = number.checked_sub(1)?;
        if n >= self.population().ok()? {
            return None;
        }
        let (n, row) = (n / self.per_frame, n % self.per_frame);
        let (n, frame) = (n / self.frames, n % self.frames);
        let (side, strake) = (n / self.strakes, n % self.strakes);
        Some(Place {
            port: side == 0,
            strake: self.first_strake + strake,
            frame: self.first_frame + frame,
            row: row + 1,
        })
    }
}

impl Place {
    /// Returns whether two places are in one plank at one frame or the next, where fastenings are most alike.
    pub fn is_near(&self, other: &Place) -> bool {
        self.port == other.port && self.strake == other.strake && self.frame.abs_diff(other.frame) <= 1
    }
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let side = if self.port { "port" } else { "starboard" };
        write!(f, "{side}, strake {}, frame {}, row {}", self.strake, self.frame, self.row)
    }
}
