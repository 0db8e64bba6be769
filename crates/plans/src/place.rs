//! From a place in the record to the places on the sheets, and back.

use crate::boat::Boat;
use hull::{Along, Layout, Patch, Place, Side};

/// The part of the boat that one sheet, or one pair of sheets, shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    Shell,
    Transom,
    Backbone,
    Framing,
    Deck,
}

/// Members of the catalogue's shell that are planking, and so have their place on the shell laid flat. The members of
/// other constructions and the fittings on the shell are among them: they are placed by strake and frame too.
const NOT_PLANKING: [&str; 3] = ["transom", "transom-frame", "transom-knee"];

/// The backbone's members that the backbone's sheet draws under the record's own name.
const BACKBONE: [&str; 12] = [
    "stem",
    "apron",
    "stem-knee",
    "forefoot",
    "keel",
    "hog",
    "deadwood-aft",
    "sternpost",
    "horn-timber",
    "rudder-blade",
    "ballast-keel",
    "keel-bolt",
];

/// Returns the part of the boat on whose sheet a member belongs; none when no sheet shows it.
pub(crate) fn part_of(member: &str) -> Option<Part> {
    if BACKBONE.contains(&member) {
        return Some(Part::Backbone);
    }
    match member {
        "transom" => return Some(Part::Transom),
        // A keelson is a member of the backbone that only the framing plan shows.
        "keelson" => return Some(Part::Framing),
        "covering-board" | "king-plank" | "deck-plank" | "deck-ply" | "deck-canvas" | "beam" | "beam-strong" => {
            return Some(Part::Deck);
        }
        "floor-wood" | "floor-strap" | "shelf" | "bilge-stringer" => return Some(Part::Framing),
        m if m.starts_with("frame-") || m == "futtock" => return Some(Part::Framing),
        m if NOT_PLANKING.contains(&m) => return None,
        _ => {}
    }
    match survey::catalogue_member(member).map(|m| m.group.as_str()) {
        Some("shell") => Some(Part::Shell),
        // A fitting through the planking is placed by strake and frame, as planking is.
        Some("through-hulls") => Some(Part::Shell),
        _ => None,
    }
}

/// Returns the sides that a place speaks of: the one it names, or both; none for the centreline.
pub(crate) fn sides_of(place: &survey::Place) -> Vec<Side> {
    match place.side {
        Some(survey::Side::Port) => vec![Side::Port],
        Some(survey::Side::Starboard) => vec![Side::Starboard],
        Some(survey::Side::Centreline) => vec![],
        None => vec![Side::Port, Side::Starboard],
    }
}

/// Returns where on the shell a place in the record lies; none when it names no side, or no strake that can be
/// told, or lies beyond the shell. A garboard is strake 1 and a sheer strake the topmost, without its being said.
pub fn hull_place(layout: &Layout, member: &str, place: &survey::Place) -> Option<Place> {
    let side = match place.side? {
        survey::Side::Port => Side::Port,
        survey::Side::Starboard => Side::Starboard,
        survey::Side::Centreline => return None,
    };
    let strake = match (place.strake, member) {
        (Some(strake), _) => strake as usize,
        (None, "garboard") => 1,
        (None, "sheer-strake") => layout.strakes(),
        (None, _) => return None,
    };
    let (from, to) = stretch(layout.frames.len(), place)?;
    let patch = Patch::strake(side, strake).between(from, to);
    // What the layout cannot place is left out here, so that one odd place never costs the whole plan.
    layout.outline(&patch).ok().filter(|outline| !outline.is_empty())?;
    Some(Place::Shell(patch))
}

