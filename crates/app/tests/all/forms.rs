//! Forms: what they show can be read back without a change, and what is typed becomes what the record accepts.

use app::form::{FINDING, OBSERVATION, Typed, VESSEL, fields_of, fill, read};
use measure::System;
use proptest::prelude::*;
use serde_json::{Value, json};
use survey::payload::Payload;

fn typed(pairs: &[(&str, &str)]) -> Typed {
    pairs.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect()
}

#[test]
fn whatever_the_invented_boat_holds_can_be_amended_without_changing_it() {
    let marram = demo::marram().unwrap();
    let mut tried = 0;
    for entry in &marram.entries {
        let fields = fields_of(entry.kind());
        if fields.is_empty() {
            continue;
        }
        let original: Value = serde_json::from_str(&entry.payload_json()).unwrap();
        for system in [System::Metric, System::Customary] {
            let filled = fill(fields, &original, system);
            let again = read(fields, &filled, &filled, &original)
                .unwrap_or_else(|faults| panic!("{} {}: {faults:?}", entry.kind(), entry.id));
            let payload = Payload::read_strict(entry.kind(), &again)
                .unwrap_or_else(|fault| panic!("{} {}: {fault}", entry.kind(), entry.id));
            let without = |value: &Value| {
                // A measure read in its own words gains them; nothing else may differ.
                let mut value = value.clone();
                if let Some(reading) = value.get_mut("reading").and_then(Value::as_object_mut) {
                    reading.shift_remove("as_written");
                }
                Payload::read_strict(entry.kind(), &value).unwrap()
            };
            let said: Value = serde_json::from_str(&payload.to_json()).unwrap();
            assert_eq!(without(&said), without(&original), "{} {}", entry.kind(), entry.id);
        }
        tried += 1;
    }
    assert!(tried > 100, "only {tried} entries were tried");
}

#[test]
fn a_probe_at_a_place_becomes_an_observation() {
    let typed = typed(&[
        ("member", "garboard"),
        ("place.side", "port"),
        ("place.frame_from", "11"),
        ("reading.method", "probe"),
        ("reading.knife", "firm"),
        ("reading.depth_mm", "1/8\""),
        ("reading.moves_under_pry", "yes"),
        // Typed while another method was chosen, and not asked any more.
        ("reading.answer", "rings"),
    ]);
    let value = read(OBSERVATION, &typed, &Typed::new(), &json!({})).unwrap();
    assert_eq!(
        value,
        json!({"member": "garboard", "place": {"side": "port", "frame_from": 11},
            "reading": {"method": "probe", "knife": "firm", "depth_mm": 3.175, "moves_under_pry": true}})
    );
    Payload::read_strict("observation", &value).unwrap();
}

#[test]
fn a_measured_value_keeps_the_words_it_was_read_in() {
    let typed = typed(&[
        ("member", "seam"),
        ("reading.method", "measure"),
        ("reading.quantity", "seam gap"),
        ("reading.as_written", "5/64\""),
    ]);
    let value = read(OBSERVATION, &typed, &Typed::new(), &json!({})).unwrap();
    // 25.4 mm to the inch exactly: NIST SP 811 (2008), B.8.
    assert!((value["reading"]["value"].as_f64().unwrap() - 5.0 / 64.0 * 25.4).abs() < 1e-12);
    assert_eq!(value["reading"]["unit"], "mm");
    assert_eq!(value["reading"]["as_written"], "5/64\"");
}

#[test]
fn what_is_wrong_is_said_of_each_field_with_what_is_accepted() {
    let typed = typed(&[
        ("name", ""),
        ("length_mm", "rather long"),
        ("built_year", "about 1950"),
        ("displacement_kg", "8 tons"),
    ]);
    let faults = read(VESSEL, &typed, &Typed::new(), &json!({})).unwrap_err();
    let said: Vec<(&str, &str)> = faults.iter().map(|fault| (fault.key.as_str(), fault.why.as_str())).collect();
    assert_eq!(said[0], ("name", "Name is missing."));
    assert!(said.iter().any(|(key, why)| *key == "length_mm" && why.contains("write it like 32 mm")), "{said:?}");
    assert!(said.iter().any(|(key, why)| *key == "built_year" && why.contains("whole number")), "{said:?}");
    assert!(said.iter().any(|(key, why)| *key == "displacement_kg" && why.contains("not a mass")), "{said:?}");
}

#[test]
fn rows_become_a_list_and_empty_rows_are_left_out() {
    let typed = typed(&[
        ("member", "topside-plank"),
        ("title", "Loose"),
        ("condition", "work_needed"),
        ("text", "It moves."),
        ("places.0.side", "port"),
        ("places.0.strake", "6"),
        ("places.3.side", ""),
        ("places.4.side", "starboard"),
        ("alternatives.0.what", "decay"),
        ("alternatives.0.against", "firm under the knife"),
    ]);
    let value = read(FINDING, &typed, &Typed::new(), &json!({})).unwrap();
    assert_eq!(value["places"], json!([{"side": "port", "strake": 6}, {"side": "starboard"}]));
    assert_eq!(value["alternatives"], json!([{"what": "decay", "against": "firm under the knife"}]));
    Payload::read_strict("finding", &value).unwrap();
}

