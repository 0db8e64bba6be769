//! The statistics of draws against scipy (versions in the first line of each file; script in `tests/reference`).

use crate::table_file::{number, rows};
use fastening::draw::hypergeometric::Hypergeometric;
use fastening::draw::interval::clopper_pearson;
use fastening::draw::posterior::BetaBinomial;
use fastening::special::{normal_quantile, t_quantile};

fn whole(row: &csv::StringRecord, column: usize) -> u64 {
    row[column].parse().expect("a whole number")
}

fn agree(ours: f64, theirs: f64, row: &csv::StringRecord) {
    // To 1e-9, absolutely and of the figure itself.
    assert!((ours - theirs).abs() <= 1e-9 * theirs.abs() + 1e-15, "{row:?}: {ours} against {theirs}");
}

#[test]
fn hypergeometric_on_two_hundred_cases() {
    let cases = rows(include_str!("../reference/hypergeometric.csv"));
    assert_eq!(cases.len(), 200);
    for row in &cases {
        let draw = Hypergeometric { population: whole(row, 0), bad: whole(row, 1), drawn: whole(row, 2) };
        agree(draw.pmf(whole(row, 3)), number(row, 4), row);
        agree(draw.cdf(whole(row, 3)), number(row, 5), row);
    }
}

#[test]
fn clopper_pearson_on_two_hundred_cases() {
    let cases = rows(include_str!("../reference/clopper-pearson.csv"));
    assert_eq!(cases.len(), 200);
    for row in &cases {
        let found = clopper_pearson(whole(row, 0), whole(row, 1), number(row, 2)).unwrap();
        agree(found.lower, number(row, 3), row);
        agree(found.upper, number(row, 4), row);
    }
}

#[test]
fn beta_binomial_on_two_hundred_cases() {
    let cases = rows(include_str!("../reference/beta-binomial.csv"));
    assert_eq!(cases.len(), 200);
    for row in &cases {
        let after = BetaBinomial { left: whole(row, 0), bad: number(row, 1), good: number(row, 2) };
        agree(after.pmf(whole(row, 3)), number(row, 4), row);
        agree(after.cdf(whole(row, 3)), number(row, 5), row);
        assert_eq!(after.quantile(0.95), whole(row, 6), "{row:?}");
    }
}

#[test]
fn quantiles_of_t_and_normal() {
    for row in rows(include_str!("../reference/quantiles.csv")) {
        agree(t_quantile(number(&row, 0), number(&row, 1)), number(&row, 2), &row);
        agree(normal_quantile(number(&row, 1)), number(&row, 3), &row);
    }
}
