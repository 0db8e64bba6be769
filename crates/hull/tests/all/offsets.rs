//! Reading and checking tables of offsets.

use crate::figures::near;
use hull::{Fairing, Offsets, offsets::Skin};

/// The Wigley form, L 24 ft, B 8 ft, T 3 ft, in feet, inches, eighths and sixteenths: exactly 256 cubic feet and 128
/// square feet (rounding to a sixteenth changes them by about 3 parts in 100,000).
const FEET: &str = "table of offsets, 1
name, a form with exact figures
units, feet-inches-eighths
bow, first
surface, outside of plank
waterline, 3-0-0
stations, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10
x, 0, 2-4-6+, 4-9-5, 7-2-3, 9-7-2, 12-0-0, 14-4-6, 16-9-5, 19-2-3, 21-7-2, 24-0-0
half-breadth at 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0
half-breadth at 0-9-0, 0-0-0, 0-7-4+, 1-1-3+, 1-5-5, 1-8-1+, 1-9-0, 1-8-1+, 1-5-5, 1-1-3+, 0-7-4+, 0-0-0
half-breadth at 1-6-0, 0-0-0, 1-0-7+, 1-11-0+, 2-6-2, 2-10-4+, 3-0-0, 2-10-4+, 2-6-2, 1-11-0+, 1-0-7+, 0-0-0
half-breadth at 2-3-0, 0-0-0, 1-4-1+, 2-4-6+, 3-1-6+, 3-7-1+, 3-9-0, 3-7-1+, 3-1-6+, 2-4-6+, 1-4-1+, 0-0-0
half-breadth at 3-0-0, 0-0-0, 1-5-2, 2-6-6, 3-4-2+, 3-10-0+, 4-0-0, 3-10-0+, 3-4-2+, 2-6-6, 1-5-2, 0-0-0
";

#[test]
fn feet_inches_and_eighths() {
    let table = Offsets::read(FEET).unwrap();
    assert_eq!(table.skin, Skin::Outside);
    assert!(table.doubts.is_empty(), "{:?}", table.doubts);
    near("2-4-6+ is 28 13/16 in", table.lines.sections[1].x_m, 28.8125 * 0.0254, 1e-12);
    let h = table.surface(Fairing::default()).unwrap().hydrostatics(table.waterline_m.unwrap()).unwrap();
    near("volume", h.volume_m3 / 0.3048f64.powi(3), 256.0, 2e-3);
    near("waterplane", h.waterplane_m2 / 0.3048f64.powi(2), 128.0, 1e-3);
}

#[test]
fn faults_name_station_and_line() {
    let fault = |from: &str, to: &str| Offsets::read(&FEET.replacen(from, to, 1)).unwrap_err().to_string();
    let said = fault("1-5-5", "1-12-5");
    assert!(said.starts_with("Line 10, station 3, half-breadth at 0-9-0: `1-12-5`"), "{said}");
    let said = fault("1-5-5", "1-5-8");
    assert!(said.contains("station 3") && said.contains("1-5-8"), "{said}");
    let said = fault("2-6-2, 2-10-4+", "2-10-4+");
    assert!(said.contains("10 values for 11 stations"), "{said}");
    let said = fault("4-9-5, 7-2-3", "7-2-3, 4-9-5");
    assert!(said.contains("stations 2 and 3") && said.contains("against the run"), "{said}");
    let said = fault("0-7-4+", "-0-7-4");
    assert!(said.contains("station 1") && said.contains("0 or more"), "{said}");
    let said = fault("half-breadth at 1-6-0", "half-breadth at 0-9-0");
    assert!(said.contains("stands already in line 10"), "{said}");
    let said = fault("stations, 0", "statoins, 0");
    assert!(said.contains("`statoins`") && said.contains("not known"), "{said}");
    let said = fault("4-9-5", "");
    assert!(said.contains("station 2") && said.contains("no x"), "{said}");
    assert!(
        Offsets::read("").is_err() && Offsets::read("hello").unwrap_err().to_string().contains("layout is not known")
    );
    // Two stations gone: read, and what was assumed is said.
    let gone: String = FEET
        .lines()
        .map(|l| {
            let mut cells: Vec<&str> = l.split(',').collect();
            if cells.len() == 12 {
                cells.drain(5..7);
            }
            cells.join(",") + "\n"
        })
        .collect();
    let table = Offsets::read(&gone).unwrap();
    assert!(table.assumed.iter().any(|s| s.starts_with("Between stations 3 and 6")), "{:?}", table.assumed);
}

