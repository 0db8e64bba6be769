//! The topics of the room `waters`.

use reckon::{Inputs, Reckoned, Refusal, find};

fn reckon(topic: &str, pairs: &[(&str, &str)]) -> Result<Reckoned, Refusal> {
    let topic = find(topic).expect("a topic");
    topic.reckon(Inputs::read(topic, pairs.iter().copied())?)
}

fn refused(topic: &str, pairs: &[(&str, &str)], flag: &str) -> String {
    let message = reckon(topic, pairs).expect_err("refused").to_string();
    assert!(message.starts_with(&format!("--{flag}")) && message.contains("accepted is"), "{message}");
    assert!(!message.contains('\n') && message.ends_with('.'), "{message}");
    message
}

fn series(header: &str, months: usize, row: &str) -> String {
    (1..=months).fold(format!("{header}\n"), |text, month| format!("{text}{month},{row}\n"))
}

/// Shipworm is absent from the Stockholm archipelago (Univ. of Gothenburg, 2010) and attacks in the Kattegat from June to
/// October (Appelqvist and others 2015 record it there; the months are reckoned).
#[test]
fn borers_by_area() {
    let none = reckon("borers", &[("area", "Stockholm")]).unwrap();
    assert_eq!(none.answer.results["active_months"]["shipworm"], serde_json::json!([]));
    assert!(none.answer.results["reading"].as_str().unwrap().contains("no proof"));
    let some = reckon("borers", &[("area", "Kattegat")]).unwrap();
    assert_eq!(some.answer.results["active_months"]["shipworm"], serde_json::json!([6, 7, 8, 9, 10]));
    assert_eq!(some.answer.sheets.len(), 1);
    // A salinity measured at the mooring goes before the chart's.
    let river = reckon("borers", &[("area", "Kattegat"), ("salinity-psu", "3")]).unwrap();
    assert_eq!(river.answer.results["months_most"]["shipworm"], 0);
    let sound = reckon("borers", &[("area", "Puget")]).unwrap();
    assert!(sound.answer.results["reading"].as_str().unwrap().contains("Bankia setacea"));
}

#[test]
fn borers_with_protection_and_treatment() {
    let pairs =
        [("area", "Key West"), ("protection", "sheathing-intact"), ("species", "greenheart"), ("fresh-days", "3")];
    let found = reckon("borers", &pairs).unwrap();
    assert_eq!(found.answer.results["share_low"], 0.0);
    assert_eq!(found.answer.results["share_high"], 1.0);
    assert!(found.answer.results["fresh_water"].as_str().unwrap().contains("Too short"));
    assert!(found.answer.results["reasons"].to_string().contains("six-month sea test"));
    assert!(refused("borers", &[("area", "Key West"), ("species", "larchh")], "species").contains("larch"));
}

#[test]
fn borers_by_an_own_series() {
    let good = series("month,temp_c,salinity_psu", 12, "18,35");
    let found = reckon("borers", &[("monthly", &good)]).unwrap();
    assert_eq!(found.answer.results["months_most"]["shipworm"], 12);
    let eleven = series("month,temp_c,salinity_psu", 11, "18,35");
    assert!(refused("borers", &[("monthly", &eleven)], "monthly").contains("11 months, not 12"));
    assert!(refused("borers", &[("area", "Plymoth")], "area").contains("Plymouth"));
    refused("borers", &[], "area");
}

/// By hand for an invented climate: 44.3.
#[test]
fn decay_climate() {
    let topic = find("decay-climate").unwrap();
    let found = topic.reckon(Inputs::read(topic, topic.example.iter().copied()).unwrap()).unwrap();
    assert!((found.answer.results["index"].as_f64().unwrap() - 44.3).abs() < 0.05);
    assert_eq!(found.answer.results["index_to_show"], 45.0);
    assert_eq!(found.answer.results["zone"], "moderate");
    let eleven = series("month,temp_c,rain_days", 11, "10,10");
    assert!(refused("decay-climate", &[("monthly", &eleven)], "monthly").contains("11 months, not 12"));
}
