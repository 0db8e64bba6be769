//! What people write, and what it means.

use measure::{Angle, Length, Mass, Range, System, Temperature, Volume};

fn mm(text: &str) -> f64 {
    Length::read(text).unwrap_or_else(|fault| panic!("{text}: {fault}")).mm()
}

#[track_caller]
fn near(got: f64, wanted: f64) {
    assert!((got - wanted).abs() <= 1e-12 * wanted.abs().max(1.0), "{got} is not {wanted}");
}

#[test]
fn lengths_are_read_in_every_way_people_write_them() {
    let inch = 25.4;
    for (text, wanted) in [
        ("32 mm", 32.0),
        ("32mm", 32.0),
        ("  32   mm  ", 32.0),
        ("1,2 m", 1200.0),
        ("0,125 m", 125.0),
        ("1.25 in", 1.25 * inch),
        (".5 in.", 0.5 * inch),
        ("12,5 CM", 125.0),
        ("1 m 20 cm 5 mm", 1205.0),
        ("5/8\"", 0.625 * inch),
        ("5/8″", 0.625 * inch),
        ("5⁄8 in", 0.625 * inch),
        ("⅝\"", 0.625 * inch),
        ("4 1/2\"", 4.5 * inch),
        ("4-1/2\"", 4.5 * inch),
        ("4½ inches", 4.5 * inch),
        ("4 ½″", 4.5 * inch),
        ("5/4 in", 1.25 * inch),
        ("1/3 in", inch / 3.0),
        ("72\"", 72.0 * inch),
        ("3'", 36.0 * inch),
        ("3'-4 1/2\"", 40.5 * inch),
        ("3'4½\"", 40.5 * inch),
        ("3’ 4 1/2”", 40.5 * inch),
        ("3′-4 1⁄2″", 40.5 * inch),
        ("3'4''", 40.0 * inch),
        ("3' 4", 40.0 * inch),
        ("3' 4½", 40.5 * inch),
        ("3 ft 4 in", 40.0 * inch),
        ("3ft4in", 40.0 * inch),
        ("3 ft. - 4 in.", 40.0 * inch),
        ("2 1/2 ft", 30.0 * inch),
        ("1 yd 2 ft 3 in", 63.0 * inch),
        ("-5 mm", -5.0),
        ("−5 mm", -5.0),
        ("+5 mm", 5.0),
        ("-3'-4\"", -40.0 * inch),
        ("0\"", 0.0),
        ("-0 mm", 0.0),
    ] {
        near(mm(text), wanted);
    }
}

#[test]
fn feet_inches_and_eighths_are_read_as_in_a_table_of_offsets() {
    let sixteenth = 1.5875;
    // 3 ft = 576 sixteenths of an inch.
    for (text, sixteenths) in [
        ("0-0-0", 0.0),
        ("3-4-5", 576.0 + 64.0 + 10.0),
        ("3-4-5+", 576.0 + 64.0 + 11.0),
        ("3-4-5-", 576.0 + 64.0 + 9.0),
        ("3.4.5", 576.0 + 64.0 + 10.0),
        ("3–4–5+", 576.0 + 64.0 + 11.0),
        ("-3-4-5+", -(576.0 + 64.0 + 11.0)),
        ("10-11-7", 1920.0 + 176.0 + 14.0),
    ] {
        near(mm(text), sixteenths * sixteenth);
    }
}

#[test]
fn masses_angles_temperatures_and_volumes_are_read() {
    near(Mass::read("12,5 kg").unwrap().kg(), 12.5);
    near(Mass::read("250 g").unwrap().kg(), 0.25);
    near(Mass::read("4.2 t").unwrap().kg(), 4200.0);
    near(Mass::read("12 lb 4 oz").unwrap().pounds(), 12.25);
    near(Mass::read("8 long tons").unwrap().pounds(), 8.0 * 2240.0);
    near(Mass::read("8 short tons").unwrap().pounds(), 8.0 * 2000.0);

    near(Angle::read("12.5°").unwrap().degrees(), 12.5);
    near(Angle::read("12° 30'").unwrap().degrees(), 12.5);
    near(Angle::read("12°30′36″").unwrap().degrees(), 12.51);
    near(Angle::read("12 deg").unwrap().degrees(), 12.0);
    near(Angle::read("-1,5°").unwrap().degrees(), -1.5);
    near(Angle::read("1 rad").unwrap().radians(), 1.0);
    near(Angle::read("1 in 12").unwrap().radians(), (1.0_f64 / 12.0).atan());
    near(Angle::read("1:8").unwrap().radians(), (1.0_f64 / 8.0).atan());

    near(Temperature::read("20 °C").unwrap().celsius(), 20.0);
    near(Temperature::read("68F").unwrap().celsius(), 20.0);
    near(Temperature::read("68 ℉").unwrap().celsius(), 20.0);
    near(Temperature::read("-3,5 °C").unwrap().celsius(), -3.5);
    near(Temperature::read("15 degrees C").unwrap().celsius(), 15.0);
    near(Temperature::read("273.15 K").unwrap().celsius(), 0.0);

    near(Volume::read("0,25 m³").unwrap().m3(), 0.25);
    near(Volume::read("0.25 m3").unwrap().m3(), 0.25);
    near(Volume::read("30 litres").unwrap().litres(), 30.0);
    near(Volume::read("30 l").unwrap().litres(), 30.0);
    near(Volume::read("2 cu. ft.").unwrap().cubic_feet(), 2.0);
    near(Volume::read("2 ft³").unwrap().cubic_feet(), 2.0);
    near(Volume::read("144 cu in").unwrap().board_feet(), 1.0);
    near(Volume::read("12½ board feet").unwrap().board_feet(), 12.5);
    near(Volume::read("12 bd. ft").unwrap().board_feet(), 12.0);
    near(Volume::read("2 m × 100 mm × 5 cm").unwrap().m3(), 0.01);
}

