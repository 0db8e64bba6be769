//! Where on the boat, as the trade says it.

use serde::{Deserialize, Serialize};
use std::fmt;

/// Side of the boat, looking forward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Left, looking forward.
    Port,
    /// Right, looking forward.
    Starboard,
    /// On the centreline.
    Centreline,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Side::Port => "port",
            Side::Starboard => "starboard",
            Side::Centreline => "centreline",
        })
    }
}

/// A place on the hull. Every part may be left out; strakes are counted from the garboard (1), frames from the
/// stem (1), distances from the fore side of the stem along the waterline, heights from the waterline.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Place {
    /// Side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// Strake, the garboard being 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strake: Option<u32>,
    /// First frame, counted from the stem.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frame_from: Option<u32>,
    /// Last frame, when the place is more than one frame long.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frame_to: Option<u32>,
    /// Distance from the fore side of the stem, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_stem_mm: Option<f64>,
    /// Height above (or, negative, below) the waterline, in millimetres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height_mm: Option<f64>,
    /// Number of a counted thing (keel bolt, beam, chainplate), from forward.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub number: Option<u32>,
    /// The other member, when the place is a joint between two.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub joint_with: Option<String>,
    /// Anything the parts above cannot say, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
}

impl Place {
    /// Tells whether nothing is said of the place.
    pub fn is_empty(&self) -> bool {
        *self == Place::default()
    }

    /// Returns what is impossible in the place, if anything.
    pub fn fault(&self) -> Option<String> {
        if self.strake == Some(0) {
            return Some("strakes are counted from 1, the garboard".to_owned());
        }
        if self.frame_from == Some(0) || self.frame_to == Some(0) {
            return Some("frames are counted from 1, at the stem".to_owned());
        }
        match (self.frame_from, self.frame_to) {
            (None, Some(_)) => return Some("a last frame needs a first frame".to_owned()),
            (Some(from), Some(to)) if to < from => {
                return Some(format!("the last frame ({to}) comes before the first ({from})"));
            }
            _ => {}
        }
        let finite = |v: Option<f64>| v.is_none_or(f64::is_finite);
        if !finite(self.from_stem_mm) || !finite(self.height_mm) {
            return Some("a distance is not a number".to_owned());
        }
        None
    }
}

impl fmt::Display for Place {
    /// Writes the place as the trade says it: `port, strake 4, frames 11 to 13`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts: Vec<String> = Vec::new();
        if let Some(side) = self.side {
            parts.push(side.to_string());
        }
        match self.strake {
            Some(1) => parts.push("garboard".to_owned()),
            Some(n) => parts.push(format!("strake {n}")),
            None => {}
        }
        match (self.frame_from, self.frame_to) {
            (Some(a), Some(b)) if b > a => parts.push(format!("frames {a} to {b}")),
            (Some(a), _) => parts.push(format!("frame {a}")),
            _ => {}
        }
        if let Some(n) = self.number {
            parts.push(format!("no. {n}"));
        }
        if let Some(mm) = self.from_stem_mm {
            parts.push(format!("{:.2} m from the stem", mm / 1000.0));
        }
        if let Some(mm) = self.height_mm {
            let where_to = if mm < 0.0 { "below" } else { "above" };
            parts.push(format!("{:.2} m {where_to} the waterline", mm.abs() / 1000.0));
        }
        if let Some(other) = &self.joint_with {
            let name = crate::catalogue_member(other).map_or(other.as_str(), |m| m.name.as_str());
            parts.push(format!("joint with the {name}"));
        }
        if let Some(words) = &self.words {
            parts.push(words.clone());
        }
        f.write_str(&parts.join(", "))
    }
}
