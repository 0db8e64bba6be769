//! Every reckoning in the field book is what the reckoner answers.

use crate::state;
use serde_json::Value;

/// Compares JSON: figures to a part in 10⁹ (processors may round the last digit otherwise), all else as it is.
fn same(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(x), Value::Number(y)) => match (x.as_f64(), y.as_f64()) {
            (Some(x), Some(y)) => (x - y).abs() <= 1e-9 * x.abs().max(y.abs()),
            _ => x == y,
        },
        (Value::Array(x), Value::Array(y)) => x.len() == y.len() && x.iter().zip(y).all(|(a, b)| same(a, b)),
        (Value::Object(x), Value::Object(y)) => {
            x.len() == y.len() && x.iter().all(|(key, a)| y.get(key).is_some_and(|b| same(a, b)))
        }
        _ => a == b,
    }
}

#[test]
fn each_is_what_the_reckoner_answers_now() {
    let state = state();
    for kept in state.reckonings() {
        let kept = kept.payload;
        let topic = reckon::find(&kept.topic).unwrap_or_else(|| panic!("no reckoner {}", kept.topic));
        let inputs = kept.inputs.as_object().expect("an object");
        let inputs = reckon::Inputs::from_json(topic, inputs).expect("good inputs");
        let now = topic.reckon(inputs).expect("an answer").to_json();
        assert_eq!(kept.version, topic.version, "{}", kept.topic);
        for (key, was) in [("inputs", &kept.inputs), ("results", &kept.results)] {
            assert!(same(was, &now[key]), "{} {key}:\n{was}\n{}", kept.topic, now[key]);
        }
        assert_eq!(now["equation"], kept.equation.as_str());
        assert_eq!(now["sources"], serde_json::json!(kept.sources), "{}", kept.topic);
        assert_eq!(now["cautions"], serde_json::json!(kept.cautions), "{}", kept.topic);
        assert!(!kept.note.is_empty() && kept.member.is_some(), "{}", kept.topic);
    }
}

#[test]
fn what_the_findings_say_in_figures_is_what_was_reckoned() {
    let state = state();
    let figure = |topic: &str, key: &str, nth: usize| {
        let of_topic: Vec<_> = state.reckonings().filter(|r| r.payload.topic == topic).collect();
        of_topic[nth].payload.results[key].as_f64().unwrap_or_else(|| panic!("{topic} {key}"))
    };
    let near = |a: f64, b: f64, within: f64| assert!((a - b).abs() <= within, "{a} against {b}");
    near(figure("bolt", "residual_area_percent", 0), 52.0, 0.5); // "52 % of its area"
    near(figure("emc", "emc_percent", 0), 17.0, 0.5); // "near 17 %" unheated
    near(figure("emc", "emc_percent", 1), 7.5, 0.05); // "about 7.5 %" heated
    near(figure("drying", "mean_mc_percent", 0), 10.0, 0.5); // "near 10 % by March"
    near(figure("movement", "change_mm", 0), -8.0, 0.5); // "about 8 mm narrower"
    near(figure("movement", "low_mm", 0), -13.0, 0.5); // "a band from 5 to 13 mm"
    near(figure("movement", "high_mm", 0), -5.0, 0.5);
    near(figure("movement", "change_mm", 1), -5.0, 0.5); // "about 5 mm"
    near(figure("boxed-heart", "low_mm", 0), 4.0, 0.5); // "4 to 11 mm together"
    near(figure("boxed-heart", "high_mm", 0), 11.0, 0.5);
}
