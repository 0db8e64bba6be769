//! Lengths.

use crate::factor::{MM_PER_INCH, inches_from_mm, mm_from_inches};
use crate::figures::{NO_NUMBER, fixed, inches, parts_of_inch, trimmed};
use crate::scan::{Number, Scan, named};
use crate::{Fault, Quantity, System, offset};

/// A length, kept in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length {
    mm: f64,
}

/// Lengths beyond a thousand kilometres are slips of the pen.
const GREATEST_MM: f64 = 1e9;

const ACCEPTED: &str = "accepted are mm, cm, m, in, ft and yd, as in 32 mm, 5/8\" or 3'-4 1/2\"";

/// One number and its unit, whose size is in millimetres or, for feet and inches, in inches.
struct Term {
    number: Number,
    size: f64,
    unit: &'static str,
}

impl Length {
    /// Returns a length of so many millimetres.
    pub fn from_mm(mm: f64) -> Self {
        Self { mm }
    }

    /// Reads a length with its unit: `32 mm`, `1,2 m`, `1 m 20 cm`, `1.25 in`, `5/8"`, `3'-4 1/2"`, `3' 4½`, or feet,
    /// inches and eighths as in a table of offsets (`3-4-5`, with `+` for half an eighth more, `-` for half an eighth
    /// less). A number alone is refused, for want of a unit.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let mut scan = Scan::new(text);
        let start = scan.at();
        let minus = scan.sign();
        let size = match offset::read(&mut scan)? {
            Some(mm) => mm,
            None => read_terms(&mut scan)?,
        };
        scan.finish()?;
        if size > GREATEST_MM {
            return Err(Fault::new(start + 1, "this is more than a thousand kilometres"));
        }
        Ok(Self { mm: if minus && size != 0.0 { -size } else { size } })
    }

    /// Returns the length in millimetres.
    pub fn mm(self) -> f64 {
        self.mm
    }

    /// Returns the length in metres.
    pub fn m(self) -> f64 {
        self.mm / 1000.0
    }

    /// Returns the length in inches.
    pub fn inches(self) -> f64 {
        inches_from_mm(self.mm)
    }

    /// Returns the length in feet.
    pub fn feet(self) -> f64 {
        self.inches() / 12.0
    }

    /// Writes the length: below a metre in millimetres to the nearest tenth, else in metres to the millimetre; or in
    /// inches, from a foot in feet and inches, to the nearest sixteenth, and below an inch, where diameters of
    /// fastenings lie, to the nearest sixty-fourth. [`Length::read`] reads it again.
    pub fn write(self, system: System) -> String {
        if !self.mm.is_finite() {
            return NO_NUMBER.to_owned();
        }
        match system {
            System::Metric if (self.mm.abs() * 10.0).round() < 10_000.0 => format!("{} mm", trimmed(self.mm, 1)),
            System::Metric => format!("{} m", fixed(self.m(), 3)),
            System::Customary => feet_and_inches(self.mm),
        }
    }

    /// Writes the length as feet, inches and eighths, as in a table of offsets: `3-4-5+`, to the nearest sixteenth
    /// of an inch. [`Length::read`] reads it again.
    pub fn write_eighths(self) -> String {
        offset::write(self.mm)
    }
}

impl Quantity for Length {
    fn read(text: &str) -> Result<Self, Fault> {
        Self::read(text)
    }
    fn base(self) -> f64 {
        self.mm
    }
    fn from_base(value: f64) -> Self {
        Self::from_mm(value)
    }
    fn write(self, system: System) -> String {
        Self::write(self, system)
    }
}

/// Reads one length within a longer text, such as the three sides of a plank; stops at what it cannot use.
pub(crate) fn read_terms(scan: &mut Scan) -> Result<f64, Fault> {
    let first = read_term(scan, None)?;
    let mut sum = first.number.value * first.size;
    let mut last = first;
    loop {
        let here = scan.at();
        scan.skip_spaces();
        if last.unit == "ft" && scan.take('-') {
            scan.skip_spaces();
        }
        let follows = scan.peek().is_some_and(|c| crate::scan::is_of_number(c) && !matches!(c, '-' | '+'));
        if !follows || !last.number.whole {
            scan.go_back_to(here);
            return Ok(if is_metric(last.unit) { sum } else { mm_from_inches(sum) });
        }
        let next = read_term(scan, Some(&last))?;
        sum += next.number.value * next.size;
        last = next;
    }
}

fn read_term(scan: &mut Scan, before: Option<&Term>) -> Result<Term, Fault> {
    let number = scan.number()?;
    scan.skip_spaces();
    let unit_at = scan.at();
    let (unit, size) = if scan.inch_mark() {
        ("in", 1.0)
    } else if scan.take('\'') {
        ("ft", 12.0)
    } else {
        match scan.word().as_str() {
            "in" | "ins" | "inch" | "inches" => ("in", 1.0),
            "ft" | "foot" | "feet" => ("ft", 12.0),
            "yd" | "yds" | "yard" | "yards" => ("yd", 36.0),
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => ("mm", 1.0),
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => ("cm", 10.0),
            "m" | "metre" | "metres" | "meter" | "meters" => ("m", 1000.0),
            // 3' 4 is how people write 3'-4".
            "" if before.is_some_and(|term| term.unit == "ft") && scan.at_end() => ("in", 1.0),
            word => {
                scan.go_back_to(unit_at);
                return Err(scan.fault(no_unit(word, scan.peek())));
            }
        }
    };
    if let Some(before) = before {
        check_follows(before, &number, unit, size)?;
    }
    Ok(Term { number, size, unit })
}

fn no_unit(word: &str, next: Option<char>) -> String {
    match next {
        None => format!("a unit is missing; {ACCEPTED}"),
        Some('-') => format!("feet, inches and eighths take three figures, as in 3-4-5; {ACCEPTED}"),
        Some(c) if word.is_empty() => format!("a unit is expected, not {}; {ACCEPTED}", named(c)),
        Some(_) => format!("‘{}’ is not a unit of length; {ACCEPTED}", word.chars().take(20).collect::<String>()),
    }
}

fn check_follows(before: &Term, number: &Number, unit: &str, size: f64) -> Result<(), Fault> {
    let at = number.start + 1;
    if is_metric(before.unit) != is_metric(unit) || size >= before.size {
        return Err(Fault::new(at, format!("{unit} cannot follow {} in one length", before.unit)));
    }
    if number.value * size >= before.size {
        let why = match (before.unit, unit) {
            ("ft", "in") => "inches beside feet must be less than 12".to_owned(),
            (greater, _) => format!("what follows {greater} must be less than one {greater}"),
        };
        return Err(Fault::new(at, why));
    }
    Ok(())
}

fn is_metric(unit: &str) -> bool {
    matches!(unit, "mm" | "cm" | "m")
}

fn feet_and_inches(mm: f64) -> String {
    if mm.abs() < MM_PER_INCH {
        let (minus, parts) = parts_of_inch(mm, 64);
        return format!("{}{}\"", if minus { "-" } else { "" }, inches(parts, 64));
    }
    let (minus, sixteenths) = parts_of_inch(mm, 16);
    let minus = if minus { "-" } else { "" };
    match (sixteenths / 192, sixteenths % 192) {
        (0, rest) => format!("{minus}{}\"", inches(rest, 16)),
        // A lone fraction after the feet could be read as part of them.
        (feet, rest @ 1..16) => format!("{minus}{feet}'-0 {}\"", inches(rest, 16)),
        (feet, rest) => format!("{minus}{feet}'-{}\"", inches(rest, 16)),
    }
}
