//! Laws: what is written is read again, and no text makes a reader panic.

use measure::{Angle, Length, Mass, Quantity, Range, System, Temperature, Volume, VolumeUnit};
use proptest::prelude::*;

/// What is written reads as the same words again, and within half of the last place shown.
fn reads_again(written: &str, again: &str, value: f64, read: f64, half_step: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(written, again);
    prop_assert!((value - read).abs() <= half_step * (1.0 + 1e-9) + 1e-9 * value.abs(), "{} read as {}", written, read);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn lengths_written_are_read_again(mm in prop_oneof![-30.0..30.0, -2000.0..2000.0, -30_000.0..30_000.0, -1e8..1e8]) {
        let length = Length::from_mm(mm);
        for (system, half_step) in [
            (System::Metric, if mm.abs() < 999.95 { 0.05 } else { 0.5 }),
            (System::Customary, if mm.abs() < 25.4 { 25.4 / 128.0 } else { 25.4 / 32.0 }),
        ] {
            let written = length.write(system);
            let read = Length::read(&written).unwrap();
            reads_again(&written, &read.write(system), mm, read.mm(), half_step)?;
        }
        let written = length.write_eighths();
        let read = Length::read(&written).unwrap();
        reads_again(&written, &read.write_eighths(), mm, read.mm(), 25.4 / 32.0)?;
    }

    #[test]
    fn masses_written_are_read_again(kg in prop_oneof![-2.0..2.0, -1e6..1e6]) {
        for (system, half_step) in [(System::Metric, 0.005), (System::Customary, 0.0025)] {
            let written = Mass::from_kg(kg).write(system);
            let read = Mass::read(&written).unwrap();
            reads_again(&written, &read.write(system), kg, read.kg(), half_step)?;
        }
    }

    #[test]
    fn angles_written_are_read_again(degrees in -720.0..720.0) {
        let angle = Angle::from_degrees(degrees);
        let read = Angle::read(&angle.write()).unwrap();
        reads_again(&angle.write(), &read.write(), degrees, read.degrees(), 0.05)?;
        let read = Angle::read(&angle.write_minutes()).unwrap();
        reads_again(&angle.write_minutes(), &read.write_minutes(), degrees, read.degrees(), 1.0 / 120.0)?;
    }

    #[test]
    fn temperatures_written_are_read_again(celsius in -270.0..2000.0) {
        for system in [System::Metric, System::Customary] {
            let written = Temperature::from_celsius(celsius).write(system);
            let read = Temperature::read(&written).unwrap();
            reads_again(&written, &read.write(system), celsius, read.celsius(), 0.05)?;
        }
    }

    #[test]
    fn volumes_written_are_read_again(m3 in prop_oneof![-0.2..0.2, -1e4..1e4]) {
        let volume = Volume::from_m3(m3);
        for (unit, half_step) in [
            (VolumeUnit::CubicMetres, 0.0005),
            (VolumeUnit::Litres, 0.000_05),
            (VolumeUnit::CubicFeet, 0.005 * 0.028_316_846_592),
            (VolumeUnit::BoardFeet, 0.005 * 0.002_359_737_216),
        ] {
            let written = volume.write_in(unit);
            let read = Volume::read(&written).unwrap();
            reads_again(&written, &read.write_in(unit), m3, read.m3(), half_step)?;
        }
    }

    #[test]
    fn ranges_written_are_read_again(low in -5000.0..5000.0, width in 0.0..500.0) {
        let range = Range::between(Length::from_mm(low), Length::from_mm(low + width)).unwrap();
        for system in [System::Metric, System::Customary] {
            let written = range.write(system);
            let read: Range<Length> = Range::read(&written).unwrap();
            prop_assert_eq!(&written, &read.write(system));
            let written = range.write_middle(system);
            let read: Range<Length> = Range::read(&written).unwrap();
            prop_assert!((read.middle().mm() - range.middle().mm()).abs() < 0.8);
            prop_assert!((read.half_width() - range.half_width()).abs() < 0.8);
        }
    }

    #[test]
    fn a_decimal_comma_means_the_same_as_a_point(whole in 0u32..100_000, tenths in 0u32..100) {
        let point = Length::read(&format!("{whole}.{tenths:02} mm")).unwrap();
        let comma = Length::read(&format!("{whole},{tenths:02} mm")).unwrap();
        prop_assert_eq!(point, comma);
    }

    #[test]
    fn no_text_makes_a_reader_panic(text in any::<String>()) {
        read_all(&text)?;
    }

    #[test]
    fn no_text_of_the_right_letters_makes_a_reader_panic(
        text in "[0-9 .,'\"/+±x°:–½⅝′″³CFKmcinftdegkloztbu-]{0,24}"
    ) {
        read_all(&text)?;
    }
}

/// Reads the text as everything; whatever is accepted is a finite number, and every fault lies within the text.
fn read_all(text: &str) -> Result<(), TestCaseError> {
    fn one<Q: Quantity>(text: &str) -> Result<(), TestCaseError> {
        let length = text.chars().count();
        match Q::read(text) {
            Ok(quantity) => prop_assert!(quantity.base().is_finite()),
            Err(fault) => prop_assert!((1..=length + 1).contains(&fault.at), "{}", fault),
        }
        match Range::<Q>::read(text) {
            Ok(range) => prop_assert!(range.low().base() <= range.high().base()),
            Err(fault) => prop_assert!((1..=length + 1).contains(&fault.at), "{}", fault),
        }
        Ok(())
    }
    one::<Length>(text)?;
    one::<Mass>(text)?;
    one::<Angle>(text)?;
    one::<Temperature>(text)?;
    one::<Volume>(text)
}