#[test]
fn what_a_form_does_not_show_stays_as_it_is() {
    let original = json!({"name": "Wren", "counts": {"floor": 12, "strakes": 14}});
    let filled = fill(VESSEL, &original, System::Metric);
    let mut changed = filled.clone();
    changed.insert("counts.strakes".to_owned(), "15".to_owned());
    let value = read(VESSEL, &changed, &filled, &original).unwrap();
    assert_eq!(value, json!({"name": "Wren", "counts": {"floor": 12, "strakes": 15}}));
}

proptest! {
    #[test]
    fn a_length_shown_in_either_system_and_left_alone_keeps_every_digit(mm in 0.01_f64..50_000.0) {
        let original = json!({"name": "Wren", "length_mm": mm});
        for system in [System::Metric, System::Customary] {
            let filled = fill(VESSEL, &original, system);
            let value = read(VESSEL, &filled, &filled, &original).unwrap();
            prop_assert_eq!(value["length_mm"].as_f64().unwrap().to_bits(), mm.to_bits());
        }
    }

    #[test]
    fn no_text_makes_a_form_panic(text in "\\PC{0,40}", key in 0_usize..20) {
        for kind in ["vessel", "observation", "finding", "estimate_line", "conditions"] {
            let fields = fields_of(kind);
            let mut typed = Typed::new();
            typed.insert("reading.method".to_owned(), "measure".to_owned());
            typed.insert(fields[key % fields.len()].key.to_owned(), text.clone());
            let _ = read(fields, &typed, &Typed::new(), &json!({}));
            let _ = app::form::understood(&text, System::Customary);
        }
    }
}

#[test]
fn what_was_measured_of_her_shape_without_lines_is_asked_in_the_units_of_the_yard() {
    let typed = typed(&[
        ("first_frame_mm", "12\""),
        ("freeboards_mm", "1.35 m; 2'-9\"; 1020"),
        ("girths_mm", "3.2 m; 2.05 m\n\n6 m; 2.3 m"),
    ]);
    let fields = fields_of("hull_form");
    let value = read(fields, &typed, &Typed::new(), &json!({})).unwrap();
    // 304.8 mm to the foot exactly: NIST SP 811 (2008), B.8.
    assert_eq!(
        value,
        json!({"first_frame_mm": 304.8, "freeboards_mm": [1350.0, 838.2, 1020.0],
            "girths_mm": [[3200.0, 2050.0], [6000.0, 2300.0]]})
    );
    Payload::read_strict("hull_form", &value).unwrap();
    let shown = fill(fields, &value, System::Metric);
    assert_eq!(read(fields, &shown, &Typed::new(), &json!({})).unwrap(), value);
    let typed = self::typed(&[("freeboards_mm", "1.35 m; 0.8 m")]);
    let faults = read(fields, &typed, &Typed::new(), &json!({})).unwrap_err();
    assert!(faults[0].why.contains("not 3 lengths"), "{faults:?}");
}

#[test]
fn rival_ways_and_accounts_are_rows_of_their_entries() {
    let typed = typed(&[
        ("title", "Garboard"),
        ("action", "Refasten."),
        ("urgency", "soon"),
        ("ways.0.kind", "leave_and_watch"),
        ("ways.0.risks", "It weeps more."),
        ("ways.1.kind", "repair_in_place"),
        ("ways.1.advised", "yes"),
    ]);
    let value = read(fields_of("recommendation"), &typed, &Typed::new(), &json!({})).unwrap();
    assert_eq!(value["ways"][0]["risks"], "It weeps more.");
    assert_eq!(value["ways"][1]["advised"], true);
    let typed =
        self::typed(&[("name", "Example"), ("accounts.0.who", "the owner"), ("accounts.0.said", "Refastened.")]);
    let value = read(VESSEL, &typed, &Typed::new(), &json!({})).unwrap();
    assert_eq!(value["accounts"], json!([{"who": "the owner", "said": "Refastened."}]));
    Payload::read_strict("vessel", &value).unwrap();
    let typed = self::typed(&[
        ("member", "keel"),
        ("reading.method", "sight"),
        ("note", "As last year."),
        ("seen_on", "2026-05-30"),
    ]);
    let value = read(OBSERVATION, &typed, &Typed::new(), &json!({})).unwrap();
    assert_eq!(value["seen_on"], "2026-05-30");
    Payload::read_strict("observation", &value).unwrap();
}
