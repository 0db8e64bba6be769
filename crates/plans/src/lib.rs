//! What a survey found, drawn on the boat: from the record to the sheets of the room `hull`.
//!
//! For: the report, the command line and the app, which all show the same plans. Not for: drawing (rooms `hull` and
//! `drawing`), or concluding: hatching follows the surveyor's findings, marks follow the observations.
//!
//! Read first: [`shell`], [`all`].
//!
//! ```
//! use survey::{State, SurveyId};
//! // Nothing is known of her yet, so there is nothing to draw.
//! assert!(plans::all(&State::new(SurveyId::from_bits(1))).is_empty());
//! ```

mod layout;
mod marks;
mod place;

pub use layout::layout;
pub use marks::{conditions, marks};
pub use place::hull_place;

use drawing::Sheet;
use hull::Side;
use hull::sheets::{self, Page};
use survey::State;

/// A plan with the words below it.
#[derive(Clone, Debug)]
pub struct Plan {
    /// Caption.
    pub caption: String,
    /// Drawing.
    pub sheet: Sheet,
}

/// Returns the shell of one side with what was found on it; none while her length, strakes and frames are not known.
pub fn shell(state: &State, side: Side, page: Page) -> Option<Plan> {
    let layout = layout(state)?;
    let sheet = sheets::shell_on(page, &layout, side, &conditions(state), &marks(state));
    let side = side.word();
    let schematic = if layout.basis == hull::Basis::Schematic {
        " Drawn from her length and the count of strakes and frames alone: a diagram for finding places, not her shape."
    } else {
        ""
    };
    let caption = format!(
        "Shell, {side} side, laid flat. Hatching follows the findings, which are numbered. A bare place is one of which no finding speaks; it may not have been looked at.{schematic}"
    );
    Some(Plan { caption, sheet })
}

/// Returns every plan for which enough is known, in the order of the report.
pub fn all(state: &State) -> Vec<Plan> {
    [Side::Port, Side::Starboard].into_iter().filter_map(|side| shell(state, side, Page::REPORT)).collect()
}
