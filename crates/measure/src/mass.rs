//! Masses.

use crate::factor::{KG_PER_LONG_TON, KG_PER_OUNCE, KG_PER_POUND, KG_PER_SHORT_TON};
use crate::figures::{NO_NUMBER, trimmed};
use crate::scan::{Scan, named};
use crate::{Fault, Quantity, System};

/// A mass, kept in kilograms.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Mass {
    kg: f64,
}

/// Masses beyond a million tonnes are slips of the pen.
const GREATEST_KG: f64 = 1e9;

const ACCEPTED: &str = "accepted are g, kg, t, oz, lb, long ton (2240 lb) and short ton (2000 lb)";

impl Mass {
    /// Returns a mass of so many kilograms.
    pub fn from_kg(kg: f64) -> Self {
        Self { kg }
    }

    /// Reads a mass with its unit: `12,5 kg`, `4.2 t`, `250 g`, `12 lb 4 oz`, `8 long tons`. A ton alone is refused,
    /// since it may be any of three.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let mut scan = Scan::new(text);
        let start = scan.at();
        let minus = scan.sign();
        let number = scan.number()?;
        let (unit, unit_kg) = unit(&mut scan)?;
        let mut kg = number.value * unit_kg;
        scan.skip_spaces();
        if unit == "lb" && number.whole && scan.peek().is_some_and(|c| c.is_ascii_digit()) {
            let ounces = scan.number()?;
            scan.skip_spaces();
            let unit_at = scan.at();
            let (unit, unit_kg) = self::unit(&mut scan)?;
            if unit != "oz" {
                return Err(Fault::new(unit_at + 1, "only oz can follow lb in one mass"));
            }
            if ounces.value >= 16.0 {
                return Err(Fault::new(ounces.start + 1, "ounces beside pounds must be less than 16"));
            }
            kg += ounces.value * unit_kg;
        }
        scan.finish()?;
        if kg > GREATEST_KG {
            return Err(Fault::new(start + 1, "this is more than a million tonnes"));
        }
        Ok(Self { kg: if minus && kg != 0.0 { -kg } else { kg } })
    }

    /// Returns the mass in kilograms.
    pub fn kg(self) -> f64 {
        self.kg
    }

    /// Returns the mass in avoirdupois pounds.
    pub fn pounds(self) -> f64 {
        self.kg / KG_PER_POUND
    }

    /// Writes the mass: below a kilogram in grams to the nearest tenth, else in kilograms to the nearest hundredth;
    /// or below a pound in ounces to the nearest tenth, else in pounds to the nearest hundredth. [`Mass::read`] reads
    /// it again.
    pub fn write(self, system: System) -> String {
        if !self.kg.is_finite() {
            return NO_NUMBER.to_owned();
        }
        let (great, great_unit, small, small_unit, smalls) = match system {
            System::Metric => (self.kg, "kg", self.kg * 1000.0, "g", 1000.0),
            System::Customary => (self.pounds(), "lb", self.kg / KG_PER_OUNCE, "oz", 16.0),
        };
        if (small.abs() * 10.0).round() < smalls * 10.0 {
            format!("{} {small_unit}", trimmed(small, 1))
        } else {
            format!("{} {great_unit}", trimmed(great, 2))
        }
    }
}

impl Quantity for Mass {
    fn read(text: &str) -> Result<Self, Fault> {
        Self::read(text)
    }
    fn base(self) -> f64 {
        self.kg
    }
    fn from_base(value: f64) -> Self {
        Self::from_kg(value)
    }
    fn write(self, system: System) -> String {
        Self::write(self, system)
    }
}

fn unit(scan: &mut Scan) -> Result<(&'static str, f64), Fault> {
    scan.skip_spaces();
    let unit_at = scan.at();
    let word = scan.word();
    let found = match word.as_str() {
        "g" | "gram" | "grams" | "gramme" | "grammes" => ("g", 0.001),
        "kg" | "kgs" | "kilogram" | "kilograms" | "kilo" | "kilos" => ("kg", 1.0),
        "t" | "tonne" | "tonnes" => ("t", 1000.0),
        "oz" | "ounce" | "ounces" => ("oz", KG_PER_OUNCE),
        "lb" | "lbs" | "pound" | "pounds" => ("lb", KG_PER_POUND),
        "long" | "short" => {
            scan.skip_spaces();
            let ton_at = scan.at();
            match (word.as_str(), scan.word().as_str()) {
                ("long", "ton" | "tons") => ("long ton", KG_PER_LONG_TON),
                ("short", "ton" | "tons") => ("short ton", KG_PER_SHORT_TON),
                _ => return Err(Fault::new(ton_at + 1, format!("a ton is expected after {word}"))),
            }
        }
        "ton" | "tons" => {
            let why = "a ton may be 1000 kg, 2240 lb or 2000 lb; write t, long ton or short ton";
            return Err(Fault::new(unit_at + 1, why));
        }
        word => {
            scan.go_back_to(unit_at);
            return Err(scan.fault(match scan.peek() {
                None => format!("a unit is missing; {ACCEPTED}"),
                Some(c) if word.is_empty() => format!("a unit is expected, not {}; {ACCEPTED}", named(c)),
                Some(_) => {
                    format!("‘{}’ is not a unit of mass; {ACCEPTED}", word.chars().take(20).collect::<String>())
                }
            }));
        }
    };
    Ok(found)
}
