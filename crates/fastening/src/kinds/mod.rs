//! Fastenings as typed things with published geometry.

mod bolt;
mod drift;
mod lag;
mod nail;
mod rivet;
mod screw;
mod trenail;

pub use bolt::{Bolt, Thread, threads};
pub use drift::DriftBolt;
pub use lag::LagScrew;
pub use nail::{Nail, Section};
pub use rivet::Rivet;
pub use screw::WoodScrew;
pub use trenail::Trenail;

/// One fastening of a hull.
#[derive(Clone, Debug, PartialEq)]
pub enum Fastening {
    /// A wood screw, countersunk, usually under a bung.
    WoodScrew(WoodScrew),
    /// A nail held by friction, or clenched.
    Nail(Nail),
    /// A copper nail riveted over a rove.
    Rivet(Rivet),
    /// A lag (coach) screw.
    LagScrew(LagScrew),
    /// A bolt with nut, or clenched over a ring.
    Bolt(Bolt),
    /// A drift driven into a hole bored small.
    DriftBolt(DriftBolt),
    /// A wooden pin.
    Trenail(Trenail),
}

impl Fastening {
    /// Returns the shank's diameter in mm; for square shanks the side.
    pub fn diameter_mm(&self) -> f64 {
        match self {
            Fastening::WoodScrew(screw) => screw.shank_mm(),
            Fastening::Nail(nail) => nail.size_mm,
            Fastening::Rivet(rivet) => rivet.nail.size_mm,
            Fastening::LagScrew(lag) => lag.diameter_mm,
            Fastening::Bolt(bolt) => bolt.diameter_mm,
            Fastening::DriftBolt(drift) => drift.diameter_mm,
            Fastening::Trenail(trenail) => trenail.diameter_mm,
        }
    }

    /// Returns the length in mm over all.
    pub fn length_mm(&self) -> f64 {
        match self {
            Fastening::WoodScrew(screw) => screw.length_mm,
            Fastening::Nail(nail) => nail.length_mm,
            Fastening::Rivet(rivet) => rivet.nail.length_mm,
            Fastening::LagScrew(lag) => lag.length_mm,
            Fastening::Bolt(bolt) => bolt.length_mm,
            Fastening::DriftBolt(drift) => drift.length_mm,
            Fastening::Trenail(trenail) => trenail.length_mm,
        }
    }

    /// Returns what works loose or is drawn to look at it, in words.
    pub fn how_drawn(&self) -> &'static str {
        match self {
            Fastening::WoodScrew(_) | Fastening::LagScrew(_) => {
                "bung out, slot cleaned, turned out; measured crest and root"
            }
            Fastening::Nail(_) => "pulled or cut off; a clenched nail is destroyed by drawing",
            Fastening::Rivet(_) => "rove cut off and driven back; the rivet is destroyed by drawing",
            Fastening::Bolt(_) => "nut off and driven; it may break in the driving",
            Fastening::DriftBolt(_) => "jacked or bored out; seldom drawn whole",
            Fastening::Trenail(_) => "bored out; cannot be drawn whole",
        }
    }
}
