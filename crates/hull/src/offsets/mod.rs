//! Tables of offsets: reading, checking, and turning into lines.
//!
//! Three layouts are read, told apart by their first line that is neither empty nor a remark (`#`). Cells are parted
//! by commas, semicolons or tabs.
//!
//! **The plain layout.** One row a line of the boat, one column a station, first cell the row's name:
//!
//! ```text
#![doc = include_str!("../../data/invented-dinghy.csv")]
//! ```
//!
//! - `units` is one of `m`, `mm`, `feet-inches-eighths`; a cell may always carry its own (`32 mm`, `2'3 1/2"`).
//! - `bow` is `first` or `last`: at which end of the columns the bow stands. x may be measured from either end.
//! - `surface` is `outside of plank` or `inside of plank`. A loft's table gives the inside, a table lifted from an
//!   existing boat usually the outside. It is never guessed.
//! - `half-breadth at H` is a level line at height H; `height at B` is a buttock at half-breadth B.
//! - An empty cell says that the line does not reach the station; 0 says that it meets the centre plane there.
//! - `stem …` and `stern …` are the profiles of the rabbet (or the edge of the transom) by points from below up, with
//!   counts of their own. `stern kind` is `double-ended`, `transom` or `counter`. Without them the first and last
//!   stations are taken for the ends.
//!
//! **Triples.** A header with `x_m, z_m, half_breadth_m` and one point a row; the bow is at the least x unless a remark
//! says `# bow: greatest x`.
//!
//! **A station a row.** A header `station, x_m, half_breadth_wl_HEIGHT, …`, heights in metres or feet-inches-eighths.

mod cells;
mod check;
mod plain;
mod rows;

pub use check::Doubt;

/// A table in the plain layout, of an invented dinghy.
pub const EXAMPLE: &str = include_str!("../../data/invented-dinghy.csv");

use crate::{Fairing, HullError, Lines, Surface};

/// Which surface the offsets give.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Skin {
    /// The outside of the planking.
    Outside,
    /// The inside of the planking, as a loft's table does.
    Inside,
    /// The table does not say.
    Unsaid,
}

/// A table of offsets as read.
#[derive(Clone, Debug, PartialEq)]
pub struct Offsets {
    /// The boat's name in the table, or empty.
    pub name: String,
    /// The lines, x turned to run aft.
    pub lines: Lines,
    /// Which surface they give.
    pub skin: Skin,
    /// Thickness of the planking when the table says it, in millimetres.
    pub plank_thickness_mm: Option<f64>,
    /// Height of the load waterline when the table says it, in metres.
    pub waterline_m: Option<f64>,
    /// Values that deserve a second look; none has been changed.
    pub doubts: Vec<Doubt>,
    /// What was assumed because the table does not say it, in sentences.
    pub assumed: Vec<String>,
    /// Whether the table's own x runs forward, against [`Lines`].
    pub x_runs_forward: bool,
}

impl Offsets {
    /// Reads a table in any of the three layouts.
    ///
    /// # Errors
    /// Names the station and the line of what cannot be read or cannot be meant.
    pub fn read(text: &str) -> Result<Offsets, HullError> {
        let rows = cells::split(text);
        let first =
            rows.iter().find(|r| !r.cells.is_empty()).ok_or_else(|| HullError::Missing("is empty".to_owned()))?;
        let names: Vec<String> = first.cells.iter().map(|c| c.to_lowercase()).collect();
        let mut offsets = if names[0] == "table of offsets" {
            plain::read(&rows)?
        } else if ["x_m", "z_m", "half_breadth_m"].iter().all(|k| names.iter().any(|n| n == k)) {
            rows::triples(&rows, text)?
        } else if names[0] == "station" || names[0] == "stations" {
            rows::stations(&rows, text)?
        } else {
            return Err(HullError::Table {
                line: first.line,
                place: "the first line".to_owned(),
                why: "the layout is not known; accepted are `table of offsets, 1`, a header with x_m, z_m, \
                      half_breadth_m, or a header with station, x_m, half_breadth_wl_…"
                    .to_owned(),
            });
        };
        check::particulars(&mut offsets);
        Ok(offsets)
    }

    /// Lays a surface through the lines.
    ///
    /// # Errors
    /// As [`Surface::through`].
    pub fn surface(&self, fairing: Fairing) -> Result<Surface, HullError> {
        Surface::through(&self.lines, fairing)
    }

    /// Returns the table's own x of a distance aft.
    pub fn table_x_m(&self, x_aft_m: f64) -> f64 {
        if self.x_runs_forward { -x_aft_m } else { x_aft_m }
    }
}
