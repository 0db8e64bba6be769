//! Charts.

use drawing::chart::{Axis, Trace, curves, months};
use drawing::{Pen, Shape};

fn words(shapes: &[Shape]) -> Vec<String> {
    shapes.iter().filter_map(|s| if let Shape::Text { words, .. } = s { Some(words.clone()) } else { None }).collect()
}

#[test]
fn ticks_are_round_and_within_the_axis() {
    let sheet =
        curves("C", "A curve.", &Axis::new("time", "days", 0.0, 90.0), &Axis::new("moisture", "%", 9.3, 31.0), &[]);
    let all = words(&sheet.shapes);
    for wanted in ["0", "20", "40", "60", "80", "10", "30", "time, days", "moisture, %"] {
        assert!(all.iter().any(|w| w == wanted), "{wanted} in {all:?}");
    }
    assert!(!all.iter().any(|w| w == "100" || w == "35"));
}

#[test]
fn what_cannot_be_drawn_does_not_break_a_chart() {
    let broken = Axis::new("x", "", f64::NAN, 1.0);
    let flat = Axis::new("y", "", 4.0, 4.0);
    let trace = Trace::Curve { name: "c".into(), points: vec![(0.0, f64::INFINITY), (9.0, 4.0)], pen: Pen::THIN };
    let sheet = curves("C", "A curve.", &broken, &flat, &[trace, Trace::Band { points: Vec::new() }]);
    assert!(!sheet.to_svg().contains("NaN"));
    let year = months("M", "A year.", &[("Worm".to_owned(), [2.0; 12])]);
    assert!(year.to_svg().contains("Worm"));
}
