//! Volumes of timber.

use crate::factor::{M3_PER_BOARD_FOOT, M3_PER_CUBIC_FOOT, M3_PER_CUBIC_INCH};
use crate::figures::{NO_NUMBER, trimmed};
use crate::scan::{Scan, named};
use crate::{Fault, Length, Quantity, System, length};

/// A volume of timber, kept in cubic metres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Volume {
    m3: f64,
}

/// A unit in which a volume is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum VolumeUnit {
    /// Cubic metres, to the nearest litre.
    CubicMetres,
    /// Litres, to the nearest tenth.
    Litres,
    /// Cubic feet, to the nearest hundredth.
    CubicFeet,
    /// Board feet of 144 cubic inches, to the nearest hundredth.
    BoardFeet,
}

/// A cubic kilometre of timber is a slip of the pen.
const GREATEST_M3: f64 = 1e9;

const ACCEPTED: &str = "accepted are m³, litres, cu ft, cu in, board feet, or three sides as in 8 ft x 6 in x 1 1/4 in";

impl Volume {
    /// Returns a volume of so many cubic metres.
    pub fn from_m3(m3: f64) -> Self {
        Self { m3 }
    }

    /// Returns the volume of a plank from its true sizes (not the nominal ones by which sawn stock is sold).
    pub fn of_plank(length: Length, width: Length, thickness: Length) -> Self {
        Self { m3: length.m() * width.m() * thickness.m() }
    }

    /// Reads a volume with its unit: `0,25 m³`, `30 litres`, `12 cu ft`, `5 board feet`, or the three sides of a
    /// plank as in `8 ft x 6 in x 1 1/4 in`.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let mut scan = Scan::new(text);
        let start = scan.at();
        let m3 = if text.chars().any(|c| matches!(c, 'x' | 'X' | '×' | '✕')) {
            sides(&mut scan)?
        } else {
            let minus = scan.sign();
            let number = scan.number()?;
            let m3 = number.value * unit_m3(&mut scan)?;
            if minus && m3 != 0.0 { -m3 } else { m3 }
        };
        scan.finish()?;
        if m3.abs() > GREATEST_M3 {
            return Err(Fault::new(start + 1, "this is more than a cubic kilometre"));
        }
        Ok(Self { m3 })
    }

    /// Returns the volume in cubic metres.
    pub fn m3(self) -> f64 {
        self.m3
    }

    /// Returns the volume in litres.
    pub fn litres(self) -> f64 {
        self.m3 * 1000.0
    }

    /// Returns the volume in cubic feet.
    pub fn cubic_feet(self) -> f64 {
        self.m3 / M3_PER_CUBIC_FOOT
    }

    /// Returns the volume in board feet.
    pub fn board_feet(self) -> f64 {
        self.m3 / M3_PER_BOARD_FOOT
    }

    /// Writes the volume in the given unit, to the precision the unit names. [`Volume::read`] reads it again.
    pub fn write_in(self, unit: VolumeUnit) -> String {
        if !self.m3.is_finite() {
            return NO_NUMBER.to_owned();
        }
        match unit {
            VolumeUnit::CubicMetres => format!("{} m³", trimmed(self.m3, 3)),
            VolumeUnit::Litres => format!("{} litres", trimmed(self.litres(), 1)),
            VolumeUnit::CubicFeet => format!("{} cu ft", trimmed(self.cubic_feet(), 2)),
            VolumeUnit::BoardFeet => format!("{} board feet", trimmed(self.board_feet(), 2)),
        }
    }

    /// Writes the volume: below a tenth of a cubic metre in litres, else in cubic metres; or in board feet.
    pub fn write(self, system: System) -> String {
        self.write_in(match system {
            System::Metric if (self.litres().abs() * 10.0).round() < 1000.0 => VolumeUnit::Litres,
            System::Metric => VolumeUnit::CubicMetres,
            System::Customary => VolumeUnit::BoardFeet,
        })
    }
}

impl Quantity for Volume {
    fn read(text: &str) -> Result<Self, Fault> {
        Self::read(text)
    }
    fn base(self) -> f64 {
        self.m3
    }
    fn from_base(value: f64) -> Self {
        Self::from_m3(value)
    }
    fn write(self, system: System) -> String {
        Self::write(self, system)
    }
}

fn sides(scan: &mut Scan) -> Result<f64, Fault> {
    let mut m3 = 1.0;
    for side in 0..3 {
        scan.skip_spaces();
        if side > 0 && !scan.take('x') && !scan.take('X') {
            return Err(scan.fault("three sides are expected, with x between them, as in 8 ft x 6 in x 1 1/4 in"));
        }
        scan.skip_spaces();
        m3 *= length::read_terms(scan)? / 1000.0;
    }
    Ok(m3)
}

fn unit_m3(scan: &mut Scan) -> Result<f64, Fault> {
    scan.skip_spaces();
    let unit_at = scan.at();
    let mut words = Vec::new();
    // No unit of volume has more than two words.
    while words.len() < 2 {
        let word = scan.word();
        if word.is_empty() {
            break;
        }
        words.push(word);
        scan.skip_spaces();
    }
    let cubed = scan.take('³') || scan.take('3');
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    Ok(match (words.as_slice(), cubed) {
        (["m"], true) | (["cu" | "cubic", "m" | "metre" | "metres" | "meter" | "meters"], false) => 1.0,
        (["dm"], true) | (["l" | "litre" | "litres" | "liter" | "liters"], false) => 0.001,
        (["cm"], true) | (["cu" | "cubic", "cm"], false) => 1e-6,
        (["ft"], true) | (["cu" | "cubic", "ft" | "foot" | "feet"], false) => M3_PER_CUBIC_FOOT,
        (["in"], true) | (["cu" | "cubic", "in" | "ins" | "inch" | "inches"], false) => M3_PER_CUBIC_INCH,
        (["bf" | "fbm" | "bdft"], false) | (["bd" | "board", "ft" | "foot" | "feet"], false) => M3_PER_BOARD_FOOT,
        _ => {
            scan.go_back_to(unit_at);
            return Err(scan.fault(match scan.peek() {
                None => format!("a unit is missing; {ACCEPTED}"),
                Some(c) if words.is_empty() => format!("a unit is expected, not {}; {ACCEPTED}", named(c)),
                Some(_) => {
                    let words = words.join(" ").chars().take(20).collect::<String>();
                    format!("‘{words}’ is not a unit of volume; {ACCEPTED}")
                }
            }));
        }
    })
}
