//! Taking off quantities. Waste, yield and laps are the user's.

use crate::Fault;

/// One board foot in cubic metres: 144 cubic inches, exact from 1 in = 25.4 mm.
pub const BOARD_FOOT_M3: f64 = 0.002_359_737_216;

/// Returns the board feet of a piece: its rough volume over 144 cubic inches.
///
/// ```
/// // 8 ft x 6 in x 1 1/4 in = 5.0 board feet
/// let bf = estimate::quantities::board_feet(8.0 * 304.8, 6.0 * 25.4, 1.25 * 25.4);
/// assert!((bf - 5.0).abs() < 1e-12);
/// ```
pub fn board_feet(length_mm: f64, width_mm: f64, thickness_mm: f64) -> f64 {
    length_mm * width_mm * thickness_mm * 1e-9 / BOARD_FOOT_M3
}

/// Returns how many frames a length crosses: one more than the whole spacings in it.
///
/// # Errors
/// The spacing is not positive or the length negative.
pub fn frame_crossings(length_mm: f64, spacing_mm: f64) -> Result<u64, Fault> {
    positive("a frame spacing", spacing_mm)?;
    not_negative("a length", length_mm)?;
    // A length of exactly so many spacings must not lose its last frame to rounding.
    Ok(libm::floor(length_mm / spacing_mm + 1e-9) as u64 + 1)
}

/// Fastenings of a run of planking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fastenings {
    /// Planks.
    pub planks: u64,
    /// Frames each plank crosses.
    pub crossings: u64,
    /// Fastenings at each crossing.
    pub per_crossing: u64,
    /// Butts, each with two plank ends.
    pub butts: u64,
    /// Fastenings in one plank end at a butt.
    pub per_butt_end: u64,
    /// Fastenings found sound and left.
    pub left: u64,
}

impl Fastenings {
    /// Returns the fastenings to be driven.
    pub fn count(&self) -> u64 {
        let all = self.planks * self.crossings * self.per_crossing + self.butts * 2 * self.per_butt_end;
        all.saturating_sub(self.left)
    }
}

/// Returns the metres of seam to be caulked in a hull, each seam once.
///
/// Seams lie between strakes and between garboard and keel, so `strakes` a side have `strakes` seams a side; hood ends and
/// butts come on top.
pub fn caulking_m(strakes_a_side: u64, strake_length_m: f64, ends_m: f64, butts_m: f64) -> f64 {
    2.0 * strakes_a_side as f64 * strake_length_m + ends_m + butts_m
}

/// A plank to be got out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlankBlank {
    /// Finished length in millimetres.
    pub length_mm: f64,
    /// Finished width at the widest, in millimetres.
    pub width_mm: f64,
    /// Finished thickness in millimetres.
    pub thickness_mm: f64,
    /// Sweep of the spiling in millimetres: how far the plank curves out of a straight board.
    pub sweep_mm: f64,
    /// Allowance at each edge in millimetres.
    pub edge_mm: f64,
    /// Hollow, backing and planing in millimetres.
    pub planing_mm: f64,
    /// Scarph or both cut ends in millimetres.
    pub ends_mm: f64,
    /// Share of the timber bought that becomes such blanks, in percent: the user's.
    pub yield_percent: f64,
}

/// Timber for planks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timber {
    /// Finished area in square metres, one face.
    pub finished_m2: f64,
    /// Volume of the blanks in cubic metres.
    pub blanks_m3: f64,
    /// Volume to buy in cubic metres.
    pub to_buy_m3: f64,
    /// Volume to buy in board feet.
    pub to_buy_board_feet: f64,
}

impl PlankBlank {
    /// Returns the timber for so many such planks.
    ///
    /// # Errors
    /// A size or the yield makes no sense.
    pub fn timber(&self, planks: u64) -> Result<Timber, Fault> {
        positive("a plank's length", self.length_mm)?;
        positive("a plank's width", self.width_mm)?;
        positive("a plank's thickness", self.thickness_mm)?;
        for (name, given) in [
            ("a sweep", self.sweep_mm),
            ("an edge allowance", self.edge_mm),
            ("a planing allowance", self.planing_mm),
            ("an allowance for ends", self.ends_mm),
        ] {
            not_negative(name, given)?;
        }
        if !(self.yield_percent > 0.0 && self.yield_percent <= 100.0) {
            return Err(Fault::Range {
                name: "a yield in percent".to_owned(),
                given: self.yield_percent,
                accepted: "a number above 0, up to 100".to_owned(),
            });
        }
        let count = planks as f64;
        let blank = (self.length_mm + self.ends_mm)
            * (self.width_mm + self.sweep_mm + 2.0 * self.edge_mm)
            * (self.thickness_mm + self.planing_mm)
            * 1e-9;
        let to_buy_m3 = count * blank / (self.yield_percent / 100.0);
        Ok(Timber {
            finished_m2: count * self.length_mm * self.width_mm * 1e-6,
            blanks_m3: count * blank,
            to_buy_m3,
            to_buy_board_feet: to_buy_m3 / BOARD_FOOT_M3,
        })
    }
}

/// Returns the length of a sister in millimetres: the damaged length and a lap each side, which the designer or rule sets.
pub fn sister_mm(damaged_mm: f64, lap_mm: f64) -> f64 {
    damaged_mm + 2.0 * lap_mm
}

fn positive(name: &str, given: f64) -> Result<(), Fault> {
    if given > 0.0 && given.is_finite() {
        return Ok(());
    }
    Err(Fault::Range { name: name.to_owned(), given, accepted: "a number above 0".to_owned() })
}

fn not_negative(name: &str, given: f64) -> Result<(), Fault> {
    if given >= 0.0 && given.is_finite() {
        return Ok(());
    }
    Err(Fault::Range { name: name.to_owned(), given, accepted: "a number from 0".to_owned() })
}
