//! Keel line against numpy.linalg.lstsq (tests/reference/keel_line.py), twist, racking and symmetry against closed forms.

use crate::figures::{number, rows, within};
use hull::keel_line::*;
use proptest::prelude::*;

fn points(x: &[f64], z: &[f64], sd: &[f64]) -> Vec<KeelPoint> {
    x.iter().zip(z).zip(sd).map(|((x, z), s)| KeelPoint { x_m: *x, z_mm: *z, sd_mm: Some(*s) }).collect()
}

fn case(name: &str) -> Vec<KeelPoint> {
    let even = |n: i32| (0..n).map(f64::from).collect::<Vec<_>>();
    match name {
        "hog" => points(&even(9), &[0.0, 9.0, 15.0, 21.0, 22.0, 21.0, 17.0, 8.0, 1.0], &[2.0; 9]),
        "sag" => points(&even(11), &[0.0, -4.0, -7.0, -11.0, -12.0, -12.0, -13.0, -10.0, -8.0, -3.0, 1.0], &[2.0; 11]),
        _ => points(
            &[0.2, 0.9, 2.3, 3.1, 4.4, 6.0, 7.7],
            &[3.0, 8.0, 19.0, 20.0, 24.0, 17.0, 4.0],
            &[1.0, 2.0, 1.0, 3.0, 1.0, 2.0, 1.0],
        ),
    }
}

#[test]
fn fits_agree_with_numpy() {
    for row in rows(include_str!("../reference/keel_line.csv")) {
        let line = keel_line(&case(row[0])).unwrap();
        let fit = line.fits.iter().find(|f| f.shape.word() == row[1]).unwrap();
        for k in 0..3 {
            within(row[1], fit.terms_mm[k], number(row[2 + k]), 1e-8);
            within("sd", fit.covariance_mm2[k][k].sqrt(), number(row[5 + k]), 1e-8);
        }
        within("chi squared", fit.chi_squared, number(row[8]), 1e-8);
    }
}

/// sd(δ) = (sd/4) √(180 (n-1)⁴ / [n (n²-1)(n²-4)]) for evenly spaced points of equal sd (closed form).
#[test]
fn uncertainty_of_evenly_spaced_points_is_the_closed_form() {
    for n in [3usize, 5, 11] {
        let x: Vec<f64> = (0..n).map(|i| i as f64).collect();
        let z: Vec<f64> = x.iter().map(|x| 30.0 * x * (n as f64 - 1.0 - x)).collect();
        let m = n as f64;
        let wanted = 0.5 * (180.0 * (m - 1.0).powi(4) / (m * (m * m - 1.0) * (m * m - 4.0))).sqrt();
        within("sd", keel_line(&points(&x, &z, &vec![2.0; n])).unwrap().sd_mm, wanted, 1e-9);
    }
}

#[test]
fn shapes_are_told_apart_when_the_points_bear_it() {
    let x: Vec<f64> = (0..21).map(|i| 0.45 * f64::from(i)).collect();
    let xi: Vec<f64> = x.iter().map(|x| x / 9.0).collect();
    let shape = |f: &dyn Fn(f64) -> f64, sd: f64| {
        let z: Vec<f64> = xi.iter().map(|xi| 5.0 + 3.0 * xi + f(*xi)).collect();
        keel_line(&points(&x, &z, &vec![sd; x.len()])).unwrap()
    };
    let parabola = shape(&|t| 80.0 * 4.0 * t * (1.0 - t), 0.3);
    assert_eq!(parabola.shape, Shape::Parabola);
    within("hog", parabola.hog_mm, 80.0, 1e-6);
    let beam = shape(&|t| 80.0 * 3.2 * (t - 2.0 * t.powi(3) + t.powi(4)), 0.3);
    assert_eq!(beam.shape, Shape::Beam);
    assert!(beam.curve_told);
    let broken = shape(&|t| if t < 0.4 { 25.0 * t / 0.4 } else { 25.0 * (1.0 - t) / 0.6 }, 1.0);
    let Shape::Break { x_m, from_m, to_m } = broken.shape else { panic!("{:?}", broken.shape) };
    assert!((x_m - 3.6).abs() < 0.1 && from_m <= 3.6 && to_m >= 3.6, "{x_m} {from_m} {to_m}");
    let straight = shape(&|t| if (t * 20.0).round() as i32 % 2 == 0 { 0.4 } else { -0.4 }, 1.0);
    assert_eq!(straight.shape, Shape::Straight);
    assert!(!straight.scatter_too_large);
    // Nine rough points cannot tell a parabola from a beam, and the answer says so.
    assert!(!keel_line(&case("hog")).unwrap().curve_told);
    let rough = shape(&|t| if (t * 20.0).round() as i32 % 2 == 0 { 8.0 } else { -8.0 }, 1.0);
    assert!(rough.scatter_too_large);
}

