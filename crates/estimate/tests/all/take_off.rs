//! From a piece on the drawing to quantities and lines, against figures worked by hand.

use estimate::take_off::{Allowances, Piece, Unit, lines, quantities, read_unit_rates};
use estimate::{Estimate, Shape, Spread};

const ALLOWANCES: Allowances = Allowances {
    thickness_mm: 28.0,
    yield_percent: 60.0,
    spacing_mm: 250.0,
    per_crossing: 2,
    butts: 1,
    per_butt_end: 4,
};

#[test]
fn a_straight_plank_has_the_area_of_its_trapezium() {
    // A trapezium of 3 m with widths 0.10 and 0.16 m: area 3 (0.10 + 0.16)/2 = 0.39 m2; the lower edge is 3 m, the upper
    // the hypotenuse of 3 and 0.06, the middle that of 3 and 0.03.
    let piece =
        Piece::between(&[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0)], &[(1.0, 0.1), (2.0, 0.12), (4.0, 0.16)]).expect("good");
    assert!((piece.area_m2 - 0.39).abs() < 1e-12);
    assert!((piece.widest_m - 0.16).abs() < 1e-12);
    assert!((piece.edges_m - (3.0 + 9.0036f64.sqrt())).abs() < 1e-12);
    assert!((piece.length_m - 9.0009f64.sqrt()).abs() < 1e-12);
}

#[test]
fn a_curved_plank_comes_near_the_ring_it_is_cut_from() {
    // A quarter of a ring between radii 2.0 and 2.2 m: area pi (2.2^2 - 2.0^2)/4, edges pi (2.2 + 2.0)/2, closed forms.
    let arc = |r: f64| -> Vec<(f64, f64)> {
        (0..=400)
            .map(|i| f64::from(i) / 400.0 * std::f64::consts::FRAC_PI_2)
            .map(|a| (r * a.cos(), r * a.sin()))
            .collect()
    };
    let piece = Piece::between(&arc(2.0), &arc(2.2)).expect("good");
    let pi = std::f64::consts::PI;
    assert!((piece.area_m2 / (pi * (2.2f64.powi(2) - 4.0) / 4.0) - 1.0).abs() < 1e-5);
    assert!((piece.edges_m / (pi * 4.2 / 2.0) - 1.0).abs() < 1e-5);
    assert!((piece.widest_m - 0.2).abs() < 1e-9);
}

#[test]
fn quantities_and_lines_follow_the_surveyors_own_list() {
    let piece = Piece { length_m: 10.0, area_m2: 1.5, widest_m: 0.16, edges_m: 20.0 };
    let taken = quantities(&piece, &ALLOWANCES).expect("good");
    let of = |unit| taken.iter().find(|(u, _)| *u == unit).expect("there").1;
    // By hand: 10 m at 250 mm crosses 41 frames, 82 fastenings and 8 in the butt; 1.5 x 0.028 / 0.6 = 0.07 m3.
    assert_eq!(of(Unit::Fastening), 90.0);
    assert!((of(Unit::TimberM3) - 0.07).abs() < 1e-12);
    // 0.07 m3 over 0.002359737216 m3 a board foot (144 cubic inches) is 29.664 by hand.
    assert!((of(Unit::TimberBoardFeet) - 29.664).abs() < 1e-3);
    let rates = read_unit_rates(
        "# invented\nitem,unit,low,likely,high,trade,source\nlarch,timber_m3,1500,1800,2600,,a made-up yard\nfasten,fastening,2,3,5,shipwright,\ncaulk and pay,seam_m,10,14,30,shipwright,\n",
    )
    .expect("good");
    let priced = lines(&taken, &rates).expect("good");
    let mean = |line: &estimate::Line| line.spread.mean();
    assert!((mean(&priced[0].2) - 0.07 * (1500.0 + 1800.0 + 2600.0) / 3.0).abs() < 1e-9);
    assert!((mean(&priced[1].2) - 90.0 * 10.0 / 3.0).abs() < 1e-9);
    assert_eq!((priced[2].0, priced[2].1), (Unit::SeamM, 20.0));
    // Lines of the trade go together when they are added up: their standard deviations add.
    let sd =
        |low, likely, high| Spread::new("x", low, likely, high, Shape::Triangular).expect("good").variance().sqrt();
    let trade: Vec<estimate::Line> = priced[1..].iter().map(|(_, _, line)| line.clone()).collect();
    let total =
        Estimate { lines: trade, trade_dependence: 1.0, trials: 100_000, ..Estimate::default() }.total().expect("good");
    let exact = sd(180.0, 270.0, 450.0) + sd(200.0, 280.0, 600.0);
    assert!((total.sd / exact - 1.0).abs() < 0.02, "{} {exact}", total.sd);
}

#[test]
fn what_makes_no_sense_is_refused_with_what_is_accepted() {
    assert!(Piece::between(&[(0.0, 0.0)], &[(0.0, 1.0)]).expect_err("one point").to_string().contains("two or more"));
    assert!(Piece::between(&[(0.0, 0.0), (1.0, f64::NAN)], &[(0.0, 1.0), (1.0, 1.0)]).is_err());
    let piece = Piece { length_m: 1.0, area_m2: 0.1, widest_m: 0.1, edges_m: 2.0 };
    assert!(quantities(&piece, &Allowances { yield_percent: 0.0, ..ALLOWANCES }).is_err());
    let fault = read_unit_rates("item,unit,low,likely,high\nx,hours,1,2,3\n").expect_err("no such unit").to_string();
    assert!(fault.contains("row 1, column unit: hours") && fault.contains("seam_m"), "{fault}");
}
