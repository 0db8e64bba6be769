//! Totals against closed forms, exact cases of dependence, and a numpy simulation.

use crate::{number, rows};
use estimate::{Estimate, Line, Shape, Spread, read_lines, read_rates};
use proptest::prelude::*;

const ITEMS: &str = include_str!("../data/items.csv");
const RATES: &str = include_str!("../data/rates.csv");

fn estimate(shape: Shape, rated: bool, dependence: f64) -> Estimate {
    let rates = if rated { read_rates(RATES, shape).expect("good") } else { Vec::new() };
    let lines = read_lines(ITEMS, shape).expect("good");
    Estimate { lines, rates, dependence, trials: 200_000, seed: 5, ..Estimate::default() }
}

#[test]
fn ten_twenty_sixty_by_the_closed_forms() {
    // Triangular: mean 30, variance 116.667, median 28.3772, 10 % 17.0711, 90 % 45.8579. PERT: mean 25, variance 75 exactly.
    let triangular = Spread::new("x", 10.0, 20.0, 60.0, Shape::Triangular).expect("good");
    assert!((triangular.mean() - 30.0).abs() < 1e-12);
    assert!((triangular.variance() - 116.6667).abs() < 5e-5);
    for (p, x) in [(0.5, 28.3772), (0.1, 17.0711), (0.9, 45.8579)] {
        assert!((triangular.quantile(p) - x).abs() < 5e-5);
    }
    let pert = Spread::new("x", 10.0, 20.0, 60.0, Shape::Pert).expect("good");
    assert!((pert.mean() - 25.0).abs() < 1e-12 && (pert.variance() - 75.0).abs() < 1e-12);
    // Symmetric: 1/28 of the squared range, not 1/36.
    let even = Spread::new("x", 0.0, 5.0, 10.0, Shape::Pert).expect("good");
    assert!((even.variance() - 100.0 / 28.0).abs() < 1e-12);
}

#[test]
fn quantiles_agree_with_scipy() {
    for row in rows(include_str!("../reference/pert.csv")) {
        let shape = Shape::named(row[0]).expect("a shape");
        let (low, likely, high) = (number(row[1]), number(row[2]), number(row[3]));
        let spread = Spread::new("x", low, likely, high, shape).expect("good");
        let ours = spread.quantile(number(row[4]));
        let tolerance = if shape == Shape::Pert { 1e-4 } else { 1e-8 };
        assert!((ours - number(row[5])).abs() < tolerance * (high - low), "{row:?} {ours}");
    }
}

#[test]
fn totals_agree_with_a_numpy_simulation() {
    for row in rows(include_str!("../reference/totals.csv")) {
        let shape = Shape::named(row[0]).expect("a shape");
        let total = estimate(shape, row[1] == "1", number(row[2])).total().expect("good");
        let theirs: Vec<f64> = row[3..].iter().map(|cell| number(cell)).collect();
        // Ours has 200,000 trials: a percentile's standard error is near 0.4 % of the standard deviation.
        let sd = theirs[4];
        for (what, ours, theirs, tolerance) in [
            ("p10", total.p10, theirs[0], 0.015),
            ("p50", total.p50, theirs[1], 0.015),
            ("p90", total.p90, theirs[2], 0.02),
            ("mean", total.mean, theirs[3], 0.003),
            ("simulated mean", total.simulated_mean, theirs[3], 0.01),
        ] {
            assert!((ours - theirs).abs() < tolerance * sd, "{row:?} {what}: {ours} {theirs}");
        }
        let tolerance = if total.sd_is_exact { 0.002 } else { 0.01 };
        assert!((total.sd / sd - 1.0).abs() < tolerance, "{row:?} sd: {} {sd}", total.sd);
        assert!((total.simulated_sd / sd - 1.0).abs() < 0.01, "{row:?} {}", total.simulated_sd);
    }
}

#[test]
fn independent_lines_add_means_and_variances() {
    let lines = [(10.0, 20.0, 60.0), (5.0, 5.0, 9.0), (100.0, 140.0, 150.0)];
    for shape in [Shape::Triangular, Shape::Pert] {
        let mut estimate = Estimate::default();
        for (low, likely, high) in lines {
            let spread = Spread::new("x", low, likely, high, shape).expect("good");
            estimate.lines.push(Line { spread, ..Line::new("x", 0.0, 0.0, 0.0).expect("good") });
        }
        let total = estimate.total().expect("good");
        let mean: f64 = estimate.lines.iter().map(|line| line.spread.mean()).sum();
        let variance: f64 = estimate.lines.iter().map(|line| line.spread.variance()).sum();
        assert!((total.mean - mean).abs() < 1e-9);
        assert!((total.sd - variance.sqrt()).abs() < 1e-9);
        assert!((total.simulated_sd / total.sd - 1.0).abs() < 0.02);
        let shares: f64 = total.drivers.iter().map(|driver| driver.share_percent).sum();
        assert!((shares - 100.0).abs() < 3.0, "{shares}");
    }
}

