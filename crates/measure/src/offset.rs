//! Feet, inches and eighths as they stand in a table of offsets: `3-4-5+`.

use crate::Fault;
use crate::factor::mm_from_inches;
use crate::figures::{NO_NUMBER, parts_of_inch};
use crate::scan::Scan;

/// Reads `3-4-5`, `3-4-5+` or `3.4.5` if the text begins with three figures so joined; returns millimetres, or none
/// when it is written some other way.
///
/// A plus adds half an eighth and a minus takes it off (trade usage).
pub(crate) fn read(scan: &mut Scan) -> Result<Option<f64>, Fault> {
    let start = scan.at();
    let Some(([feet, inches, eighths], [feet_at, inches_at, eighths_at])) = three_figures(scan) else {
        scan.go_back_to(start);
        return Ok(None);
    };
    if feet > 1e6 {
        return Err(Fault::new(feet_at + 1, "this is more than a million feet"));
    }
    if inches > 11.0 {
        return Err(Fault::new(inches_at + 1, "inches beside feet go from 0 to 11"));
    }
    if eighths > 7.0 {
        return Err(Fault::new(eighths_at + 1, "eighths go from 0 to 7"));
    }
    let half = if scan.take('+') {
        0.5
    } else if scan.take('-') {
        -0.5
    } else {
        0.0
    };
    Ok(Some(mm_from_inches(feet * 12.0 + inches + (eighths + half) / 8.0)))
}

/// Writes millimetres as feet, inches and eighths, to the nearest sixteenth.
pub(crate) fn write(mm: f64) -> String {
    if !mm.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let (minus, sixteenths) = parts_of_inch(mm, 16);
    let (feet, inches, eighths) = (sixteenths / 192, sixteenths / 16 % 12, sixteenths / 2 % 8);
    let half = if sixteenths % 2 == 1 { "+" } else { "" };
    format!("{}{feet}-{inches}-{eighths}{half}", if minus { "-" } else { "" })
}

fn three_figures(scan: &mut Scan) -> Option<([f64; 3], [usize; 3])> {
    let (mut figures, mut places) = ([0.0; 3], [0; 3]);
    let mut joint = None;
    for i in 0..3 {
        if i > 0 {
            let found = scan.peek().filter(|c| matches!(c, '-' | '.'))?;
            if *joint.get_or_insert(found) != found {
                return None;
            }
            scan.take(found);
        }
        places[i] = scan.at();
        figures[i] = scan.digits()?;
    }
    // 3-4-1/2 and 1.2.3,4 are not offsets.
    if matches!(scan.peek(), Some('/' | ',' | '.')) { None } else { Some((figures, places)) }
}
