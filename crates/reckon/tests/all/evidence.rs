//! The topics `evidence` and `history`: that flags and JSON reach the room and its answer comes back under its keys.

use reckon::{Inputs, Reckoned, Refusal, find};
use serde_json::{Value, json};

fn weigh(question: Value) -> Result<Reckoned, Refusal> {
    let topic = find("evidence").expect("a topic");
    topic.reckon(Inputs::read(topic, [("observations", question.to_string().as_str())])?)
}

fn results(question: Value) -> Value {
    json!(weigh(question).expect("a good question").answer.results)
}

#[test]
fn the_loose_plank_by_hand() {
    // By hand, four decimals: 0.0017, 0.0102, 0.9225, 0.0398, 0.0174, 0.0047, 0.0037.
    let prior = json!({"sound": 0.60, "surface_checks": 0.10, "loose": 0.12, "decayed": 0.10, "iron_sick": 0.03,
                       "borer": 0.02, "repaired": 0.03});
    let readings = json!([{"group": "hammer", "reading": "dull_or_hollow"}, {"group": "knife", "reading": "firm"},
                          {"group": "movement", "reading": "moves_under_pry"}]);
    let results = results(json!({"prior": prior, "observations": readings, "plank_only": true}));
    for (state, by_hand) in [("sound", 0.0017), ("loose", 0.9225), ("decayed", 0.0398), ("repaired", 0.0037)] {
        let p = results["states"][state].as_f64().expect("a share");
        assert!((p - by_hand).abs() < 0.5001e-4, "{state} {p}");
    }
    assert_eq!(results["leading"], "loose");
    // The weights under the answer's keys add up to the log-odds.
    let sum: f64 = results["weights"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|w| w["decibans"]["loose"].as_f64().expect("decibans"))
        .sum();
    let odds = |key: &str| results[key]["loose"].as_f64().expect("decibans");
    assert!((odds("prior_db") + sum - odds("posterior_db")).abs() < 1e-9);
    assert!(results["next"].as_array().expect("a list").iter().all(|t| t["information_bits"].as_f64() >= Some(0.0)));
}

#[test]
fn nothing_observed_is_said_and_hearsay_leave_and_overrides_come_through() {
    let reckoned = weigh(json!({"observations": []})).expect("good");
    assert!(reckoned.answer.results["statement"].as_str().expect("words").starts_with("Nothing was observed"));
    assert!(reckoned.answer.sheets.is_empty());
    let reckoned = weigh(json!({
        "observations": [{"group": "knife", "reading": "sliver_breaks_short", "hearsay": true}],
        "context": {"water": "fresh", "age_years": 45},
        "may_open": "marks",
        "overrides": [{"group": "knife", "reading": "sliver_breaks_short", "hypothesis": "sound", "p": 0.1, "source": "invented"}],
        "neighbours": [{"place": "next frame", "observations": [{"group": "bore", "reading": "soft_or_void"}]}],
    }))
    .expect("good");
    let results = &reckoned.answer.results;
    assert_eq!(results["overrides"][0]["p"], 0.1);
    assert_eq!(results["weights"][0]["share"], 0.5);
    assert!(
        results["next"].as_array().expect("a list").iter().all(|t| t["leave"] == "nothing" || t["leave"] == "marks")
    );
    assert!(results["needs_leave"].as_array().is_some_and(|tests| !tests.is_empty()));
    assert!(results["neighbour_multipliers"]["decayed"].as_f64() > Some(1.0));
    assert!(reckoned.answer.cautions.iter().any(|c| c.contains("Hearsay")));
    assert_eq!(reckoned.answer.sheets.len(), 1);
}

#[test]
fn bad_questions_are_refused_with_the_flag_named() {
    for (question, names) in [
        (json!({"observations": [{"group": "hammer", "reading": "rings"}]}), "hammer/dull_or_hollow"),
        (json!({"prior": {"sound": 0.5}, "observations": []}), "add up to 1"),
        (json!({"observations": [], "priors": {}}), "unknown field"),
        (json!([1, 2]), "accepted is"),
    ] {
        let refusal = weigh(question).expect_err("a bad question").to_string();
        assert!(refusal.starts_with("--observations") && refusal.contains(names), "{refusal}");
        assert!(!refusal.contains('\n'), "{refusal}");
    }
}

#[test]
fn the_patterns_of_history_are_those_of_the_data_and_name_reckoners_that_there_are() {
    let topic = find("history").expect("a topic");
    let all = evidence_patterns();
    assert!(!all.is_empty());
    for pattern in all {
        let reckoned = topic.reckon(Inputs::read(topic, [("pattern", pattern.as_str())]).expect("a pattern"));
        let results = reckoned.expect("an answer").answer.results;
        for e in results["explanations"].as_array().expect("a list") {
            let reckoner = e["reckoner"].as_str().expect("words");
            assert!(reckoner.is_empty() || find(reckoner).is_some(), "{pattern}: {reckoner}");
        }
    }
}

fn evidence_patterns() -> Vec<String> {
    let topic = find("history").expect("a topic");
    let reckon::FlagKind::Choice(words) = topic.flags[0].kind else { panic!("a choice") };
    words.iter().map(|word| (*word).to_owned()).collect()
}