/// w S² / (8 H): one gram a metre at 100 N over 10 m sags 1.2 mm.
#[test]
fn string_sag() {
    within("sag", string_sag_mm(1.0, 10.0, 100.0), 1.2258, 1e-3);
}

#[test]
fn too_little_or_senseless_is_refused() {
    let refused = |p: &[KeelPoint]| keel_line(p).unwrap_err().to_string();
    assert!(refused(&points(&[0.0, 1.0], &[0.0, 1.0], &[1.0; 2])).contains("3 at least"));
    assert!(refused(&points(&[0.0, 1.0, 1.0], &[0.0, 1.0, 2.0], &[1.0; 3])).contains("3 at least"));
    assert!(refused(&points(&[0.0, 1.0, 2.0], &[0.0, 1.0, 2.0], &[1.0, 0.0, 1.0])).contains("x = 1 m"));
    assert!(refused(&points(&[0.0, 1.0, 2.0], &[0.0, f64::NAN, 2.0], &[1.0; 3])).contains("not a number"));
    let read = read_points("x_m,z_mm,sd_mm\n0,0,1\n1,five,1\n").unwrap_err().to_string();
    assert!(read.starts_with("Line 3, z_mm") && read.contains("`five`"), "{read}");
    assert_eq!(read_points("# laser\n0 1\n2 3.5\n").unwrap().len(), 2);
}

#[test]
fn twist_and_racking() {
    let pairs: Vec<Athwart> = (0..7)
        .map(|i| {
            let x = f64::from(i);
            let slope = (2.0 + 0.15 * x).to_radians().tan();
            Athwart { x_m: x, port_mm: 1000.0 * slope * 2.4, starboard_mm: 0.0, breadth_m: 2.4, sd_mm: 3.0 }
        })
        .collect();
    let got = twist(&pairs).unwrap();
    within("twist", got.twist_deg_per_m, 0.15, 1e-9);
    within("list", got.list_deg, 2.45, 1e-3);
    // w 2.4, l 3.0, port 20 mm further aft: diagonals 3.826278 and 3.857512.
    let e = racking(3.826278, 3.857512, 3.0, 0.002).unwrap();
    within("racking", e.port_aft_m, 0.020, 1e-6);
    assert!(e.sd_m > 0.0015 && e.sd_m < 0.0025);
}

#[test]
fn symmetry_finds_the_side_that_is_out() {
    // A symmetric set of points, measured in axes turned and shifted; then one port point pushed out by 25 mm.
    let (s, c) = (0.1f64.sin(), 0.1f64.cos());
    let put = |p: [f64; 3]| [c * p[0] - s * p[1] + 3.0, s * p[0] + c * p[1] - 1.0, p[2] + 0.4];
    let half: Vec<[f64; 3]> = (0..8)
        .map(|i| {
            let x = f64::from(i);
            [x, 1.2 - 0.02 * x * x, 1.0 + 0.1 * (x * 1.7).sin()]
        })
        .collect();
    let mut pairs: Vec<Pair> = half
        .iter()
        .enumerate()
        .map(|(i, p)| Pair { name: format!("sheer {i}"), port: put(*p), starboard: put([p[0], -p[1], p[2]]) })
        .collect();
    assert!(symmetry(&pairs).unwrap().rms_mm < 1e-6);
    pairs[5].port[1] += 0.025;
    let out = symmetry(&pairs).unwrap();
    assert_eq!(out.greatest_mm.1, 5);
    assert!(out.greatest_mm.0 > 15.0 && out.greatest_mm.0 < 26.0, "{:?}", out.greatest_mm);
    assert!(symmetry(&pairs[..3]).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// How she stands does not matter, hog turned over is sag, and the run of x does not matter.
    #[test]
    fn rigid_motion_is_removed(a in -500.0..500.0f64, b in -200.0..200.0f64, hog in -60.0..60.0f64, shift in -50.0..50.0f64) {
        let xi: Vec<f64> = (0..9).map(|i| f64::from(i) / 8.0).collect();
        let z = |sign: f64| xi.iter().map(|t| a + b * t + sign * hog * 4.0 * t * (1.0 - t)).collect::<Vec<_>>();
        let x: Vec<f64> = xi.iter().map(|t| shift + 7.5 * t).collect();
        let one = keel_line(&points(&x, &z(1.0), &[2.0; 9])).unwrap();
        prop_assert!((one.hog_mm - hog).abs() < 1e-6);
        let other = keel_line(&points(&x, &z(-1.0), &[2.0; 9])).unwrap();
        prop_assert!((one.hog_mm + other.hog_mm).abs() < 1e-6);
        let turned: Vec<f64> = x.iter().map(|x| -x).collect();
        prop_assert!((keel_line(&points(&turned, &z(1.0), &[2.0; 9])).unwrap().hog_mm - hog).abs() < 1e-6);
    }
}
