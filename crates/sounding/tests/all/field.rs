//! The field against numpy, and its blanks.

use sounding::field::{NoField, Planking, Scales, Struck, field, with_scales};

fn blows() -> Vec<Struck> {
    [
        (0.2, 0.1, 0.1),
        (0.5, 0.1, 0.2),
        (0.9, 0.12, 0.8),
        (1.3, 0.3, 0.9),
        (1.0, 0.32, 0.7),
        (0.4, 0.5, 0.1),
        (2.0, 0.5, 0.3),
    ]
    .map(|(along_m, across_m, value)| Struck { along_m, across_m, value })
    .to_vec()
}

fn planking(along_m: Vec<f64>, across_m: Vec<f64>) -> Planking {
    Planking { along_m, across_m, seams_m: vec![0.2, 0.4], frames_m: vec![0.6, 1.2, 1.8] }
}

/// numpy 2.x, `tests/reference/field.py`.
#[test]
fn values_and_deviations_are_those_of_the_textbook() {
    let scales = Scales { along_m: 0.8, across_m: 0.3, barrier: 0.25, spread: 0.4, scatter: 0.1 };
    for line in include_str!("../reference/field.csv").lines().skip(2) {
        let cells: Vec<f64> = line.split(',').map(|c| c.parse().expect("a number")).collect();
        let made = with_scales(&blows(), &planking(vec![cells[0]], vec![cells[1]]), scales).expect("a field");
        let point = made.points[0][0].expect("a point near blows");
        assert!((point.value - cells[2]).abs() < 1e-9 && (point.sd - cells[3]).abs() < 1e-9, "{line}: {point:?}");
    }
}

#[test]
fn nothing_is_shown_where_no_blow_was_struck() {
    let made = field(&blows(), &planking(vec![0.4, 9.0], vec![0.1, 3.0])).expect("a field");
    assert!(made.points[0][0].is_some());
    assert!(made.points[0][1].is_none() && made.points[1][0].is_none() && made.points[1][1].is_none());
}

#[test]
fn a_seam_keeps_a_dead_plank_to_itself() {
    let scales = |barrier| Scales { along_m: 1.0, across_m: 0.5, barrier, spread: 0.4, scatter: 0.05 };
    let row = |across_m: f64, value: f64| (0..5).map(move |i| Struck { along_m: 0.3 * f64::from(i), across_m, value });
    let all: Vec<Struck> = row(0.1, 0.9).chain(row(0.5, 0.1)).collect();
    let at = planking(vec![0.6], vec![0.3]);
    let sd = |barrier| with_scales(&all, &at, scales(barrier)).expect("a field").points[0][0].map_or(9.0, |p| p.sd);
    assert!(sd(0.6) > sd(0.0), "a barrier must leave the plank between less known");
}

#[test]
fn what_cannot_be_drawn_is_refused_in_words() {
    assert_eq!(field(&blows()[..3], &Planking::default()), Err(NoField::Count(3)));
    let mut bad = blows();
    bad[2].value = f64::NAN;
    assert_eq!(field(&bad, &Planking::default()), Err(NoField::NotFinite(3)));
    let even: Vec<Struck> = blows().iter().map(|b| Struck { value: 0.5, ..*b }).collect();
    assert_eq!(field(&even, &Planking::default()), Err(NoField::Alike));
}
