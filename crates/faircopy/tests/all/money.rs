//! Money as the report says it.

use crate::book::small;
use faircopy::{Extras, compose, yard_list};

#[test]
fn lines_of_one_trade_rise_and_fall_together() {
    // Exact. Within the trade shipwright: (10, 20, 60) times 100 and times 50, wholly together, so their standard
    // deviations add: 150 times that of (10, 20, 60), whose variance is 116.667. Beside it the smith's (times 100) and the
    // haul-out (400, 450, 600; variance 1805.556, worked by hand), each by itself.
    let variance: f64 = 150.0 * 150.0 * 116.666_67 + 100.0 * 100.0 * 116.666_67 + 1_805.556;
    let mean = 3_000.0 + 1_500.0 + 3_000.0 + 1_450.0 / 3.0;
    // Near normal: the tenth and ninetieth percentile lie about 1.28 standard deviations off; skew moves both a little.
    let list = yard_list(&small(), &Extras::default());
    let [total] = &list.totals[..] else { panic!("{:?}", list.totals) };
    let width = total.p90 - total.p10;
    assert!((width / (2.563 * variance.sqrt()) - 1.0).abs() < 0.06, "{width} {}", 2.563 * variance.sqrt());
    let apart: f64 = (12_500.0 + 10_000.0) * 116.666_67 + 1_805.556;
    assert!(width > 1.1 * 2.563 * apart.sqrt(), "no wider than lines by themselves: {width}");
    assert!(total.p10 < mean && mean < total.p90);

    let document = compose(&small(), &Extras::default());
    let notes = document.estimate.expect("lines").notes.join(" ");
    assert!(notes.contains("Lines of one trade rise and fall together"), "{notes}");
    assert!(notes.contains("If everything were dear or cheap together"), "{notes}");
    assert!(notes.contains("Most of the spread comes with: plank, got out and fitted"), "{notes}");
}

#[test]
fn rival_ways_stand_side_by_side() {
    let document = compose(&small(), &Extras::default());
    let ways = &document.recommendations[0].ways;
    assert_eq!(ways.rows.len(), 3);
    assert_eq!(ways.rows[2][0], "Renew (advised)");
    assert_eq!(ways.rows[1][0], "Repair in place: graving piece");
    assert!(ways.rows.iter().all(|row| row.len() == ways.columns.len()));
    let column = |title: &str| ways.columns.iter().position(|c| c.title == title).expect(title);
    assert_eq!(ways.rows[1][column("What else it opens up")], "The keel rabbet.");
    assert_eq!(ways.rows[2][column("When, and by whom")], "Before she floats; a shipwright.");
    assert!(document.recommendations[1].ways.rows.is_empty());
}
