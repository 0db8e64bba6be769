//! Measured quantities over the shell, from the record's observations.

use crate::boat::Boat;
use crate::place::{Part, hull_place, part_of};
use crate::{Plan, SheetName};
use hull::sheets::{Page, Quantity, Reading as Dot, field};
use hull::{Basis, Layout, Place, Side};
use std::collections::BTreeMap;
use survey::{Reading, SoundAnswer, State};

/// How far a reading speaks for its surroundings, along the planking and across the strakes, in metres. Common
/// practice, no source: about three bays, and about two strakes.
const REACH_M: (f64, f64) = (0.7, 0.3);
/// Standard deviation of a moisture meter's reading, in percent of moisture. Common practice, no source.
const MOISTURE_SD: f64 = 2.0;
/// Standard deviation of a blow's answer on the scale from 0 (dull) to 1 (rings). Common practice, no source.
const SOUND_SD: f64 = 0.25;
/// Standard deviation of any other measurement as a share of the mean of its readings. Common practice, no source.
const MEASURE_SD_SHARE: f64 = 0.03;

/// The readings of one quantity in one unit, on both sides.
pub(crate) struct Gathered {
    /// Its name in the name of its sheets.
    pub(crate) key: String,
    name: String,
    unit: String,
    dots: Vec<Dot>,
}

/// Fewest readings of a side that contours are drawn from.
const LEAST: usize = 3;

impl Gathered {
    /// Returns the sides that have enough readings for contours.
    pub(crate) fn sides(&self) -> impl Iterator<Item = Side> {
        let enough = |side: &Side| {
            let own = self.dots.iter().filter(|dot| dot.place.side == *side);
            own.clone().count() >= LEAST && own.clone().all(|dot| dot.value.is_finite())
        };
        [Side::Port, Side::Starboard].into_iter().filter(enough)
    }
}

/// Gathers the readings on the planking by quantity and unit.
pub(crate) fn gathered(state: &State, boat: &Boat) -> Vec<Gathered> {
    let Some(layout) = &boat.layout else { return Vec::new() };
    let mut gathered: BTreeMap<String, Gathered> = BTreeMap::new();
    for o in state.observations() {
        let Some((name, unit, value)) = measured(&o.payload.reading) else { continue };
        if part_of(&o.payload.member) != Some(Part::Shell) {
            continue;
        }
        let Some(Place::Shell(place)) = hull_place(layout, &o.payload.member, &o.payload.place) else { continue };
        let plain = matches!(o.payload.reading, Reading::Measure { .. });
        let key = if plain { slug(&format!("{name} {unit}")) } else { slug(name) };
        let one = gathered.entry(key.clone()).or_insert_with(|| Gathered {
            key,
            name: format!("{name} of the planking"),
            unit: unit.to_owned(),
            dots: Vec::new(),
        });
        one.dots.push(Dot { place, value, entry: o.id().to_string() });
    }
    gathered.into_values().collect()
}

/// Draws the contours of a quantity over one side; none where they cannot be drawn.
pub(crate) fn plan(one: &Gathered, side: Side, layout: &Layout, page: Page) -> Option<Plan> {
    let mean = one.dots.iter().map(|d| d.value.abs()).sum::<f64>() / one.dots.len() as f64;
    let sd = match one.key.as_str() {
        "moisture" => MOISTURE_SD,
        "soundness" => SOUND_SD,
        _ => (mean * MEASURE_SD_SHARE).max(1e-6),
    };
    let quantity = Quantity {
        name: one.name.clone(),
        unit: one.unit.clone(),
        sd,
        reach_along_m: REACH_M.0,
        reach_across_m: REACH_M.1,
    };
    let mut notes =
        vec!["The deviation of a reading and how far it reaches are assumed (common practice, no source).".to_owned()];
    if one.key == "soundness" {
        notes.push(
            "Soundness by the hammer: 1 where it rings, 0 where it is dull or hollow. A dull plank may be decayed, \
             checked or only loose."
                .to_owned(),
        );
    }
    let dots = of_side(&one.dots, side, &mut notes);
    let sheet = field(page.noting(notes), layout, side, &quantity, &dots).ok()?;
    let schematic = if layout.basis == Basis::Schematic { " Her shape is schematic." } else { "" };
    let caption = format!(
        "{}, {side} side: contours from the readings; blank where nothing was measured near.{schematic}",
        capital(&quantity.name)
    );
    let name = SheetName::Field { quantity: one.key.clone(), side };
    Some(Plan { name, caption, sheet, on_shell: None })
}

/// Most readings of one side that contours are drawn from: the work grows with the square of their number, and a page is
/// not to wait for it.
const MOST: usize = 120;

/// Returns the readings of a side; when they are more than contours can be drawn from, every so many of them, and says so.
fn of_side(dots: &[Dot], side: Side, notes: &mut Vec<String>) -> Vec<Dot> {
    let own: Vec<&Dot> = dots.iter().filter(|dot| dot.place.side == side).collect();
    let step = own.len().div_ceil(MOST).max(1);
    if step > 1 {
        notes.push(format!(
            "Of {} readings {} are used here, one in {step} in the order in which they were taken.",
            own.len(),
            own.len().div_ceil(step)
        ));
    }
    own.into_iter().step_by(step).cloned().collect()
}

/// Returns what a reading measures, in which unit, and how much of it; none for readings without a figure.
fn measured(reading: &Reading) -> Option<(&str, &str, f64)> {
    match reading {
        Reading::Moisture { reading_percent, .. } => Some(("moisture", "%", *reading_percent)),
        Reading::Sound { answer: SoundAnswer::Rings, .. } => Some(("soundness", "", 1.0)),
        Reading::Sound { answer: SoundAnswer::DullOrHollow, .. } => Some(("soundness", "", 0.0)),
        Reading::Measure { quantity, value, unit, .. } => Some((quantity.as_str(), unit.as_str(), *value)),
        _ => None,
    }
}

fn slug(words: &str) -> String {
    let plain =
        words.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect::<String>();
    plain.split_whitespace().collect::<Vec<_>>().join("-")
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
