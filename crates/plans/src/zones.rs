//! Her plank fastenings counted by zone, from what the record says of her shape.

use crate::boat::Boat;
use fastening::draw::patch::{Patch, Sides, zones};
use fastening::draw::zone::Zone;
use hull::Layout;
use survey::State;

/// Share of her frames, forward and aft, beyond which the section is taken to have no turn of the bilge. Common practice,
/// no source.
const ENDS: f64 = 0.2;

/// Fastenings in each plank at each frame, until the surveyor says otherwise.
const PER_FRAME: u64 = 2;

/// The patches of a shell, and what was assumed.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// Patches, narrow ones first: a crossing of strake and frame belongs to the first that holds it.
    pub patches: Vec<Patch>,
    /// What was assumed and what could not be told apart, in sentences.
    pub said: Vec<String>,
}

impl Counted {
    /// Returns the patches as the table that the reckoner `draw-plan` reads.
    pub fn table(&self) -> String {
        let mut text = "zone,side,strake_from,strake_to,frame_from,frame_to,per_frame\n".to_owned();
        for p in &self.patches {
            let (zone, side) = (p.zone.id(), p.sides.word());
            text.push_str(&format!(
                "{zone},{side},{},{},{},{},{}\n",
                p.strakes.0, p.strakes.1, p.frames.0, p.frames.1, p.per_frame
            ));
        }
        text
    }

    /// Returns how many fastenings there are in all, when the patches can be counted.
    pub fn population(&self) -> Option<u64> {
        Some(zones(&self.patches).ok()?.iter().map(|(_, places)| places.len() as u64).sum())
    }
}

/// Returns her plank fastenings by zone; none while her length, strakes or frames are not known.
///
/// Hood ends and plank ends at the transom are counted as the crossings of the first and the last frame. Wind and water is
/// the strake that the waterline crosses at each frame. Where her shape is not known, the rest of the planking is one zone.
pub fn fastenings(state: &State) -> Option<Counted> {
    let boat = Boat::of(state)?;
    let layout = boat.layout.as_ref()?;
    let (strakes, frames) = (layout.strakes() as u64, layout.frames.len() as u64);
    if strakes < 2 || frames < 3 {
        return None;
    }
    let patch = |zone, strakes, frames| Patch { zone, sides: Sides::Both, strakes, frames, per_frame: PER_FRAME };
    let aft = if boat.has_transom { Zone::TransomEnds } else { Zone::HoodEnds };
    let mut patches = vec![
        patch(Zone::HoodEnds, (1, strakes), (1, 1)),
        patch(aft, (1, strakes), (frames, frames)),
        patch(Zone::Garboards, (1, 1), (1, frames)),
    ];
    let mut said = vec![format!(
        "Counted as {PER_FRAME} fastenings in each plank at each frame; plank ends as the crossings of the first and last frame. \
         Butts, and what lies under tanks and engine, are to be put in by hand, above the wider zones."
    )];
    let at_waterline = waterline_runs(layout);
    match boat.bilge {
        Some((low, high)) if !at_waterline.is_empty() => {
            let ends = ((frames as f64 * ENDS).ceil() as u64).max(1);
            patches.extend(at_waterline.iter().map(|run| patch(Zone::WindAndWater, (run.0, run.0), run.1)));
            patches.push(patch(Zone::TurnOfBilge, (low as u64, high as u64), (1 + ends, frames - ends)));
            for (strake, run) in at_waterline {
                if strake < strakes {
                    patches.push(patch(Zone::Topsides, (strake + 1, strakes), run));
                }
                if strake > 2 {
                    patches.push(patch(Zone::Bottom, (2, strake - 1), run));
                }
            }
            said.push(
                "The turn of the bilge is where the section amidships slopes 25 to 65°, over the middle three fifths of the \
                 frames; wind and water is the strake at the waterline."
                    .to_owned(),
            );
        }
        _ => {
            patches.push(patch(Zone::Bottom, (2, strakes), (1, frames)));
            said.push(
                "Her shape is not known, so that the turn of the bilge, wind and water and the topsides are not told apart: \
                 divide the last line by hand."
                    .to_owned(),
            );
        }
    }
    Some(Counted { patches, said })
}

/// Returns the strake at the waterline and the frames over which it is that one, from forward.
fn waterline_runs(layout: &Layout) -> Vec<(u64, (u64, u64))> {
    let line = &layout.waterline;
    let girth_at = |x: f64| -> Option<f64> {
        let pair = line.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&x))?;
        let share = if pair[1].0 > pair[0].0 { (x - pair[0].0) / (pair[1].0 - pair[0].0) } else { 0.0 };
        Some(pair[0].1 + share * (pair[1].1 - pair[0].1))
    };
    let (Some(first), Some(last)) = (line.first(), line.last()) else { return Vec::new() };
    let mut runs: Vec<(u64, (u64, u64))> = Vec::new();
    for (frame, number) in layout.frames.iter().zip(1_u64..) {
        // A frame in the overhang has the waterline of the nearest that reaches it.
        let x = frame.from_stem_m.clamp(first.0, last.0);
        let Some(strake) = girth_at(x).and_then(|up| layout.locate(x, up)).map(|(strake, _)| strake as u64) else {
            continue;
        };
        match runs.last_mut() {
            Some((on, run)) if *on == strake && run.1 + 1 == number => run.1 = number,
            _ => runs.push((strake, (number, number))),
        }
    }
    runs
}
