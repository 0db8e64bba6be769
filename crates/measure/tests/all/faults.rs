//! Nonsense is refused, with the place of the fault.

use measure::{Angle, Fault, Length, Mass, Range, Temperature, Volume};

#[track_caller]
fn refused<Q: std::fmt::Debug>(read: Result<Q, Fault>, at: usize, why: &str) {
    let fault = read.expect_err("this should have been refused");
    assert!(fault.at == at && fault.why.contains(why), "got: {fault}");
}

#[test]
fn lengths_that_mean_nothing_are_refused_where_they_go_wrong() {
    for (text, at, why) in [
        ("", 1, "nothing is written"),
        ("   ", 4, "a number is missing"),
        ("32", 3, "a unit is missing"),
        ("32 kg", 4, "‘kg’ is not a unit of length"),
        ("thirty mm", 1, "a number is expected"),
        ("3 mm x", 6, "‘x’ is not expected"),
        ("1..2 mm", 3, "figures are expected"),
        ("1.2.3,4 mm", 4, "one decimal point"),
        ("1,250 mm", 2, "thousands or as decimals"),
        ("1e3 mm", 2, "‘e’ is not a unit"),
        ("5/0\"", 3, "nought below the line"),
        ("5/\"", 3, "below the line"),
        ("4 5/4\"", 3, "less than one"),
        ("3'-14\"", 4, "less than 12"),
        ("3'-4 mm", 4, "mm cannot follow ft"),
        ("4\" 3'", 4, "ft cannot follow in"),
        ("1 m 200 cm", 5, "less than one m"),
        ("1.5 m 20 cm", 7, "not expected"),
        ("3-4", 2, "three figures, as in 3-4-5"),
        ("3-12-5", 3, "0 to 11"),
        ("3-4-9", 5, "0 to 7"),
        ("3-4-5\"", 6, "not expected"),
        ("3-4.5", 2, "three figures"),
        ("9999999999999999999999999 mm", 1, "too great"),
        ("99999999 m", 1, "thousand kilometres"),
        ("--5 mm", 2, "a number is expected"),
        ("NaN mm", 1, "a number is expected"),
        ("inf mm", 1, "a number is expected"),
        ("٣ mm", 1, "a number is expected"),
        ("5\0 mm", 2, "a control character"),
    ] {
        refused(Length::read(text), at, why);
    }
    assert_eq!(Length::read("3-4-9").unwrap_err().to_string(), "at character 5: eighths go from 0 to 7");
}

#[test]
fn other_quantities_that_mean_nothing_are_refused_where_they_go_wrong() {
    refused(Mass::read("3 tons"), 3, "1000 kg, 2240 lb or 2000 lb");
    refused(Mass::read("12 lb 17 oz"), 7, "less than 16");
    refused(Mass::read("12 lb 3 kg"), 9, "only oz");
    refused(Mass::read("3 long boats"), 8, "a ton is expected");
    refused(Mass::read("3"), 2, "a unit is missing");

    refused(Angle::read("8:1"), 1, "lesser figure first");
    refused(Angle::read("1:0"), 3, "run of nought");
    refused(Angle::read("12° 61'"), 5, "less than 60");
    refused(Angle::read("12° 30"), 7, "marked '");
    refused(Angle::read("12"), 3, "a unit is missing");

    refused(Temperature::read("-300 °C"), 1, "absolute zero");
    refused(Temperature::read("20"), 3, "a unit is missing");
    refused(Temperature::read("20 degrees"), 11, "degrees of what");
    refused(Temperature::read("20 °K"), 4, "not a unit");

    refused(Volume::read("12 gallons"), 4, "not a unit of volume");
    refused(Volume::read("12 m"), 4, "not a unit of volume");
    refused(Volume::read("8 ft x 6 in"), 12, "three sides");
    refused(Volume::read("8 ft x 6 x 1 in"), 10, "not a unit of length");
}

#[test]
fn ranges_that_mean_nothing_are_refused_where_they_go_wrong() {
    refused(Range::<Length>::read("12 ± 1"), 7, "a unit is missing");
    refused(Range::<Length>::read("12 ± -1 mm"), 5, "must not be negative");
    refused(Range::<Length>::read("12 to 10 mm"), 7, "lesser to the greater");
    refused(Range::<Length>::read("12 to ten mm"), 7, "a number is expected");
    refused(Range::<Length>::read("2 to 3'-4\""), 2, "a unit is missing");
    refused(Range::<Mass>::read("12 mm to 14 mm"), 4, "not a unit of mass");
    assert!(Range::between(Length::from_mm(2.0), Length::from_mm(1.0)).is_none());
    assert!(Range::between(Length::from_mm(f64::NAN), Length::from_mm(1.0)).is_none());
}
