//! The topics `estimate`, `value` and `take-off`: that flags reach the room and its answer comes back under its keys.

use reckon::{Inputs, Reckoned, Refusal, find};

fn reckon(topic: &str, pairs: &[(&str, &str)]) -> Result<Reckoned, Refusal> {
    let topic = find(topic).expect("a topic");
    topic.reckon(Inputs::read(topic, pairs.iter().copied())?)
}

fn figure(reckoned: &Reckoned, key: &str) -> f64 {
    reckoned.answer.results[key].as_f64().unwrap_or_else(|| panic!("{key} is a number"))
}

#[test]
fn one_line_of_ten_twenty_sixty() {
    // Triangular closed form: mean 30, variance 116.667, 10 % 17.0711, median 28.3772, 90 % 45.8579. PERT: mean 25, sd 8.660.
    let items = "item,low,likely,high\nx,10,20,60\n";
    let reckoned = reckon("estimate", &[("items", items), ("trials", "200000")]).expect("good");
    assert!((figure(&reckoned, "mean") - 30.0).abs() < 1e-9);
    assert!((figure(&reckoned, "sd") - 116.666_667f64.sqrt()).abs() < 1e-6);
    for (key, exact) in [("p10", 17.0711), ("p50", 28.3772), ("p90", 45.8579)] {
        assert!((figure(&reckoned, key) - exact).abs() < 0.15, "{key} {}", figure(&reckoned, key));
    }
    let pert = reckon("estimate", &[("items", items), ("shape", "pert")]).expect("good");
    assert!((figure(&pert, "mean") - 25.0).abs() < 1e-9 && (figure(&pert, "sd") - 8.660).abs() < 5e-4);
}

#[test]
fn dependence_rates_and_their_cautions_come_through() {
    let items = "item,low,likely,high,trade\na,10,20,60,shipwright\nb,10,20,60,shipwright\n";
    let free = reckon("estimate", &[("items", items)]).expect("good");
    assert!(free.answer.cautions.iter().any(|c| c.contains("independent")));
    assert!(free.answer.cautions.iter().any(|c| c.contains("has no rate")));
    let full = reckon("estimate", &[("items", items), ("dependence", "1")]).expect("good");
    // Fully dependent: standard deviations add; independent: variances do.
    assert!((figure(&full, "sd") / figure(&free, "sd") - 2f64.sqrt()).abs() < 0.03);
    let rated = [("items", items), ("rates", "trade,low,likely,high\nshipwright,40,45,60\n"), ("dependence", "0")];
    let rated = reckon("estimate", &rated).expect("good");
    assert!((figure(&rated, "mean") - 60.0 * 145.0 / 3.0).abs() < 1e-6);
    assert!(rated.answer.cautions.iter().any(|c| c.contains("no source")));
}

#[test]
fn value_shows_adjustments_and_repair_against_value() {
    let table = "name,price,status\na (invented),40000,sold\nb (invented),42000,sold\nc (invented),38000,asking\n";
    let reckoned =
        reckon("value", &[("comparables", table), ("repair-cost", "41000"), ("date", "1 May")]).expect("good");
    assert_eq!((figure(&reckoned, "low"), figure(&reckoned, "middle"), figure(&reckoned, "high")), (38e3, 40e3, 42e3));
    assert!((figure(&reckoned, "repair_ratio") - 1.025).abs() < 1e-12);
    assert_eq!(reckoned.answer.results["repair_exceeds_value"], true);
    assert_eq!(reckoned.answer.results["adjustments"].as_array().expect("a list").len(), 3);
    assert!(reckoned.answer.results["definition"].as_str().expect("words").contains("26 CFR"));
    assert!(reckoned.answer.cautions.iter().any(|c| c.contains("Few comparables")));
    assert!(reckoned.answer.cautions.iter().any(|c| c.contains("Asking prices stand unadjusted")));
}

#[test]
fn a_plank_is_taken_off_and_bad_tables_are_refused() {
    let plank = [
        ("length-mm", "10000"),
        ("width-mm", "140"),
        ("thickness-mm", "28"),
        ("spacing-mm", "250"),
        ("yield-percent", "50"),
    ];
    let reckoned = reckon("take-off", &plank).expect("good");
    assert_eq!((figure(&reckoned, "crossings"), figure(&reckoned, "fastenings")), (41.0, 82.0));
    let refusal = reckon("estimate", &[("items", "item,low,high\nx,1,2\n")]).expect_err("bad").to_string();
    assert!(refusal.starts_with("--items") && refusal.contains("likely"), "{refusal}");
    assert!(reckon("value", &[("comparables", "name,price\n")]).is_err());
    let nothing = plank.map(|(flag, value)| (flag, if flag == "spacing-mm" { "0" } else { value }));
    assert!(reckon("take-off", &nothing).expect_err("bad").to_string().starts_with("--spacing-mm"));
}
