//! Exact conversion factors and where they come from.
//!
//! Source of all but the board foot: NIST Special Publication 811, *Guide for the Use of the International System of
//! Units* (2008 edition), appendix B.8, where they are printed in bold as exact; inch, foot and pound are those of
//! the international yard and pound agreement of 1959. The board foot is 144 cubic inches (one foot square and one
//! inch thick), so its metric size follows exactly from the inch.

/// Millimetres in an inch.
pub const MM_PER_INCH: f64 = 25.4;
/// Millimetres in a foot of twelve inches.
pub const MM_PER_FOOT: f64 = 304.8;
/// Millimetres in a yard of three feet.
pub const MM_PER_YARD: f64 = 914.4;
/// Kilograms in an avoirdupois pound.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Kilograms in an avoirdupois ounce, a sixteenth of a pound.
pub const KG_PER_OUNCE: f64 = 0.028_349_523_125;
/// Kilograms in a long ton of 2240 pounds.
pub const KG_PER_LONG_TON: f64 = 1_016.046_908_8;
/// Kilograms in a short ton of 2000 pounds.
pub const KG_PER_SHORT_TON: f64 = 907.184_74;
/// Cubic metres in a cubic inch.
pub const M3_PER_CUBIC_INCH: f64 = 0.000_016_387_064;
/// Cubic metres in a cubic foot.
pub const M3_PER_CUBIC_FOOT: f64 = 0.028_316_846_592;
/// Cubic metres in a board foot of 144 cubic inches.
pub const M3_PER_BOARD_FOOT: f64 = 0.002_359_737_216;
/// Kelvin at nought degrees Celsius.
pub const KELVIN_AT_ZERO_CELSIUS: f64 = 273.15;

/// Returns inches in millimetres. Multiplying by the whole number 254 first keeps every sixteenth of an inch and every
/// hundredth exact to the last figure, which multiplying by 25.4 does not.
pub fn mm_from_inches(inches: f64) -> f64 {
    inches * 254.0 / 10.0
}

/// Returns millimetres in inches, as exactly.
pub fn inches_from_mm(mm: f64) -> f64 {
    mm * 10.0 / 254.0
}
