//! Angles and slopes.

use crate::figures::{NO_NUMBER, trimmed};
use crate::scan::{Scan, named};
use crate::{Fault, Quantity, System};

/// An angle, kept in degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle {
    degrees: f64,
}

/// More than ten turns is a slip of the pen.
const GREATEST_DEGREES: f64 = 3600.0;

const ACCEPTED: &str = "accepted are degrees (12.5°, 12° 30'), rad, and slopes such as 1 in 12";

impl Angle {
    /// Returns an angle of so many degrees.
    pub fn from_degrees(degrees: f64) -> Self {
        Self { degrees }
    }

    /// Reads an angle: `12.5°`, `12 deg`, `12° 30' 15"`, `0.2 rad`, or a slope as rise in run: `1 in 12`, `1:12`.
    /// A slope whose first figure is the greater is refused, since people write scarphs either way round.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let mut scan = Scan::new(text);
        let start = scan.at();
        let minus = scan.sign();
        let number = scan.number()?;
        scan.skip_spaces();
        let unit_at = scan.at();
        let degrees = if scan.take('°') || scan.take('º') {
            number.value + minutes_and_seconds(&mut scan, number.whole)?
        } else if scan.take(':') {
            slope(&mut scan, number.value, number.start)?
        } else {
            match scan.word().as_str() {
                "deg" | "degs" | "degree" | "degrees" => number.value + minutes_and_seconds(&mut scan, number.whole)?,
                "rad" | "rads" | "radian" | "radians" => number.value.to_degrees(),
                "in" => slope(&mut scan, number.value, number.start)?,
                word => {
                    scan.go_back_to(unit_at);
                    return Err(scan.fault(match scan.peek() {
                        None => format!("a unit is missing; {ACCEPTED}"),
                        Some(c) if word.is_empty() => format!("a unit is expected, not {}; {ACCEPTED}", named(c)),
                        Some(_) => format!(
                            "‘{}’ is not a unit of angle; {ACCEPTED}",
                            word.chars().take(20).collect::<String>()
                        ),
                    }));
                }
            }
        };
        scan.finish()?;
        if degrees > GREATEST_DEGREES {
            return Err(Fault::new(start + 1, "this is more than ten turns"));
        }
        Ok(Self { degrees: if minus && degrees != 0.0 { -degrees } else { degrees } })
    }

    /// Returns the angle in degrees.
    pub fn degrees(self) -> f64 {
        self.degrees
    }

    /// Returns the angle in radians.
    pub fn radians(self) -> f64 {
        self.degrees.to_radians()
    }

    /// Writes the angle in degrees to the nearest tenth, `12.5°`. [`Angle::read`] reads it again.
    pub fn write(self) -> String {
        if self.degrees.is_finite() { format!("{}°", trimmed(self.degrees, 1)) } else { NO_NUMBER.to_owned() }
    }

    /// Writes the angle in degrees and minutes, `12° 30'`, to the nearest minute. [`Angle::read`] reads it again.
    pub fn write_minutes(self) -> String {
        if !self.degrees.is_finite() {
            return NO_NUMBER.to_owned();
        }
        let minutes = (self.degrees * 60.0).round();
        let minus = if minutes < 0.0 { "-" } else { "" };
        let minutes = minutes.abs() as u64;
        format!("{minus}{}° {}'", minutes / 60, minutes % 60)
    }
}

impl Quantity for Angle {
    fn read(text: &str) -> Result<Self, Fault> {
        Self::read(text)
    }
    fn base(self) -> f64 {
        self.degrees
    }
    fn from_base(value: f64) -> Self {
        Self::from_degrees(value)
    }
    fn write(self, _system: System) -> String {
        Self::write(self)
    }
}

/// Reads what may follow whole degrees, in degrees.
fn minutes_and_seconds(scan: &mut Scan, whole: bool) -> Result<f64, Fault> {
    let mut degrees = 0.0;
    let mut whole = whole;
    for part in [1.0 / 60.0, 1.0 / 3600.0] {
        scan.skip_spaces();
        if scan.at_end() || !whole {
            break;
        }
        let number = scan.number()?;
        scan.skip_spaces();
        let marked = if part > 0.01 { !scan.inch_mark() && scan.take('\'') } else { scan.inch_mark() };
        if !marked {
            return Err(scan.fault("after degrees come minutes marked ' and then seconds marked \""));
        }
        if number.value >= 60.0 {
            return Err(Fault::new(number.start + 1, "minutes and seconds must be less than 60"));
        }
        degrees += number.value * part;
        whole = number.whole;
    }
    Ok(degrees)
}

fn slope(scan: &mut Scan, rise: f64, rise_at: usize) -> Result<f64, Fault> {
    scan.skip_spaces();
    let run = scan.number()?;
    if run.value == 0.0 {
        return Err(Fault::new(run.start + 1, "a slope cannot have a run of nought"));
    }
    if rise > run.value {
        return Err(Fault::new(rise_at + 1, "a slope is written with the lesser figure first, as 1 in 12"));
    }
    Ok((rise / run.value).atan().to_degrees())
}