/// Returns from where to where along the boat a place reaches; none when it names frames that she does not have.
pub(crate) fn stretch(frames: usize, place: &survey::Place) -> Option<(Along, Along)> {
    let frames = frames as u32;
    match (place.frame_from, place.frame_to, place.from_stem_mm) {
        (Some(from), to, _) if from <= frames && to.unwrap_or(from) <= frames => {
            // A place at one frame reaches half a bay to either side, so that it can be seen.
            let (from, to) = (f64::from(from) - 0.5, f64::from(to.unwrap_or(from)) + 0.5);
            Some((frame(from, frames), frame(to, frames)))
        }
        (Some(_), ..) => None,
        (None, _, Some(mm)) => Some((Along::FromStemM(mm / 1000.0), Along::FromStemM(mm / 1000.0))),
        (None, ..) => Some((Along::Stem, Along::Stern)),
    }
}

fn frame(number: f64, frames: u32) -> Along {
    if number < 1.0 {
        Along::Stem
    } else if number > f64::from(frames) {
        Along::Stern
    } else {
        Along::Frame(number)
    }
}

/// Returns every place on the sheets at which a place in the record is drawn; empty when no sheet can show it.
pub(crate) fn places_of(boat: &Boat, member: &str, place: &survey::Place) -> Vec<Place> {
    let Some(part) = part_of(member) else { return Vec::new() };
    match part {
        Part::Shell => boat.layout.as_ref().and_then(|layout| hull_place(layout, member, place)).into_iter().collect(),
        Part::Transom if !boat.has_transom => Vec::new(),
        Part::Transom => {
            let (from, to) = match place.side {
                Some(survey::Side::Port) => (-1.0, 0.0),
                Some(survey::Side::Starboard) => (0.0, 1.0),
                _ => (-1.0, 1.0),
            };
            vec![Place::Transom { from, to, low: 0.0, high: 1.0 }]
        }
        Part::Backbone => match (member, place.number) {
            ("keel-bolt", Some(n)) if (n as usize) <= boat.backbone.keel_bolts.unwrap_or(0) => {
                vec![Place::member(format!("keel-bolt-{n}"))]
            }
            ("keel-bolt", _) => Vec::new(),
            _ => vec![Place::member(member)],
        },
        Part::Framing => framing_places(boat, member, place),
        Part::Deck => deck_places(boat, member, place),
    }
}

fn framing_places(boat: &Boat, member: &str, place: &survey::Place) -> Vec<Place> {
    let sides = sides_of(place);
    match member {
        "keelson" => return vec![Place::member("keelson")],
        "shelf" | "bilge-stringer" => {
            return sides.into_iter().map(|side| Place::member(format!("{member}-{side}"))).collect();
        }
        _ => {}
    }
    let Some(from) = place.frame_from else { return Vec::new() };
    let to = place.frame_to.unwrap_or(from);
    if to as usize > boat.frames.len() {
        return Vec::new();
    }
    let numbers = (from..=to).map(|n| n as usize);
    if member.starts_with("floor-") {
        return numbers.map(|frame| Place::Floor { frame }).collect();
    }
    numbers.flat_map(|frame| sides.iter().map(move |side| Place::Frame { side: *side, frame })).collect()
}

fn deck_places(boat: &Boat, member: &str, place: &survey::Place) -> Vec<Place> {
    let sides = sides_of(place);
    match member {
        "king-plank" => vec![Place::member("king-plank")],
        "covering-board" => {
            // A covering board between frames is a stretch of deck at its edge.
            let Some((from, to)) = stretch(boat.frames.len(), place) else { return Vec::new() };
            if (from, to) == (Along::Stem, Along::Stern) {
                return sides.into_iter().map(|side| Place::member(format!("covering-board-{side}"))).collect();
            }
            sides.into_iter().map(|side| Place::Deck { side, from, to, inner: 0.9, outer: 1.0 }).collect()
        }
        "beam" | "beam-strong" => match place.number {
            Some(n) if (n as usize) <= boat.beams.unwrap_or(0) && n > 0 => vec![Place::Beam { beam: n as usize }],
            _ => Vec::new(),
        },
        _ => {
            let Some((from, to)) = stretch(boat.frames.len(), place) else { return Vec::new() };
            sides.into_iter().map(|side| Place::Deck { side, from, to, inner: 0.0, outer: 0.9 }).collect()
        }
    }
}
