//! What holds of every topic, and how inputs are read.

use proptest::prelude::*;
use reckon::{FlagKind, Inputs, Topic, find, list, table};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

fn example(topic: &'static Topic) -> Inputs {
    Inputs::read(topic, topic.example.iter().copied()).unwrap_or_else(|refusal| panic!("{}: {refusal}", topic.name))
}

#[test]
fn names_are_told_apart_and_found() {
    let names: BTreeSet<_> = table().iter().map(|topic| topic.name).collect();
    assert_eq!(names.len(), table().len());
    for topic in table() {
        assert!(std::ptr::eq(find(topic.name).unwrap(), topic));
        let flags: BTreeSet<_> = topic.flags.iter().map(|flag| flag.name).collect();
        assert_eq!(flags.len(), topic.flags.len(), "{}", topic.name);
    }
    assert!(find("astrology").is_none());
}

#[test]
fn every_topic_answers_its_example_with_declared_figures_sources_and_the_same_again() {
    for topic in table() {
        let reckoned = topic.reckon(example(topic)).unwrap_or_else(|refusal| panic!("{}: {refusal}", topic.name));
        let again = topic.reckon(example(topic)).unwrap();
        assert_eq!(reckoned.to_json(), again.to_json(), "{}", topic.name);
        assert!(!reckoned.answer.sources.is_empty() && !topic.equation.is_empty(), "{} names its source", topic.name);
        for key in reckoned.answer.results.keys() {
            assert!(topic.figures.iter().any(|figure| figure.key == key), "{} declares `{key}`", topic.name);
        }
        for sheet in &reckoned.answer.sheets {
            assert!(
                !sheet.title.is_empty() && !sheet.description.is_empty(),
                "{}: a drawing says what it shows",
                topic.name
            );
        }
        let said = reckoned.to_string();
        assert!(said.starts_with(topic.title) && said.contains("Source:"), "{said}");
        assert!(!said.contains("NaN") && !said.contains("inf "), "{said}");
    }
}

#[test]
fn inputs_come_the_same_by_flags_and_by_json() {
    for topic in table() {
        let mut object = Map::new();
        for (flag, value) in topic.example {
            object.insert(flag.replace('-', "_"), json!(value));
        }
        if topic.flags.iter().any(|flag| matches!(flag.kind, FlagKind::BinaryFile)) {
            continue;
        }
        assert_eq!(Inputs::from_json(topic, &object).unwrap(), example(topic), "{}", topic.name);
    }
}

#[test]
fn what_is_missing_or_unknown_is_named() {
    for topic in table() {
        for flag in topic.flags.iter().filter(|flag| flag.required) {
            let rest = topic.example.iter().copied().filter(|(name, _)| *name != flag.name);
            let refusal = topic.reckon(Inputs::read(topic, rest).unwrap()).unwrap_err().to_string();
            assert!(refusal.contains(&format!("--{}", flag.name)), "{}: {refusal}", topic.name);
        }
        let refusal = Inputs::read(topic, [("no-such-flag", "1")]).unwrap_err().to_string();
        assert!(refusal.contains("no-such-flag") && refusal.contains(topic.name), "{refusal}");
    }
}

#[test]
fn numbers_out_of_range_or_not_numbers_are_refused_with_what_is_accepted() {
    for topic in table() {
        for flag in topic.flags {
            let (FlagKind::Number { greatest, .. } | FlagKind::Length { greatest, .. }) = flag.kind else { continue };
            for bad in ["soon", "NaN", "inf", "", "1e999"] {
                let refusal = Inputs::read(topic, [(flag.name, bad)]).unwrap_err().to_string();
                assert!(refusal.contains(flag.name), "{}: {refusal}", topic.name);
            }
            if greatest < 1e300 {
                let above = format!("{}", greatest * 1.01 + 1.0);
                let refusal = Inputs::read(topic, [(flag.name, above.as_str())]).unwrap_err().to_string();
                assert!(refusal.contains("out of range") && refusal.contains("accepted"), "{}: {refusal}", topic.name);
            }
        }
    }
}

#[test]
fn lengths_are_taken_as_people_write_them() {
    let Some((topic, flag)) = table().into_iter().find_map(|topic| {
        let flag = topic.flags.iter().find(|flag| {
            matches!(flag.kind, FlagKind::Length { unit: "mm", least, greatest } if least <= 25.4 && greatest >= 200.0)
        });
        flag.map(|flag| (topic, flag))
    }) else {
        panic!("some topic takes a length in millimetres");
    };
    let read = |text: &str| Inputs::read(topic, [(flag.name, text)]).unwrap().number(flag.name).unwrap();
    // 1 inch is 25.4 mm exactly (International yard and pound agreement, 1959).
    for text in ["25.4", "25,4", "1\"", "1 in", "2.54 cm", "25.4 mm"] {
        assert!((read(text) - 25.4).abs() < 1e-9, "{text}");
    }
}

#[test]
fn the_list_describes_every_flag_with_its_unit() {
    let Value::Array(topics) = list() else { panic!("a list") };
    for topic in topics {
        for flag in topic["flags"].as_array().unwrap() {
            assert!(!flag["accepts"].as_str().unwrap().is_empty());
            if flag["kind"] == "length" {
                assert!(flag["unit"] == "mm" || flag["unit"] == "m", "{flag}");
                assert!(flag["name"].as_str().unwrap().ends_with(flag["unit"].as_str().unwrap()), "{flag}");
            }
        }
    }
}

proptest! {
    #[test]
    fn no_text_makes_reading_panic(topic in 0..1000usize, flag in 0..1000usize, text in any::<String>()) {
        let table = table();
        let topic = table[topic % table.len()];
        if !topic.flags.is_empty() {
            let flag = &topic.flags[flag % topic.flags.len()];
            let _ = Inputs::read(topic, [(flag.name, text.as_str())]);
        }
    }
}
