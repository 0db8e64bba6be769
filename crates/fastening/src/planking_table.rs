//! The customary screw, length and bung for a plank, and back from a bung to the screw it implies.
//!
//! Herreshoff/Nevins rules for yacht construction: silicon bronze screws, planking and deck fastenings (read in
//! a reprint). One bung serves one to three gauges, so a bung alone never proves a gauge.

use crate::Fault;
use crate::table_text::{number, rows, words};
use std::sync::LazyLock;

/// One row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Customary {
    /// Plank thickness in mm.
    pub plank_mm: f64,
    /// Plank thickness as printed, inches.
    pub plank_in: String,
    /// Gauge of the screw.
    pub gauge: u32,
    /// Length of the screw in mm.
    pub length_mm: f64,
    /// Length as printed, inches.
    pub length_in: String,
    /// Bungs offered, in mm, the smaller first.
    pub bungs_mm: Vec<f64>,
}

/// A bung read against the row for its plank.
#[derive(Clone, Debug, PartialEq)]
pub struct BungReading {
    /// The row nearest to the plank's thickness.
    pub customary: Customary,
    /// Gauges that the table gives the measured bung's size.
    pub gauges: Vec<u32>,
    /// Nominal size of the bung in mm, the nearest sixteenth of an inch.
    pub nominal_mm: f64,
    /// Sixteenths of an inch by which it is larger than the largest bung of the plank's row; negative when
    /// smaller than the smallest.
    pub excess_sixteenths: i32,
    /// What that says, in a sentence.
    pub reading: String,
}

/// Returns the whole table, thinnest plank first.
pub fn table() -> &'static [Customary] {
    static TABLE: LazyLock<Vec<Customary>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            let bungs_mm = [number(&row, 7), number(&row, 9)].into_iter().flatten().collect();
            Some(Customary {
                plank_in: words(&row, 0)?,
                plank_mm: number(&row, 1)?,
                gauge: row.get(3)?.parse().ok()?,
                length_in: words(&row, 4)?,
                length_mm: number(&row, 5)?,
                bungs_mm,
            })
        };
        rows(include_str!("../data/planking-screws.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}

/// Returns the row nearest to a plank's thickness.
///
/// # Errors
/// When the plank is thinner than 8 mm or thicker than 57 mm: outside the table by more than half a step.
pub fn for_plank(thickness_mm: f64) -> Result<&'static Customary, Fault> {
    Fault::between("thickness_mm", thickness_mm, 8.0, 57.0)?;
    let near = |row: &&Customary| (row.plank_mm - thickness_mm).abs();
    table()
        .iter()
        .min_by(|a, b| near(a).total_cmp(&near(b)))
        .ok_or_else(|| Fault::Meaningless("The table of planking screws is empty.".to_owned()))
}

/// Returns the gauges that the table gives a bung of the nearest sixteenth of an inch.
pub fn gauges_of_bung(bung_mm: f64) -> Vec<u32> {
    let sixteenths = sixteenths(bung_mm);
    let has = |row: &&Customary| row.bungs_mm.iter().any(|b| self::sixteenths(*b) == sixteenths);
    let mut gauges: Vec<u32> = table().iter().filter(has).map(|row| row.gauge).collect();
    gauges.dedup();
    gauges
}

/// Reads a measured bung against its plank.
///
/// # Errors
/// When the plank is outside the table or the bung is not from 5 to 40 mm.
pub fn read_bung(bung_mm: f64, thickness_mm: f64) -> Result<BungReading, Fault> {
    Fault::between("bung_mm", bung_mm, 5.0, 40.0)?;
    let customary = for_plank(thickness_mm)?.clone();
    let size = sixteenths(bung_mm);
    let row: Vec<i32> = customary.bungs_mm.iter().map(|b| sixteenths(*b)).collect();
    let (least, greatest) = (row.iter().min().copied().unwrap_or(size), row.iter().max().copied().unwrap_or(size));
    let excess = if size > greatest { size - greatest } else { (size - least).min(0) };
    let gauges = gauges_of_bung(bung_mm);
    let implied = match gauges.as_slice() {
        [] => "no gauge of the table takes that bung".to_owned(),
        [one] => format!("the table puts it over #{one}"),
        many => {
            let words: Vec<_> = many.iter().map(|g| format!("#{g}")).collect();
            format!("the table puts it over {}", words.join(" or "))
        }
    };
    let reading = match excess {
        i32::MIN..=-1 => format!("The bung is smaller than customary for the plank; {implied}."),
        0 => format!("The bung is the customary one for the plank; {implied}."),
        1 => format!(
            "The bung is one size (1/16 in) over the customary; {implied}. That is within a gauge step of ordinary \
             practice and proves little."
        ),
        n => format!("The bung is {n} sizes (1/16 in each) over the customary; {implied}. That wants an explanation."),
    };
    let nominal_mm = f64::from(size) * 25.4 / 16.0;
    Ok(BungReading { customary, gauges, nominal_mm, excess_sixteenths: excess, reading })
}

fn sixteenths(mm: f64) -> i32 {
    (mm / 25.4 * 16.0).round() as i32
}
