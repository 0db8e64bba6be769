//! Checks against figures that are not ours.

use measure::{Length, Temperature, Volume, factor};

/// Conversion factors as scipy.constants has them (version in the file's first line).
#[test]
fn factors_agree_with_scipy() {
    let table = include_str!("../data/factors.csv");
    let mut seen = 0;
    for line in table.lines().skip(2) {
        let (name, value) = line.split_once(',').expect("two columns");
        let value: f64 = value.parse().expect("a number");
        let ours = match name {
            "inch" => factor::MM_PER_INCH / 1000.0,
            "foot" => factor::MM_PER_FOOT / 1000.0,
            "yard" => factor::MM_PER_YARD / 1000.0,
            "pound" => factor::KG_PER_POUND,
            "oz" => factor::KG_PER_OUNCE,
            "long_ton" => factor::KG_PER_LONG_TON,
            "short_ton" => factor::KG_PER_SHORT_TON,
            "zero_Celsius" => factor::KELVIN_AT_ZERO_CELSIUS,
            other => {
                let fahrenheit = other.strip_prefix("fahrenheit ").expect("a temperature");
                Temperature::read(&format!("{fahrenheit} °F")).unwrap().celsius()
            }
        };
        assert!((ours - value).abs() <= 1e-12 * value.abs().max(1.0), "{name}: {ours} is not {value}");
        seen += 1;
    }
    assert_eq!(seen, 14);
}

/// A foot of twelve inches, a pound of sixteen ounces, a board foot of 144 cubic inches: definitions, so exact.
#[test]
fn factors_follow_from_the_inch_and_the_pound() {
    let same = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-15, "{a} is not {b}");
    let cubic_inch = (factor::MM_PER_INCH / 1000.0).powi(3);
    same(factor::M3_PER_CUBIC_INCH, cubic_inch);
    same(factor::M3_PER_CUBIC_FOOT, 1728.0 * cubic_inch);
    same(factor::M3_PER_BOARD_FOOT, 144.0 * cubic_inch);
    same(factor::KG_PER_OUNCE, factor::KG_PER_POUND / 16.0);
    same(factor::KG_PER_LONG_TON, factor::KG_PER_POUND * 2240.0);
    same(factor::KG_PER_SHORT_TON, factor::KG_PER_POUND * 2000.0);
}

/// Board measure by the lumber trade's rule, feet × inches × inches / 12: 8 ft × 6 in × 1 1/4 in is 5 board feet.
#[test]
fn a_plank_measures_its_board_feet() {
    let plank = Volume::read("8 ft x 6 in x 1 1/4 in").unwrap();
    assert!((plank.board_feet() - 5.0).abs() < 1e-12);
    assert!((plank.m3() - 0.011_798_686_08).abs() < 1e-15, "5 × 144 × 16.387064 cm³");
}

/// Closed form: the parabolic hull y = B/2 (1 − (2x/L)²) (1 − (z/T)²) of W. C. S. Wigley, L 24 ft, B 8 ft, T 3 ft,
/// lifted at eleven stations and five waterlines and written to the nearest sixteenth.
#[test]
fn a_table_of_offsets_reads_as_its_closed_form() {
    let table = include_str!("../data/offsets-wigley-24-ft.csv");
    let mut seen = 0;
    for line in table.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let station: f64 = cells[0].parse().expect("a station");
        for (waterline, cell) in cells[1..].iter().enumerate() {
            let along = (station - 5.0) / 5.0;
            let down = 1.0 - waterline as f64 / 4.0;
            let feet = 4.0 * (1.0 - along * along) * (1.0 - down * down);
            let read = Length::read(cell).unwrap();
            // Rounding to a sixteenth leaves at most a thirty-second of an inch, 1/384 ft.
            assert!((read.feet() - feet).abs() <= 1.0 / 384.0 + 1e-9, "station {station}: {cell} is not {feet} ft");
            assert_eq!(read.write_eighths(), *cell);
            seen += 1;
        }
    }
    assert_eq!(seen, 55);
}