#[test]
fn full_dependence_adds_quantiles_and_standard_deviations() {
    // All low or high together: each quantile of the total is the sum of the lines' quantiles; for lines of one shape
    // scaled, standard deviations add.
    let line = |k: f64| Line::new("x", 10.0 * k, 20.0 * k, 60.0 * k).expect("good");
    let estimate = Estimate {
        lines: vec![line(1.0), line(2.5), line(0.5)],
        dependence: 1.0,
        trials: 200_000,
        ..Estimate::default()
    };
    let total = estimate.total().expect("good");
    for (ours, p) in [(total.p10, 0.1), (total.p50, 0.5), (total.p90, 0.9)] {
        let exact: f64 = estimate.lines.iter().map(|line| line.spread.quantile(p)).sum();
        assert!((ours / exact - 1.0).abs() < 0.005, "{ours} {exact}");
    }
    let exact = 4.0 * 116.666_666_7f64.sqrt();
    assert!((total.sd / exact - 1.0).abs() < 0.01, "{} {exact}", total.sd);
}

fn of_trade(trade: &str, k: f64) -> Line {
    Line { trade: trade.to_owned(), ..Line::new("x", 10.0 * k, 20.0 * k, 60.0 * k).expect("good") }
}

#[test]
fn lines_of_one_trade_go_together_and_trades_by_themselves() {
    // Exact: within a trade at 1, standard deviations of lines of one shape add; between trades at 0, variances add. A
    // line of no trade, and one alone in its trade, stand by themselves. Variance of (10, 20, 60) is 116.667.
    let variance = 116.666_666_666_7;
    let lines = vec![
        of_trade("a", 1.0),
        of_trade("b", 2.0),
        of_trade("a", 2.5),
        of_trade("b", 0.5),
        of_trade("", 1.5),
        of_trade("c", 1.0),
    ];
    let estimate = Estimate { lines, trade_dependence: 1.0, trials: 200_000, ..Estimate::default() };
    let total = estimate.total().expect("good");
    let exact = (variance * (3.5f64.powi(2) + 2.5f64.powi(2) + 1.5f64.powi(2) + 1.0)).sqrt();
    assert!(!total.sd_is_exact && (total.sd / exact - 1.0).abs() < 0.01, "{} {exact}", total.sd);
    assert!((total.mean - 30.0 * 8.5).abs() < 1e-9);

    // One trade alone, wholly together: every quantile is the sum of the lines' own.
    let alone = Estimate { lines: vec![of_trade("a", 1.0), of_trade("a", 2.5)], ..estimate.clone() };
    let total = alone.total().expect("good");
    for (ours, p) in [(total.p10, 0.1), (total.p50, 0.5), (total.p90, 0.9)] {
        let exact: f64 = alone.lines.iter().map(|line| line.spread.quantile(p)).sum();
        assert!((ours / exact - 1.0).abs() < 0.005, "{p}: {ours} {exact}");
    }

    // At 0 the closed form of independent lines.
    let free = Estimate { trade_dependence: 0.0, ..estimate.clone() }.total().expect("good");
    let exact = (variance * (1.0 + 4.0 + 6.25 + 0.25 + 2.25 + 1.0)).sqrt();
    assert!(free.sd_is_exact && (free.sd - exact).abs() < 1e-6);

    // A common cause stronger than the trade's holds for the trade's lines too.
    let all = Estimate { dependence: 1.0, trade_dependence: 0.3, ..estimate }.total().expect("good");
    assert!((all.sd / (variance.sqrt() * 8.5) - 1.0).abs() < 0.01, "{}", all.sd);
}

