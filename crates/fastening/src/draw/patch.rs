//! Zones of a shell as patches of strakes and frames, so that every fastening of a zone has a number and a place.

use super::zone::{Layout, Place, Zone};
use crate::Fault;
use std::collections::BTreeSet;

/// Sides that a patch lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// Port only.
    Port,
    /// Starboard only.
    Starboard,
    /// Both.
    Both,
}

impl Sides {
    /// Returns the word as written in a table.
    pub fn word(self) -> &'static str {
        match self {
            Sides::Port => "port",
            Sides::Starboard => "starboard",
            Sides::Both => "both",
        }
    }

    /// Finds sides by their word.
    ///
    /// # Errors
    /// When it is none of the three.
    pub fn named(word: &str) -> Result<Self, Fault> {
        match word.trim().to_lowercase().as_str() {
            "port" => Ok(Sides::Port),
            "starboard" => Ok(Sides::Starboard),
            "both" | "" => Ok(Sides::Both),
            _ => Err(Fault::text("side", word, "there is no such side", "port, starboard or both".to_owned())),
        }
    }

    fn has(self, port: bool) -> bool {
        match self {
            Sides::Both => true,
            Sides::Port => port,
            Sides::Starboard => !port,
        }
    }
}

/// A part of a zone: some strakes over some frames.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Patch {
    /// The zone it belongs to.
    pub zone: Zone,
    /// Sides it lies on.
    pub sides: Sides,
    /// First and last strake, counted from the garboard (1).
    pub strakes: (u64, u64),
    /// First and last frame, counted from forward (1).
    pub frames: (u64, u64),
    /// Fastenings in each plank at each frame.
    pub per_frame: u64,
}

impl Patch {
    fn layout(&self) -> Result<Layout, Fault> {
        for (name, (from, to)) in [("strake_to", self.strakes), ("frame_to", self.frames)] {
            if to < from {
                return Err(Fault::value(name, to as f64, "this comes before the first", format!("{from} or more")));
            }
        }
        let layout = Layout {
            first_strake: self.strakes.0,
            strakes: self.strakes.1 - self.strakes.0 + 1,
            first_frame: self.frames.0,
            frames: self.frames.1 - self.frames.0 + 1,
            per_frame: self.per_frame,
            sides: 2,
        };
        layout.population()?;
        Ok(layout)
    }

    /// Returns every fastening of the patch, forward first within a strake, garboard first, port first.
    ///
    /// # Errors
    /// When a count is out of range or a last comes before its first.
    pub fn places(&self) -> Result<Vec<Place>, Fault> {
        let layout = self.layout()?;
        let all = (1..=layout.population()?).filter_map(|number| layout.place(number));
        Ok(all.filter(|place| self.sides.has(place.port)).collect())
    }
}

/// Returns the zones of a shell with the places of all their fastenings, zones in the order in which they first come. A
/// crossing of strake and frame that lies in several patches belongs to the first: list the narrow zones before the wide.
///
/// # Errors
/// When a patch is out of range.
pub fn zones(patches: &[Patch]) -> Result<Vec<(Zone, Vec<Place>)>, Fault> {
    let mut taken = BTreeSet::new();
    let mut zones: Vec<(Zone, Vec<Place>)> = Vec::new();
    for patch in patches {
        let mut own = patch.places()?;
        own.retain(|p| !taken.contains(&(p.port, p.strake, p.frame)));
        taken.extend(own.iter().map(|p| (p.port, p.strake, p.frame)));
        match zones.iter_mut().find(|(zone, _)| *zone == patch.zone) {
            Some((_, places)) => places.extend(own),
            None => zones.push((patch.zone, own)),
        }
    }
    zones.retain(|(_, places)| !places.is_empty());
    Ok(zones)
}
