//! Temperatures.

use crate::factor::KELVIN_AT_ZERO_CELSIUS;
use crate::figures::{NO_NUMBER, trimmed};
use crate::scan::{Scan, named};
use crate::{Fault, Quantity, System};

/// A temperature, kept in degrees Celsius.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Temperature {
    celsius: f64,
}

/// Hotter than any fire in a yard: a slip of the pen.
const GREATEST_CELSIUS: f64 = 10_000.0;

const ACCEPTED: &str = "accepted are °C, °F and K";

#[derive(Clone, Copy, PartialEq)]
enum Scale {
    Celsius,
    Fahrenheit,
    Kelvin,
}

impl Temperature {
    /// Returns a temperature of so many degrees Celsius.
    pub fn from_celsius(celsius: f64) -> Self {
        Self { celsius }
    }

    /// Reads a temperature with its unit: `20 °C`, `68F`, `293.15 K`. Colder than absolute zero is refused.
    pub fn read(text: &str) -> Result<Self, Fault> {
        let (value, scale, at) = number_and_scale(text)?;
        let celsius = match scale {
            Scale::Celsius => value,
            Scale::Fahrenheit => (value - 32.0) / 1.8,
            Scale::Kelvin => value - KELVIN_AT_ZERO_CELSIUS,
        };
        if celsius < -KELVIN_AT_ZERO_CELSIUS {
            return Err(Fault::new(at + 1, "this is colder than absolute zero"));
        }
        if celsius > GREATEST_CELSIUS {
            return Err(Fault::new(at + 1, "this is hotter than any fire"));
        }
        Ok(Self { celsius })
    }

    /// Returns the temperature in degrees Celsius.
    pub fn celsius(self) -> f64 {
        self.celsius
    }

    /// Returns the temperature in degrees Fahrenheit.
    pub fn fahrenheit(self) -> f64 {
        self.celsius * 1.8 + 32.0
    }

    /// Writes the temperature in °C or °F, to the nearest tenth. [`Temperature::read`] reads it again.
    pub fn write(self, system: System) -> String {
        match system {
            _ if !self.celsius.is_finite() => NO_NUMBER.to_owned(),
            System::Metric => format!("{} °C", trimmed(self.celsius, 1)),
            System::Customary => format!("{} °F", trimmed(self.fahrenheit(), 1)),
        }
    }
}

impl Quantity for Temperature {
    fn read(text: &str) -> Result<Self, Fault> {
        Self::read(text)
    }
    fn read_difference(text: &str) -> Result<f64, Fault> {
        let (value, scale, _) = number_and_scale(text)?;
        Ok(if scale == Scale::Fahrenheit { value / 1.8 } else { value })
    }
    fn base(self) -> f64 {
        self.celsius
    }
    fn from_base(value: f64) -> Self {
        Self::from_celsius(value)
    }
    fn write(self, system: System) -> String {
        Self::write(self, system)
    }
    fn write_difference(difference: f64, system: System) -> String {
        match system {
            System::Metric => format!("{} °C", trimmed(difference, 1)),
            System::Customary => format!("{} °F", trimmed(difference * 1.8, 1)),
        }
    }
}

/// Returns the value as written, its scale, and the index at which it begins.
fn number_and_scale(text: &str) -> Result<(f64, Scale, usize), Fault> {
    let mut scan = Scan::new(text);
    let start = scan.at();
    let minus = scan.sign();
    let number = scan.number()?;
    scan.skip_spaces();
    let unit_at = scan.at();
    let scale = if scan.take('℃') {
        Scale::Celsius
    } else if scan.take('℉') {
        Scale::Fahrenheit
    } else {
        let marked = scan.take('°') || scan.take('º');
        scan.skip_spaces();
        match scan.word().as_str() {
            "c" | "celsius" => Scale::Celsius,
            "f" | "fahrenheit" => Scale::Fahrenheit,
            "k" | "kelvin" if !marked => Scale::Kelvin,
            "deg" | "degrees" | "degree" if !marked => {
                scan.skip_spaces();
                let letter_at = scan.at();
                match scan.word().as_str() {
                    "c" | "celsius" => Scale::Celsius,
                    "f" | "fahrenheit" => Scale::Fahrenheit,
                    _ => return Err(Fault::new(letter_at + 1, format!("degrees of what; {ACCEPTED}"))),
                }
            }
            word => {
                scan.go_back_to(unit_at);
                return Err(scan.fault(match scan.peek() {
                    None => format!("a unit is missing; {ACCEPTED}"),
                    Some(c) if word.is_empty() => format!("a unit is expected, not {}; {ACCEPTED}", named(c)),
                    Some(_) => format!(
                        "‘{}’ is not a unit of temperature; {ACCEPTED}",
                        word.chars().take(20).collect::<String>()
                    ),
                }));
            }
        }
    };
    scan.finish()?;
    let value = if minus && number.value != 0.0 { -number.value } else { number.value };
    Ok((value, scale, start))
}