#[test]
fn trades_that_partly_go_together_agree_with_a_numpy_simulation() {
    for row in rows(include_str!("../reference/trades.csv")) {
        let theirs: Vec<f64> = row.iter().map(|cell| number(cell)).collect();
        let lines =
            vec![of_trade("a", 1.0), of_trade("a", 2.5), of_trade("b", 2.0), of_trade("b", 0.5), of_trade("", 1.5)];
        let (dependence, trade_dependence) = (theirs[0], theirs[1]);
        let estimate = Estimate { lines, dependence, trade_dependence, trials: 200_000, ..Estimate::default() };
        let total = estimate.total().expect("good");
        for (what, ours, theirs, tolerance) in [
            ("p10", total.p10, theirs[2], 0.015),
            ("p50", total.p50, theirs[3], 0.015),
            ("p90", total.p90, theirs[4], 0.02),
        ] {
            assert!((ours - theirs).abs() < tolerance * total.sd, "{row:?} {what}: {ours} {theirs}");
        }
        assert!((total.simulated_sd / theirs[5] - 1.0).abs() < 0.01, "{row:?} {}", total.simulated_sd);
    }
}

#[test]
fn drivers_are_ranked_by_their_share_of_the_variance() {
    // Independent lines: the share of a line is its variance over the sum, exactly 6.25/7.5, 1/7.5 and 0.25/7.5.
    let named = |name: &str, k| Line { item: name.to_owned(), ..of_trade("", k) };
    let lines = vec![named("small", 0.5), named("great", 2.5), named("middle", 1.0)];
    let total = Estimate { lines, trials: 200_000, ..Estimate::default() }.total().expect("good");
    for (driver, (name, exact)) in total.drivers.iter().zip([("great", 6.25), ("middle", 1.0), ("small", 0.25)]) {
        assert_eq!(driver.name, name);
        assert!((driver.share_percent - 100.0 * exact / 7.5).abs() < 1.0, "{name}: {}", driver.share_percent);
    }
}

#[test]
fn a_line_that_may_not_be_needed() {
    // q mu; q (var + mu2) - (q mu)2 with mu 30 and var 116.667: 0.25 of it is 7.5 and 197.917.
    let line = Line { probability: 0.25, ..Line::new("x", 10.0, 20.0, 60.0).expect("good") };
    let total = Estimate { lines: vec![line], ..Estimate::default() }.total().expect("good");
    assert!((total.mean - 7.5).abs() < 1e-12);
    assert!((total.sd - (0.25 * (116.666_666_666_666_67 + 900.0) - 56.25f64).sqrt()).abs() < 1e-9);
    assert_eq!((total.p10, total.p50), (0.0, 0.0));
}

#[test]
fn a_shared_rate_is_drawn_once_and_widens_the_total() {
    // Two lines of one hour each at a rate of 10, 20, 60: the total is twice the rate, with twice its standard deviation,
    // not root two of it.
    let csv = "item,low,likely,high,trade\na,1,1,1,t\nb,1,1,1,t\n";
    let rates = read_rates("trade,low,likely,high\nt,10,20,60\n", Shape::Triangular).expect("good");
    let lines = read_lines(csv, Shape::Triangular).expect("good");
    let total = Estimate { lines, rates, ..Estimate::default() }.total().expect("good");
    assert!((total.sd - 2.0 * 116.666_666_666_7f64.sqrt()).abs() < 1e-6);
    assert!((total.simulated_sd / total.sd - 1.0).abs() < 0.02);
    assert!(total.drivers[0].is_rate && (total.drivers[0].share_percent - 100.0).abs() < 2.0);
}

#[test]
fn the_same_seed_gives_the_same_figures_and_another_nearly_the_same() {
    let one = estimate(Shape::Triangular, true, 0.3);
    assert_eq!(one.total().expect("good"), one.total().expect("good"));
    let other = Estimate { seed: 6, ..one.clone() }.total().expect("good");
    let one = one.total().expect("good");
    assert_ne!(one.p50, other.p50);
    assert!((one.p50 - other.p50).abs() < 3.0 * one.simulation_error);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn more_dependence_never_narrows_and_the_mean_stays(seed in 0u64..1000, k in 1.0f64..9.0) {
        let lines = vec![
            Line::new("a", 10.0, 20.0, 60.0).expect("good"),
            Line::new("b", k, 5.0 * k, 7.0 * k).expect("good"),
            Line::new("c", 1.0, 2.0, 30.0).expect("good"),
        ];
        let at = |dependence| {
            Estimate { lines: lines.clone(), dependence, trials: 4000, seed, ..Estimate::default() }.total().expect("good")
        };
        let (free, half, full) = (at(0.0), at(0.5), at(1.0));
        prop_assert!(free.sd < half.sd && half.sd < full.sd);
        prop_assert!((free.mean - full.mean).abs() < 1e-9);
        prop_assert!(free.p10 <= free.p50 && free.p50 <= free.p90);
    }
}
