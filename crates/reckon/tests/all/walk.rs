//! The topics of the room `walk`.

use reckon::{Inputs, find};

fn reckon(text: &str) -> Result<reckon::Reckoned, reckon::Refusal> {
    let topic = find("mend").expect("a topic");
    topic.reckon(Inputs::read(topic, [("text", text)])?)
}

/// The contract's keys: time_s, heard, meant, confidence.
#[test]
fn corrections_carry_time_heard_meant_and_confidence() {
    let found = reckon("WEBVTT\n\n00:10.000 --> 00:14.000\nport side gar board is soft by frame nine\n").unwrap();
    let list = found.answer.results["corrections"].as_array().unwrap();
    assert_eq!(list.len(), 1, "{list:?}");
    let keys: Vec<&str> = list[0].as_object().unwrap().keys().map(String::as_str).collect();
    assert_eq!(keys, ["time_s", "heard", "meant", "confidence"]);
    assert_eq!((list[0]["heard"].as_str(), list[0]["meant"].as_str()), (Some("gar board"), Some("garboard")));
    let time_s = list[0]["time_s"].as_f64().unwrap();
    assert!(time_s > 10.0 && time_s < 12.0, "{time_s}");
}

#[test]
fn text_without_times_and_bad_json_are_refused_in_one_line() {
    for text in ["port side garboard", "[{\"word\": 3}]", ""] {
        let refusal = reckon(text).unwrap_err().to_string();
        assert!(
            refusal.starts_with("--text") && refusal.contains("accepted is WebVTT") && !refusal.contains('\n'),
            "{refusal}"
        );
    }
}

#[test]
fn oddities_of_the_text_are_cautions() {
    let found = reckon("WEBVTT\n\n00:05.000 --> 00:04.000\nrings\n").unwrap();
    assert!(
        found.answer.cautions.iter().any(|caution| caution.contains("before it starts")),
        "{:?}",
        found.answer.cautions
    );
}
