//! Value from comparables, by cost, and against repair.

use estimate::value::{Adjustments, CostApproach, FAIR_MARKET_VALUE, Floor, as_found, opinion, read_comparables};

/// Invented boats.
const FEW: &str = "name,price,status,length_m,adjust_condition_percent,adjust_engine_percent
Invented One,20000,asking,9.0,10,
Invented Two,24000,sold,10.0,-5,4
Invented Three,30000,sold,11.0,,
";

#[test]
fn every_adjustment_is_shown_and_the_range_of_few_is_the_range() {
    let comparables = read_comparables(FEW).expect("good");
    let table = Adjustments { asking_discount_percent: Some(15.0), length_m: Some(10.0), length_exponent: Some(3.0) };
    let opinion = opinion(&comparables, &table).expect("good");
    let one = &opinion.adjusted[0];
    assert_eq!(
        one.steps.iter().map(|s| s.what.as_str()).collect::<Vec<_>>(),
        ["asked, not paid", "length", "condition"]
    );
    // 20,000 x 0.85 x (10/9)^3 x 1.10 by hand.
    let by_hand = 20_000.0 * 0.85 * (10.0f64 / 9.0).powi(3) * 1.1;
    assert!((one.price - by_hand).abs() < 1e-6);
    assert!((one.steps[2].after - one.price).abs() < 1e-9);
    let second = 24_000.0 * 0.95 * 1.04;
    let third = 30_000.0 * (10.0f64 / 11.0).powi(3);
    assert!((opinion.low - third).abs() < 1e-6 && (opinion.middle - second).abs() < 1e-6);
    assert!((opinion.high - by_hand).abs() < 1e-6);
    assert!(opinion.range.is_whole_range && opinion.method.contains("75 %"), "{}", opinion.method);
}

#[test]
fn nothing_is_adjusted_that_the_user_did_not_ask_for() {
    let comparables = read_comparables("name,price,status,length_m\na,100,asking,5\nb,300,sold,9\n").expect("good");
    let opinion = opinion(&comparables, &Adjustments::default()).expect("good");
    assert!(opinion.adjusted.iter().all(|a| a.steps.is_empty()));
    assert_eq!((opinion.low, opinion.middle, opinion.high), (100.0, 200.0, 300.0));
}

#[test]
fn one_comparable_is_called_little_more_than_an_assertion() {
    let one = opinion(&read_comparables("name,price\na,100\n").expect("good"), &Adjustments::default()).expect("good");
    assert!(one.method.contains("assertion"));
    assert_eq!((one.low, one.high), (100.0, 100.0));
    assert!(FAIR_MARKET_VALUE.contains("26 CFR 20.2031-1(b)"));
}

#[test]
fn repair_against_value_follows_the_act_of_1906() {
    // Marine Insurance Act 1906 s.60(2)(ii): the cost must exceed the value repaired. 41,000 of 40,000 does, 40,000 does not.
    let over = as_found(40_000.0, 41_000.0, 0.0);
    assert!(over.repair_exceeds_value && (over.ratio - 1.025).abs() < 1e-12);
    assert!(!as_found(40_000.0, 40_000.0, 0.0).repair_exceeds_value);
    let found = as_found(40_000.0, 21_000.0, 3_000.0);
    assert!((found.value - 16_000.0).abs() < 1e-9 && found.ratio > 0.5);
    assert!(Floor { breaking_value: 2_000.0, disposal: 3_500.0 }.value() < 0.0);
}

#[test]
fn the_cost_approach_takes_losses_one_after_another() {
    let cost = CostApproach {
        replacement: 100_000.0,
        physical_percent: 50.0,
        functional_percent: 20.0,
        economic_percent: 10.0,
    };
    assert!((cost.value().expect("good") - 36_000.0).abs() < 1e-9);
    assert!(CostApproach { physical_percent: 120.0, ..cost }.value().is_err());
}
