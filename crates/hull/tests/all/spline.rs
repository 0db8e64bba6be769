//! Curves against scipy.interpolate (tests/reference/spline.py and smoothing.py, output committed beside them).

use crate::figures::{number, rows, within};
use hull::spline::{BSpline, Cubic, Ends, Monotone, smooth};
use proptest::prelude::*;

const X: [f64; 7] = [0.0, 1.0, 2.5, 4.0, 5.5, 7.0, 8.0];
const Y: [f64; 7] = [0.0, 0.62, 1.05, 1.2, 1.13, 0.78, 0.35];
const KNOTS: [f64; 9] = [0.0, 0.0, 0.0, 0.0, 4.0, 8.0, 8.0, 8.0, 8.0];

#[test]
fn curves_agree_with_scipy() {
    let cubic = |ends| Cubic::through(&X, &Y, ends).unwrap();
    let (natural, clamped, free) = (cubic(Ends::Natural), cubic(Ends::Clamped(0.8, -0.5)), cubic(Ends::NotAKnot));
    let even = BSpline::nearest(&KNOTS, &X, &Y, &[1.0; 7]).unwrap();
    let weighted = BSpline::nearest(&KNOTS, &X, &Y, &[1.0, 2.0, 1.0, 0.5, 1.0, 3.0, 1.0]).unwrap();
    let mut seen = 0;
    for row in rows(include_str!("../reference/spline.csv")) {
        let (x, value, slope) = (number(row[1]), number(row[2]), number(row[3]));
        let (got, got_slope) = match row[0] {
            "natural" => (natural.at(x), natural.slope(x)),
            "clamped" => (clamped.at(x), clamped.slope(x)),
            "not-a-knot" => (free.at(x), free.slope(x)),
            "natural integral" => (natural.integral(), 0.0),
            "clamped integral" => (clamped.integral(), 0.0),
            "not-a-knot integral" => (free.integral(), 0.0),
            "least squares coefficient" => (even.coefficients()[x as usize], 0.0),
            "least squares" => (even.at(x), 0.0),
            "weighted" => (weighted.at(x), 0.0),
            other => panic!("`{other}` is not known"),
        };
        within(row[0], got, value, 1e-9);
        within(row[0], got_slope, slope, 1e-9);
        seen += 1;
    }
    assert_eq!(seen, 39);
}

#[test]
fn smoothing_spends_the_uncertainty_as_scipy_does() {
    let table = rows(include_str!("../reference/smoothing.csv"));
    let column = |k: usize| table.iter().map(|r| number(r[k])).collect::<Vec<_>>();
    let (x, y, wanted) = (column(0), column(1), column(2));
    let got = smooth(&x, &y, &vec![0.01; x.len()]);
    for (g, w) in got.iter().zip(&wanted) {
        within("smooth", *g, *w, 1e-6);
    }
}

#[test]
fn knots_that_points_do_not_bear_are_refused() {
    let knots = [0.0, 0.0, 0.0, 0.0, 6.5, 6.6, 6.7, 6.8, 8.0, 8.0, 8.0, 8.0];
    let x = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 8.0];
    assert!(BSpline::nearest(&knots, &x, &x, &[1.0; 9]).is_err());
    assert!(Cubic::through(&[0.0, 1.0, 1.0], &[0.0, 1.0, 2.0], Ends::Natural).is_err());
    assert!(Cubic::through(&[0.0, f64::NAN], &[0.0, 1.0], Ends::Natural).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Not-a-knot gives back any cubic exactly.
    #[test]
    fn a_cubic_is_reproduced(c in prop::array::uniform4(-3.0..3.0f64), steps in prop::collection::vec(0.2..2.0f64, 4..9)) {
        let mut x = vec![0.0];
        for s in steps {
            x.push(x[x.len() - 1] + s);
        }
        let f = |t: f64| c[0] + t * (c[1] + t * (c[2] + t * c[3]));
        let y: Vec<f64> = x.iter().map(|t| f(*t)).collect();
        let curve = Cubic::through(&x, &y, Ends::NotAKnot).unwrap();
        let scale = y.iter().fold(1.0f64, |m, v| m.max(v.abs()));
        for i in 0..20 {
            let t = x[x.len() - 1] * f64::from(i) / 19.0;
            prop_assert!((curve.at(t) - f(t)).abs() < 1e-9 * scale);
        }
    }

    /// Fritsch and Carlson: growing points give a growing curve.
    #[test]
    fn monotone_never_turns_back(steps in prop::collection::vec((0.1..2.0f64, 0.0..2.0f64), 2..9)) {
        let (mut x, mut y) = (vec![0.0], vec![0.0]);
        for (dx, dy) in steps {
            x.push(x[x.len() - 1] + dx);
            y.push(y[y.len() - 1] + dy);
        }
        let curve = Monotone::through(&x, &y).unwrap();
        let end = x[x.len() - 1];
        let values: Vec<f64> = (0..=200).map(|i| curve.at(end * f64::from(i) / 200.0)).collect();
        prop_assert!(values.windows(2).all(|p| p[1] >= p[0] - 1e-12));
    }
}
