//! The lines a plan is drawn on.

use hull::Layout;
use survey::State;

/// Returns the layout of her shell from what the record says of her: length, strakes a side, frames. None while one
/// of them is missing or cannot be drawn.
pub fn layout(state: &State) -> Option<Layout> {
    let vessel = state.vessel()?.payload.clone();
    let form = state.hull_form().map(|form| form.payload.clone()).unwrap_or_default();
    let length_m = vessel.length_mm? / 1000.0;
    let count = |names: &[&str]| names.iter().find_map(|name| vessel.counts.get(*name).copied());
    let strakes = form.strakes.or_else(|| count(&["strakes"]))?;
    let frames = form.frames.or_else(|| count(&["frame-steamed", "frame-sawn", "frame-laminated", "frame-steel"]))?;
    Layout::schematic(length_m, strakes as usize, frames as usize).ok()
}
