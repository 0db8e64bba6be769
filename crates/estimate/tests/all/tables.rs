//! Tables as people write them, and refusals that name row and column.

use estimate::value::read_comparables;
use estimate::{Shape, read_lines, read_rates};

fn refusal(csv: &str) -> String {
    read_lines(csv, Shape::Triangular).expect_err("a bad table").to_string()
}

#[test]
fn refusals_name_the_place() {
    assert!(refusal("item,low,high\nx,1,2\n").contains("no column likely"));
    assert!(refusal("item,low,likely,high\nx,1,two,3\n").contains("row 1, column likely: two"));
    assert!(refusal("item,low,likely,high\nx,1,5,3\n").contains("not in order"));
    assert!(refusal("item,low,likely,high\nx,-1,2,3\n").contains("not in order"));
    assert!(refusal("item,low,likely,high\nx,1,2,3\ny,1,200,3,000\n").contains("row 2"));
    assert!(refusal("item,low,likely,high,probability\nx,1,2,3,60\n").contains("from 0 to 1"));
    assert!(refusal("item,low,likely,high\n").contains("no rows"));
    assert!(refusal("").contains("no column"));
}

#[test]
fn columns_in_any_order_and_case_with_remarks_are_read() {
    let lines = read_lines("# invented\nHigh,Item,Likely,Low,note\n9,x,5,1,hello\n", Shape::Pert).expect("good");
    assert!((lines[0].spread.mean() - 5.0).abs() < 1e-12);
    let twice = read_rates("trade,low,likely,high\nt,1,2,3\nt,1,2,3\n", Shape::Triangular);
    assert!(twice.expect_err("twice").to_string().contains("stands there once"));
}

#[test]
fn comparables_are_checked() {
    let refusal = |csv: &str| read_comparables(csv).expect_err("a bad table").to_string();
    assert!(refusal("name,price,currency\na,1000,GBP\nb,1000,EUR\n").contains("one currency"));
    assert!(refusal("name,price\na,0\n").contains("above 0"));
    assert!(refusal("name,price\n").contains("only an assertion"));
    assert!(refusal("name,price,status\na,10,maybe\n").contains("asking or sold"));
}
