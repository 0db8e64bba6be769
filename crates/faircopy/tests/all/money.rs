//! Money as the report says it.

use crate::book::{Book, small};
use faircopy::{Extras, compose, yard_list};
use serde_json::json;

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

/// A survey with one line of work and boats compared at the prices given after their steps.
fn valued(prices: &[f64], likely: f64) -> faircopy::Document {
    let mut book = Book::new();
    book.write("vessel", json!({"name": "Invented Tern", "construction": "carvel"}));
    let line = json!({"item": "all the work", "low": likely, "likely": likely, "high": likely, "currency": "EUR"});
    book.write("estimate_line", line);
    for (i, price) in prices.iter().enumerate() {
        let listed = (price - 500.0).max(0.0);
        let steps = json!([{"what": "condition", "amount": price - listed}]);
        let boat = json!({"title": format!("invented boat {i}"), "price": listed, "currency": "EUR", "sold": true, "adjustments": steps});
        book.write("comparable", boat);
    }
    // In another currency: shown, and not reckoned with.
    book.write("comparable", json!({"title": "a boat abroad", "price": 1.0, "currency": "SEK", "sold": true}));
    let opinion = json!({"definition": "as agreed", "date": "2026-06-03", "low": 1, "middle": 2, "high": 3, "currency": "EUR", "reasoning": "judgement"});
    book.write("opinion_of_value", opinion);
    compose(&book.state(), &Extras::default())
}

#[test]
fn value_and_repairs_are_set_side_by_side_and_the_arithmetic_is_shown() {
    // Five prices, by hand: median 22,000; work of 16,500 is three quarters of it and leaves 5,500. The range between the
    // lowest and the highest of five holds the median with 1 - 2/2^5 = 93.75 % (David and Nagaraja, section 7.1).
    let document = valued(&[20_000.0, 21_000.0, 22_000.0, 24_000.0, 30_000.0], 16_500.0);
    let value = document.value.as_ref().expect("an opinion was given");
    let notes = value.notes.join(" ");
    assert!(notes.contains("point to EUR 22,000 (from EUR 20,000 to EUR 30,000)"), "{notes}");
    assert!(notes.contains("94 %") && notes.contains("comes to 75 % of that"), "{notes}");
    assert!(notes.contains("EUR 5,500 is left"), "{notes}");
    let drawn = value.drawn.as_ref().expect("there is something to set side by side");
    let said = &drawn.sheet.description;
    assert!(said.contains("invented boat 4: 29,500, after the steps 30,000"), "{said}");
    assert!(said.contains("opinion: 1 to 3, middle 2") && !said.contains("abroad"), "{said}");
    // One line of cost has no spread to be drawn, so the chart of value is the only drawing.
    assert!(document.estimate.as_ref().is_some_and(|estimate| estimate.drawn.is_none()));
    assert_eq!(document.drawings().count(), 1);
}

#[test]
fn without_boats_compared_nothing_is_worked_out_for_the_surveyor() {
    let document = valued(&[], 4_000.0);
    assert!(document.value.as_ref().is_some_and(|value| value.notes.is_empty()));
}

#[test]
fn boats_whose_steps_take_them_below_nothing_give_no_share_of_it() {
    let notes = valued(&[-500.0, -100.0], 4_000.0).value.expect("an opinion was given").notes;
    let [only] = &notes[..] else { panic!("{notes:?}") };
    assert!(only.contains("point to EUR −300") || only.contains("point to EUR -300"), "{only}");
}

#[test]
fn a_spread_of_several_lines_is_drawn_with_what_it_comes_with() {
    let document = compose(&small(), &Extras::default());
    let estimate = document.estimate.as_ref().expect("lines");
    let drawn = estimate.drawn.as_ref().expect("several lines");
    assert!(drawn.sheet.description.contains("plank, got out and fitted"), "{}", drawn.sheet.description);
    let page = faircopy::page(&document);
    assert!(page.contains("<figure>") && page.contains("<svg") && page.contains("What the spread comes with"));
}
