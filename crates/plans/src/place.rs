//! From a place in the record to a place on the drawing.

use hull::{Along, Layout, Patch, Place, Side};

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
    let frames = layout.frames.len() as u32;
    let (from, to) = match (place.frame_from, place.frame_to, place.from_stem_mm) {
        (Some(from), to, _) if from <= frames && to.unwrap_or(from) <= frames => {
            // A place at one frame reaches half a bay to either side, so that it can be seen.
            let (from, to) = (f64::from(from) - 0.5, f64::from(to.unwrap_or(from)) + 0.5);
            (frame(from, frames), frame(to, frames))
        }
        (Some(_), ..) => return None,
        (None, _, Some(mm)) => (Along::FromStemM(mm / 1000.0), Along::FromStemM(mm / 1000.0)),
        (None, ..) => (Along::Stem, Along::Stern),
    };
    let patch = Patch::strake(side, strake).between(from, to);
    // What the layout cannot place is left out here, so that one odd place never costs the whole plan.
    layout.outline(&patch).ok().filter(|outline| !outline.is_empty())?;
    Some(Place::Shell(patch))
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
