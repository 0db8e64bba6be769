//! Charts of cost and of value.

use drawing::{CostSpread, Shape, Sheet, WorthRow, cost_spread, worth};

fn words(sheet: &Sheet) -> Vec<String> {
    let texts =
        sheet.shapes.iter().filter_map(|s| if let Shape::Text { words, .. } = s { Some(words.clone()) } else { None });
    texts.collect()
}

/// Where circles stand, from left to right.
fn circles(sheet: &Sheet) -> Vec<f64> {
    let mut at: Vec<f64> = sheet
        .shapes
        .iter()
        .filter_map(|s| if let Shape::Circle { centre, .. } = s { Some(centre.0) } else { None })
        .collect();
    at.sort_by(f64::total_cmp);
    at
}

#[test]
fn the_curve_of_an_even_spread_is_a_straight_line_with_its_marks_on_it() {
    // Closed form: of a cost spread evenly from 1,000 to 2,000 the chance of no more than c is (c - 1,000) / 1,000.
    let spread = CostSpread {
        currency: "EUR".to_owned(),
        percentiles: (0..=100).map(|i| 1000.0 + 10.0 * f64::from(i)).collect(),
        marks: [10.0, 50.0, 90.0].map(|p| (p, 1000.0 + 10.0 * p, format!("{:.0}", 1000.0 + 10.0 * p))).to_vec(),
        drivers: vec![],
    };
    let sheet = cost_spread(&spread);
    let at = circles(&sheet);
    assert_eq!(at.len(), 3);
    assert!((at[1] - at[0] - (at[2] - at[1])).abs() < 1e-9, "even steps: {at:?}");
    assert!(sheet.description.contains("10 % at 1100, 50 % at 1500, 90 % at 1900"), "{}", sheet.description);
    assert!(words(&sheet).contains(&"cost, EUR".to_owned()));
}

#[test]
fn beyond_six_drivers_the_rest_are_drawn_together_and_nothing_is_lost() {
    let drivers: Vec<(String, f64)> = (1..=9_u32).map(|i| (format!("line {i}"), f64::from(20 - 2 * i))).collect();
    let whole: f64 = drivers.iter().map(|(_, share)| share).sum();
    let spread = CostSpread { percentiles: vec![0.0, 1.0], drivers, ..CostSpread::default() };
    let sheet = cost_spread(&spread);
    let shares = words(&sheet).iter().filter_map(|w| w.strip_suffix(" %")?.parse::<f64>().ok()).collect::<Vec<_>>();
    assert_eq!(shares.len(), 7);
    assert!((shares.iter().sum::<f64>() - whole).abs() < 1e-9);
    assert!(sheet.description.contains("all the others 12 %"), "{}", sheet.description);
    // Every shape lies on the paper.
    for shape in &sheet.shapes {
        if let Shape::Text { at, .. } = shape {
            assert!((0.0..=sheet.width_mm).contains(&at.0) && (0.0..=sheet.height_mm).contains(&at.1), "{at:?}");
        }
    }
}

#[test]
fn prices_and_ranges_stand_on_one_axis_in_proportion_to_their_money() {
    let range = |name: &str, low: f64, middle: f64, high: f64, wanted: bool| WorthRow::Range {
        name: name.to_owned(),
        low,
        middle,
        high,
        wanted,
    };
    let rows = vec![
        WorthRow::Compared { name: "an invented boat".to_owned(), price: 10_000.0, adjusted: 20_000.0 },
        range("repairs", 5_000.0, 6_000.0, 9_000.0, false),
        range("opinion", -1_000.0, 12_000.0, 15_000.0, true),
    ];
    let sheet = worth("Value", "In words.", "EUR", &rows);
    let circle = circles(&sheet);
    let bars: Vec<(f64, f64)> = sheet
        .shapes
        .iter()
        .filter_map(|s| match s {
            Shape::Path { points, closed: true, .. } => {
                let x = points.iter().map(|p| p.0);
                Some((x.clone().fold(f64::INFINITY, f64::min), x.fold(0.0, f64::max)))
            }
            _ => None,
        })
        .collect();
    // One scale for all: millimetres to a unit of money.
    let scale = (circle[1] - circle[0]) / 10_000.0;
    assert_eq!(bars.len(), 2);
    assert!(
        ((bars[0].1 - bars[0].0) / 4_000.0 - scale).abs() < 1e-9
            && ((bars[1].1 - bars[1].0) / 16_000.0 - scale).abs() < 1e-9
    );
    // A range below nothing is drawn, and the axis says where nothing is.
    assert!(
        words(&sheet).contains(&"0".to_owned()) && words(&sheet).contains(&"10,000".to_owned()),
        "{:?}",
        words(&sheet)
    );
    assert!(bars[1].0 < circle[0]);
}

#[test]
fn names_too_long_are_cut_and_what_is_no_number_breaks_nothing() {
    let rows = vec![WorthRow::Compared { name: "x".repeat(200), price: f64::NAN, adjusted: f64::INFINITY }];
    let sheet = worth("V", "", "", &rows);
    assert!(!sheet.to_svg().contains("NaN") && !sheet.to_svg().contains("inf"));
    assert!(words(&sheet).iter().any(|w| w.ends_with('…') && w.chars().count() <= 44));
    let none = cost_spread(&CostSpread::default());
    assert!(!none.to_svg().contains("NaN"));
}
