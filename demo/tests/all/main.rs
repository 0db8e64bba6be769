//! Marram's field book, held to what a careful surveyor's would be.

use serde_json::Value;
use std::collections::BTreeSet;
use survey::payload::{Finding, KINDS, Payload, Recommendation};
use survey::{Method, State, check_chains};

fn state() -> State {
    let demo = demo::marram().expect("the field book is in order");
    State::fold(demo.survey, demo.entries)
}

#[test]
fn it_is_the_same_every_time_and_its_chains_hold() {
    let (one, two) = (demo::marram().unwrap(), demo::marram().unwrap());
    assert_eq!(one.entries, two.entries);
    assert!(one.entries.len() >= 120, "{} entries", one.entries.len());
    assert_eq!(check_chains(&one.entries), vec![]);
    let devices: BTreeSet<_> = one.entries.iter().map(|entry| entry.device.as_str()).collect();
    assert_eq!(devices.len(), 2);
}

#[test]
fn every_kind_of_entry_and_every_method_occurs() {
    let state = state();
    let kinds: BTreeSet<_> = state.entries().iter().map(|entry| entry.kind().to_owned()).collect();
    for kind in KINDS {
        assert!(kinds.contains(*kind), "there is a {kind}");
    }
    let methods: BTreeSet<_> = state.observations().map(|o| o.payload.reading.method()).collect();
    for method in Method::ALL {
        assert!(methods.contains(&method), "something was found out by: {method}");
    }
    assert!(state.unread().is_empty() && state.waiting().count() == 0 && state.clashes().count() == 0);
}

#[test]
fn there_is_one_dispute_one_withdrawal_and_one_change_of_mind() {
    let state = state();
    assert_eq!(state.disputed().count(), 1);
    assert_eq!(state.records().iter().filter(|record| record.is_withdrawn()).count(), 1);
    let changed = |record: &&survey::Record| record.amendments().len() == 1 && !record.is_withdrawn();
    assert!(state.records().iter().any(changed));
}

#[test]
fn every_recommendation_has_a_finding_and_every_serious_finding_a_recommendation_and_a_basis() {
    let state = state();
    let answered: BTreeSet<_> = state.recommendations().flat_map(|r| r.payload.findings.clone()).collect();
    for view in state.all::<Recommendation>() {
        assert!(!view.payload.findings.is_empty(), "{}", view.payload.title);
    }
    for view in state.all::<Finding>() {
        assert!(!view.payload.basis.is_empty(), "{} rests on something", view.payload.title);
        assert!(!view.payload.serious || answered.contains(&view.id()), "{} is answered", view.payload.title);
    }
}

#[test]
fn every_attachment_is_there_and_says_what_it_shows() {
    let demo = demo::marram().unwrap();
    let state = State::fold(demo.survey, demo.entries);
    for attachment in state.attachments() {
        let kept = demo.attachments.iter().find(|kept| kept.digest == attachment.payload.sha256);
        assert_eq!(kept.map(|kept| kept.bytes.len() as u64), Some(attachment.payload.bytes));
        assert!(!attachment.payload.alternative.is_empty());
        assert!(attachment.payload.caption.contains("invented"));
    }
}

#[test]
fn nothing_promises_what_no_survey_can() {
    for word in ["guarantee", "perfect", "completely sound", "no rot", "free of decay", "as new throughout"] {
        assert!(!demo::ENTRIES.to_lowercase().contains(word), "`{word}` is not said");
    }
    assert!(state().brief().unwrap().payload.invented.is_some());
}

#[test]
fn every_reckoning_is_what_the_reckoner_answers() {
    let state = state();
    let mut reckoned = 0;
    for view in state.reckonings() {
        let kept = view.payload;
        let topic = reckon::find(&kept.topic).unwrap_or_else(|| panic!("{} is a topic", kept.topic));
        let inputs = reckon::Inputs::from_json(topic, kept.inputs.as_object().unwrap()).unwrap();
        let again = topic.reckon(inputs).unwrap().to_json();
        assert_eq!(kept.version, topic.version, "{}", kept.topic);
        assert!(
            alike(&again["results"], &kept.results),
            "{}: {} against {}",
            kept.topic,
            again["results"],
            kept.results
        );
        assert_eq!(again["cautions"], serde_json::json!(kept.cautions), "{}", kept.topic);
        reckoned += 1;
    }
    assert!(reckoned >= 5, "{reckoned} reckonings");
}

/// Tells whether two values are the same, figures to twelve digits: reading a decimal may cost the last bit.
fn alike(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap_or(f64::NAN), b.as_f64().unwrap_or(f64::NAN));
            (a - b).abs() <= 1e-12 * a.abs().max(b.abs())
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| alike(a, b)),
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, a)| b.get(key).is_some_and(|b| alike(a, b)))
        }
        (a, b) => a == b,
    }
}

#[test]
fn a_line_that_cannot_be_entered_is_named_with_the_reason() {
    let good = demo::ENTRIES.lines().next().unwrap();
    let twice = format!("{good}\n{good}\n");
    assert!(demo::written_from(&twice).unwrap_err().to_string().starts_with("line 2"));
    let wrong = good.replace("\"purpose\"", "\"porpoise\"");
    assert!(demo::written_from(&wrong).unwrap_err().to_string().contains("porpoise"));
}

#[test]
fn a_payload_of_every_kind_reads_back_from_its_json() {
    for entry in state().entries() {
        let value = serde_json::from_str(&entry.payload_json()).unwrap();
        assert_eq!(Payload::read_strict(entry.kind(), &value).unwrap(), entry.payload);
    }
}
