//! Reading strictly, held against the general-purpose libraries that note the same: `serde_path_to_error` (where a value
//! does not fit) and `serde_ignored` (what nobody asked for).

use proptest::prelude::*;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value, json};
use survey::payload::{
    Amendment, Brief, Finding, HullForm, Observation, Payload, PayloadFault, Recommendation, ReportIssued, Vessel,
};

/// Holds one reading against the two libraries' reading of the same.
fn held_against<T: DeserializeOwned>(kind: &str, value: &Value) {
    let mut unknown = None;
    let mut ignored = |path: serde_ignored::Path<'_>| {
        unknown.get_or_insert_with(|| path.to_string());
    };
    let theirs = serde_path_to_error::deserialize::<_, T>(serde_ignored::Deserializer::new(value, &mut ignored));
    let ours = Payload::read_strict(kind, value);
    match (theirs, unknown) {
        (Err(fault), _) => {
            let Err(PayloadFault::Shape { why, .. }) = ours else { panic!("{kind} {value}: {ours:?}, not {fault}") };
            let path = fault.path().to_string();
            assert!(path == "." || why.contains(&path), "{kind} {value}: {why:?} at {path}: {fault}");
        }
        (Ok(_), Some(path)) => {
            let Err(PayloadFault::UnknownField { field, .. }) = &ours else {
                panic!("{kind} {value}: {ours:?}, not {path}")
            };
            assert_eq!(*field, path.chars().filter(|c| !c.is_control()).take(60).collect::<String>(), "{kind} {value}");
        }
        (Ok(_), None) => {
            assert!(matches!(ours, Ok(_) | Err(PayloadFault::Value { .. })), "{kind} {value}: {ours:?}");
        }
    }
}

/// A kind, how its reading is held against the libraries', and a payload that fits.
type Held = (&'static str, fn(&str, &Value), Value);

fn whole() -> Vec<Held> {
    vec![
        (
            "brief",
            held_against::<Brief>,
            json!({"purpose": "pre-purchase", "client": "A", "addressees": ["B"], "value_asked": true}),
        ),
        (
            "vessel",
            held_against::<Vessel>,
            json!({"name": "Test", "construction": "carvel", "length_mm": 12400.0, "built_year": 1936, "counts": {"strakes": 12}, "accounts": [{"who": "the owner", "said": "so"}]}),
        ),
        ("hull_form", held_against::<HullForm>, json!({"strakes": 12, "frames": 30, "frame_spacing_mm": 300})),
        (
            "observation",
            held_against::<Observation>,
            json!({"member": "garboard", "place": {"side": "port", "strake": 1, "frame_from": 4}, "reading": {"method": "sound", "answer": "rings", "blows": 3}, "note": "x", "seen_on": "2026-06-03"}),
        ),
        (
            "finding",
            held_against::<Finding>,
            json!({"title": "Soft", "member": "garboard", "condition": "work_needed", "text": "It is.", "alternatives": [{"what": "w", "against": "a"}], "places": [{"strake": 2}]}),
        ),
        (
            "recommendation",
            held_against::<Recommendation>,
            json!({"title": "Renew", "text": "It.", "urgency": "before_launch", "findings": []}),
        ),
        (
            "amendment",
            held_against::<Amendment>,
            json!({"amends": "01890000-0000-7000-8000-000000000001", "why": "so", "payload": {"any": [1, null, {"thing": true}]}}),
        ),
        (
            "report_issued",
            held_against::<ReportIssued>,
            json!({"version": 1, "date": "2026-06-04", "sha256": "00", "issue": {"against": [{"rule": "r", "reason": "x"}]}}),
        ),
    ]
}

#[test]
fn what_fits_is_read_and_what_does_not_is_named() {
    for (kind, held, value) in whole() {
        held(kind, &value);
    }
    // The same in words, so that the comparison itself cannot be empty.
    let wrong =
        json!({"member": "garboard", "place": {"strake": "four"}, "reading": {"method": "sound", "answer": "rings"}});
    let why = Payload::read_strict("observation", &wrong).expect_err("a strake is a number").to_string();
    assert!(why.contains("`place.strake` is \"four\""), "{why}");
    let unknown =
        json!({"title": "S", "member": "garboard", "condition": "sound", "text": "t", "places": [{}, {"strke": 2}]});
    let why = Payload::read_strict("finding", &unknown).expect_err("nobody asked for it").to_string();
    assert!(why.contains("places.1.strke"), "{why}");
}

fn anything() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        (-1e9_f64..1e9).prop_map(Value::from),
        prop_oneof![
            Just("port"),
            Just("sound"),
            Just("2026-06-03"),
            Just("carvel"),
            Just(""),
            Just("x"),
            Just("01890000-0000-7000-8000-000000000001")
        ]
        .prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 12, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::vec(
                (prop_oneof![Just("strake"), Just("side"), Just("who"), Just("method"), Just("zzz")], inner),
                0..4
            )
            .prop_map(|fields| fields
                .into_iter()
                .map(|(name, value)| (name.to_owned(), value))
                .collect::<Map<_, _>>()
                .into()),
        ]
    })
}

/// Puts a value somewhere into another, by chance.
fn put(into: &mut Value, chance: &mut impl Iterator<Item = usize>, value: Value) {
    let step = chance.next().unwrap_or(0);
    match into {
        Value::Object(fields) if !step.is_multiple_of(5) && !fields.is_empty() => {
            let name = fields.keys().nth(step % fields.len()).cloned().unwrap_or_default();
            put(&mut fields[&name], chance, value);
        }
        Value::Array(items) if !step.is_multiple_of(5) && !items.is_empty() => {
            let index = step % items.len();
            put(&mut items[index], chance, value);
        }
        Value::Object(fields) if step.is_multiple_of(2) => {
            fields.insert(["unasked", "strake", "note", "of"][step % 4].to_owned(), value);
        }
        Value::Object(fields) => {
            let name = fields.keys().nth(step % fields.len().max(1)).cloned();
            name.and_then(|name| fields.remove(&name));
        }
        other => *other = value,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// Whatever is put wherever, the same is taken, and the same is named where something is not.
    #[test]
    fn spoilt_payloads(steps in prop::collection::vec(any::<usize>(), 12), spoil in prop::collection::vec(anything(), 1..4)) {
        for (kind, held, mut value) in whole() {
            let mut chance = steps.iter().copied().cycle();
            for one in &spoil {
                put(&mut value, &mut chance, one.clone());
            }
            held(kind, &value);
        }
    }
}