/// One slip of six inches among fair offsets is found, nothing else is, and nothing is changed.
#[test]
fn a_slip_of_the_pen_is_offered_not_applied() {
    let slipped = FEET.replacen("2-10-4+, 3-0-0", "2-4-4+, 3-0-0", 1);
    let table = Offsets::read(&slipped).unwrap();
    let doubt = &table.doubts[0];
    assert_eq!((table.doubts.len(), doubt.station.as_str()), (1, "4"), "{:?}", table.doubts);
    assert!(doubt.line.contains("0.457"), "{}", doubt.line);
    near("suggestion", doubt.suggested_m.unwrap(), 34.5625 * 0.0254, 0.02);
    near("value", doubt.value_m, 28.5625 * 0.0254, 1e-9);
}

#[test]
fn crossing_level_lines_and_wide_beams_are_doubted() {
    let crossed = FEET.replacen("3-7-1+, 3-9-0", "2-7-1+, 3-9-0", 1);
    let table = Offsets::read(&crossed).unwrap();
    assert!(table.doubts.iter().any(|d| d.station == "4" && d.why.contains("cross")), "{:?}", table.doubts);
    let text = "x_m,z_m,half_breadth_m\n0,0,0\n0,1,0.2\n1,0,0.1\n1,1,3\n2,0,0\n2,1,0.2\n";
    let table = Offsets::read(text).unwrap();
    assert!(
        table.doubts.iter().any(|d| d.line == "beam" && d.why.contains("larger than the length")),
        "{:?}",
        table.doubts
    );
    // A public copy of the Series 60 table has 10 where every value is 0 to 1; such a cell is found.
    let mut triples = String::from("x_m,z_m,half_breadth_m\n");
    for s in crate::forms::series60(20.0).sections {
        for (j, (y, z)) in s.points.iter().enumerate() {
            let y = if s.name == "0" && j == 2 { 10.0 } else { *y };
            triples.push_str(&format!("{},{z},{y}\n", s.x_m));
        }
    }
    let table = Offsets::read(&triples).unwrap();
    assert!(table.doubts.iter().any(|d| d.station == "0" && d.value_m == 10.0), "{:?}", table.doubts);
}

#[test]
fn triples_and_station_rows_give_the_same_hull() {
    let lines = crate::forms::wigley(8.0, 2.4, 1.0, 16, 8);
    let mut triples = String::from("x_m, z_m, half_breadth_m\n");
    let mut by_row = String::from("station,x_m");
    for p in &lines.sections[0].points {
        by_row.push_str(&format!(",half_breadth_wl_{}", p.1));
    }
    for s in &lines.sections {
        by_row.push_str(&format!("\n{},{}", s.name, s.x_m));
        for (y, z) in &s.points {
            triples.push_str(&format!("{}, {z}, {y}\n", s.x_m));
            by_row.push_str(&format!(",{y}"));
        }
    }
    let volume = |text: &str| {
        Offsets::read(text).unwrap().surface(Fairing::default()).unwrap().hydrostatics(0.0).unwrap().volume_m3
    };
    near("triples", volume(&triples), 8.0 * 2.4 * 4.0 / 9.0, 1e-3);
    near("rows", volume(&by_row), volume(&triples), 1e-12);
    let forward = Offsets::read(&format!("# bow: greatest x\n{triples}")).unwrap();
    assert!(forward.x_runs_forward);
    near("x", forward.table_x_m(forward.lines.sections[0].x_m), 8.0, 1e-12);
    let negative = Offsets::read("x_m,z_m,half_breadth_m\n0,0,-0.1\n").unwrap_err().to_string();
    assert!(negative.starts_with("Line 2, station at x = 0 m, height 0 m"), "{negative}");
    assert!(
        Offsets::read("station,half_breadth_wl_0,half_breadth_wl_1\n0,0,1\n").unwrap_err().to_string().contains("x_m")
    );
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(96))]

    /// No text makes reading panic.
    #[test]
    fn any_text_is_read_or_refused(text in "(table of offsets, 1\n)?((stations|x|rabbet height|half-breadth at 1|stem x|units)?[,;\t 0-9.a\"'+-]{0,24}\n){0,8}") {
        if let Ok(table) = Offsets::read(&text) {
            let _ = table.surface(Fairing::default()).map(|s| s.hydrostatics(0.5));
        }
    }
}

#[test]
fn the_documented_example_is_a_boat_without_doubts() {
    let table = Offsets::read(hull::offsets::EXAMPLE).unwrap();
    assert!(table.doubts.is_empty() && table.assumed.is_empty(), "{:?} {:?}", table.doubts, table.assumed);
    let surface = table.surface(Fairing::default()).unwrap();
    near("length", surface.length_m(), 4.06, 1e-9);
    let worst = hull::deviations(&surface, &table.lines).iter().map(|d| d.off_mm).fold(0.0, f64::max);
    assert!(worst < 3.0, "{worst} mm");
}