#[test]
fn ranges_are_read_and_shown() {
    let bounds = |text: &str| {
        let range: Range<Length> = Range::read(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        (range.low().mm(), range.high().mm())
    };
    assert_eq!(bounds("12 ± 1 mm"), (11.0, 13.0));
    assert_eq!(bounds("12±1mm"), (11.0, 13.0));
    assert_eq!(bounds("12 mm ± 0,1 cm"), (11.0, 13.0));
    assert_eq!(bounds("12 +/- 1 mm"), (11.0, 13.0));
    assert_eq!(bounds("10 to 12 mm"), (10.0, 12.0));
    assert_eq!(bounds("10–12 mm"), (10.0, 12.0));
    assert_eq!(bounds("10-12 mm"), (10.0, 12.0));
    assert_eq!(bounds("-2 to 3 mm"), (-2.0, 3.0));
    assert_eq!(bounds("12 mm"), (12.0, 12.0));
    assert_eq!(bounds("1/4 - 1/2 in"), (6.35, 12.7));
    assert_eq!(bounds("1/4-1/2\""), (6.35, 12.7));
    assert_eq!(bounds("0-1/4 in"), (0.0, 6.35));
    assert_eq!(bounds("1-1/2 in"), (38.1, 38.1), "this is one and a half, not a range");
    assert_eq!(bounds("1'-0\" to 1'-1\""), (304.8, 330.2));

    let volume: Range<Volume> = Range::read("1 to 2 m3").unwrap();
    assert_eq!((volume.low().m3(), volume.high().m3()), (1.0, 2.0));

    let warm: Range<Temperature> = Range::read("68 ± 9 °F").unwrap();
    near(warm.low().celsius(), 15.0);
    near(warm.high().celsius(), 25.0);
    assert_eq!(warm.write_middle(System::Customary), "68 °F ± 9 °F");
    assert_eq!(warm.write(System::Metric), "15 °C to 25 °C");
    assert!(warm.holds(Temperature::from_celsius(20.0)) && !warm.holds(Temperature::from_celsius(26.0)));
    near(warm.half_width(), 5.0);
}

#[test]
fn quantities_are_written_as_people_write_them() {
    let both = |mm: f64| {
        let length = Length::from_mm(mm);
        (length.write(System::Metric), length.write(System::Customary), length.write_eighths())
    };
    let all = |a: &str, b: &str, c: &str| (a.to_owned(), b.to_owned(), c.to_owned());
    assert_eq!(both(0.0), all("0 mm", "0\"", "0-0-0"));
    assert_eq!(both(-0.01), all("0 mm", "0\"", "0-0-0"));
    assert_eq!(both(15.875), all("15.9 mm", "5/8\"", "0-0-5"));
    assert_eq!(both(304.7), all("304.7 mm", "1'-0\"", "1-0-0"));
    assert_eq!(both(1028.7), all("1.029 m", "3'-4 1/2\"", "3-4-4"));
    assert_eq!(both(1030.2875), all("1.030 m", "3'-4 9/16\"", "3-4-4+"));
    assert_eq!(both(-1028.7), all("-1.029 m", "-3'-4 1/2\"", "-3-4-4"));
    // 10 ft and 1/16 in is 120.0625 in.
    assert_eq!(both(3049.5875), all("3.050 m", "10'-0 1/16\"", "10-0-0+"));
    // Below an inch to the nearest 1/64 in, 0.397 mm: a 9.9 mm bolt is not written as one of 3/8 in (9.525 mm).
    assert_eq!(both(9.9), all("9.9 mm", "25/64\"", "0-0-3"));
    assert_eq!(both(-0.4), all("-0.4 mm", "-1/64\"", "0-0-0"));
    assert_eq!(both(25.3), all("25.3 mm", "1\"", "0-1-0"));
    assert_eq!(both(26.0), all("26 mm", "1\"", "0-1-0"));
    assert_eq!(both(999.96), all("1.000 m", "3'-3 3/8\"", "3-3-3"));
    assert_eq!(both(f64::NAN), all("not a number", "not a number", "not a number"));

    assert_eq!(Mass::from_kg(0.25).write(System::Metric), "250 g");
    assert_eq!(Mass::from_kg(0.25).write(System::Customary), "8.8 oz");
    assert_eq!(Mass::from_kg(1234.567).write(System::Metric), "1234.57 kg");
    assert_eq!(Angle::from_degrees(12.5).write(), "12.5°");
    assert_eq!(Angle::from_degrees(-12.5).write_minutes(), "-12° 30'");
    assert_eq!(Temperature::from_celsius(-0.01).write(System::Metric), "0 °C");
    assert_eq!(Volume::from_m3(0.03).write(System::Metric), "30 litres");
    assert_eq!(Volume::from_m3(0.25).write(System::Metric), "0.25 m³");
}
