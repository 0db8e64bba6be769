//! What a survey found, drawn on the boat: from the record to the sheets of the room `hull`.
//!
//! For: the report, the command line and the app, which all show the same plans. Not for: drawing (rooms `hull` and
//! `drawing`), or concluding: hatching follows the surveyor's findings, marks follow the observations.
//!
//! Every region and mark carries what a page needs when it is pointed at, as attributes of its group in the SVG:
//! `data-entry` (the entry it rests on), `data-state`, `data-side`, `data-strake` and `data-to-strake`, `data-frame` and
//! `data-to-frame`, `data-member`, `data-beam`. A point of a shell's paper is found again by [`place_at`].
//!
//! Read first: [`Sheets`], [`Plan`], [`place_at`].
//!
//! ```
//! use survey::{State, SurveyId};
//! // Nothing is known of her yet, so there is nothing to draw.
//! assert!(plans::sheets(&State::new(SurveyId::from_bits(1))).is_empty());
//! ```

mod boat;
mod looks;
mod marks;
mod name;
mod notes;
mod picks;
mod place;
mod quantities;
mod sheets;
mod solid;
mod zones;

pub use name::SheetName;
pub use picks::picks;
pub use place::hull_place;
pub use sheets::Sheets;
pub use solid::{Solid, SolidMark, solid};
pub use zones::{Counted, fastenings};

use boat::Boat;
use drawing::Sheet;
use hull::sheets::{Condition, Mark, Page, ShellLay};
use hull::{Basis, Layout, Side};
use survey::State;

/// A plan with the words below it.
#[derive(Clone, Debug)]
pub struct Plan {
    /// Its name, the same for every survey.
    pub name: SheetName,
    /// Caption.
    pub caption: String,
    /// Drawing.
    pub sheet: Sheet,
    /// Where the shell lies on it, when it shows the shell laid flat.
    on_shell: Option<(ShellLay, Layout)>,
}

/// Returns the layout of her shell from what the record says of her: from a table of offsets, else fitted to what was
/// measured, else from her length and the count of her strakes and frames. None while her length or the count of her
/// strakes is missing, or cannot be drawn.
pub fn layout(state: &State) -> Option<Layout> {
    Boat::of(state)?.layout
}

/// Returns what the record says of every place on the sheets, as it is drawn.
pub fn conditions(state: &State) -> Vec<Condition> {
    Boat::of(state).map(|boat| looks::conditions(state, &boat)).unwrap_or_default()
}

/// Returns a mark for every observation that a sheet can show, and for every photograph of one.
pub fn marks(state: &State) -> Vec<Mark> {
    Boat::of(state).map(|boat| marks::marks(state, &boat)).unwrap_or_default()
}

/// Returns every sheet for which enough is known, at the width of a report's column: see [`sheets_on`].
pub fn sheets(state: &State) -> Vec<(SheetName, Plan)> {
    sheets_on(state, Page::REPORT)
}

/// Returns every sheet for which enough is known, in the order of the report: port shell, starboard shell, both about
/// the keel line, transom when she has one, backbone, framing, deck, and the quantities measured on the shell. What is
/// not known of her shape is drawn as a diagram that says so. Findings that have no place on their sheet are named in
/// its notes.
pub fn sheets_on(state: &State, page: Page) -> Vec<(SheetName, Plan)> {
    let Some(sheets) = Sheets::of(state, page) else { return Vec::new() };
    sheets.names().into_iter().filter_map(|name| Some((name.clone(), sheets.draw(&name)?))).collect()
}

/// Returns how much the plank at a place is bent about its flat over three frames, when her shape is known and the place
/// names strake and frame.
pub fn bend(state: &State, place: &survey::Place) -> Option<hull::Bend> {
    let boat = Boat::of(state)?;
    let expansion = boat.expansion.as_ref()?;
    let frame = place.frame_from? as usize;
    let at = |n: usize| expansion.frames().get(n.checked_sub(1)?).map(|f| f.from_stem_m);
    let (from, to) = (at(frame.checked_sub(1)?)?, at(frame + 1)?);
    expansion.bend(place.strake? as usize, from, to).ok()
}

/// Returns where on the boat a point of a plan lies, in millimetres from the upper left corner of its paper: side, strake
/// and nearest frame, and the distance from the stem when the shape is hers and not a diagram. None off the shell, and on
/// plans that do not show the shell laid flat.
pub fn place_at(plan: &Plan, x_mm: f64, y_mm: f64) -> Option<survey::Place> {
    let (lay, layout) = plan.on_shell.as_ref()?;
    let spot = lay.locate(layout, x_mm, y_mm)?;
    let x = spot.from_stem_m;
    let nearest = layout
        .frames
        .iter()
        .zip(1u32..)
        .min_by(|(a, _), (b, _)| (a.from_stem_m - x).abs().total_cmp(&(b.from_stem_m - x).abs()));
    Some(survey::Place {
        side: Some(match spot.side {
            Side::Port => survey::Side::Port,
            Side::Starboard => survey::Side::Starboard,
        }),
        strake: u32::try_from(spot.strake).ok(),
        frame_from: nearest.map(|(_, number)| number),
        from_stem_mm: (layout.basis != Basis::Schematic).then(|| (x * 1000.0).round()),
        ..survey::Place::default()
    })
}

/// Returns where on a plan's paper, in millimetres from its upper left corner, a place on the planking is drawn; none on
/// plans that do not show it. The inverse of [`place_at`].
pub fn point_of(plan: &Plan, place: &hull::Place) -> Option<(f64, f64)> {
    let (lay, layout) = plan.on_shell.as_ref()?;
    lay.point(layout, place)
}

/// Returns the shell of one side with what was found on it; none while her length and strakes are not known.
pub fn shell(state: &State, side: Side, page: Page) -> Option<Plan> {
    let name = match side {
        Side::Port => SheetName::ShellPort,
        Side::Starboard => SheetName::ShellStarboard,
    };
    Sheets::of(state, page)?.draw(&name)
}

/// Returns the plans that the report prints, in its order: both sides of the shell, and of the other sheets those on
/// which something was found, seen to be out of sight, or measured; and the picks of every draw begun.
pub fn all(state: &State) -> Vec<Plan> {
    let mut plans = sheets(state);
    plans.retain(|(name, plan)| match name {
        SheetName::ShellPort | SheetName::ShellStarboard | SheetName::Field { .. } => true,
        SheetName::ShellBoth => false,
        _ => !plan.sheet.description.contains(" 0 conditions and 0 marks."),
    });
    let begun =
        |plan: &survey::DrawPlan| plan.zones.iter().any(|zone| zone.picks.iter().any(|pick| pick.drawn.is_some()));
    let drawn = survey::draw_plans(state).into_iter().filter(begun);
    let drawn = drawn.flat_map(|plan| picks(state, &plan, Page::REPORT));
    plans.into_iter().map(|(_, plan)| plan).chain(drawn).collect()
}
