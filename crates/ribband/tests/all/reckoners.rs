//! The table of reckoners on the command line, as the contract with scripts has it.

use crate::book::Book;
use serde_json::Value;

/// Reads base64 (RFC 4648, section 4), in which an example holds the bytes of a file.
fn from_base64(text: &str) -> Vec<u8> {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let (mut bits, mut held, mut out) = (0u32, 0, Vec::new());
    for value in text.bytes().filter_map(|byte| LETTERS.iter().position(|letter| *letter == byte)) {
        bits = (bits << 6) | u32::try_from(value).expect("six bits");
        held += 6;
        if held >= 8 {
            held -= 8;
            out.push(u8::try_from((bits >> held) & 0xff).expect("eight bits"));
        }
    }
    out
}

#[test]
fn every_topic_answers_its_own_example_with_the_keys_it_declares() {
    let book = Book::new();
    let list = book.json(&["reckon", "--list"]);
    let topics = list.as_array().unwrap();
    assert!(topics.len() >= 8, "{} topics", topics.len());
    for topic in topics {
        let name = topic["topic"].as_str().unwrap();
        let mut words = vec!["reckon".to_owned(), name.to_owned()];
        for (flag, value) in topic["example"].as_object().unwrap() {
            let about = topic["flags"].as_array().unwrap().iter().find(|f| f["name"] == flag.as_str()).unwrap();
            let mut value = value.as_str().unwrap().to_owned();
            if about["kind"] == "text_file" {
                value = book.file(&format!("{name}-{flag}"), value.as_bytes()).to_str().unwrap().to_owned();
            }
            if about["kind"] == "binary_file" {
                value = book.file(&format!("{name}-{flag}"), &from_base64(&value)).to_str().unwrap().to_owned();
            }
            words.extend([format!("--{flag}"), value]);
        }
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let answer = book.json(&words);
        for key in ["topic", "inputs", "results", "sources", "cautions"] {
            assert!(answer.get(key).is_some(), "{name} gives `{key}`");
        }
        assert!(!answer["sources"].as_array().unwrap().is_empty(), "{name} names a source");
        let declared: Vec<&str> =
            topic["results"].as_array().unwrap().iter().map(|f| f["key"].as_str().unwrap()).collect();
        for key in answer["results"].as_object().unwrap().keys() {
            assert!(declared.contains(&key.as_str()), "{name} declares `{key}`");
        }
        let said = book.good(&words);
        assert!(said.contains("Source:"), "{name}: {said}");
        let help = book.good(&["reckon", name, "--help"]);
        assert!(help.contains("Example:"), "{help}");
    }
}

#[test]
fn a_reckoning_answers_with_figures_in_the_units_of_their_names() {
    let book = Book::new();
    let answer: Value = book.json(&["reckon", "emc", "--temp-c", "20", "--rh-percent", "65"]);
    assert_eq!(answer["inputs"]["rh_percent"], 65.0);
    // Wood Handbook (FPL-GTR-282, 2021), table 4-2: 21.1 °C and 65 % give 12.0 %.
    let emc = answer["results"]["emc_percent"].as_f64().unwrap();
    assert!((11.7..12.3).contains(&emc), "{emc}");
}

#[test]
fn bad_input_is_refused_in_one_line_that_names_flag_value_and_what_is_accepted() {
    let book = Book::new();
    for (words, needles) in [
        (vec!["reckon", "emc", "--temp-c", "20", "--rh-percent", "165"], vec!["--rh-percent", "165", "100"]),
        (vec!["reckon", "emc", "--temp-c", "warm", "--rh-percent", "65"], vec!["--temp-c", "warm", "a number"]),
        (vec!["reckon", "emc", "--temp-c", "20"], vec!["--rh-percent", "missing"]),
        (vec!["reckon", "emc", "--humidity", "20"], vec!["--humidity", "--rh-percent"]),
        (vec!["reckon", "emc", "--temp-c"], vec!["--temp-c", "no value"]),
        (vec!["reckon", "astrology"], vec!["astrology", "emc"]),
        (vec!["reckon", "emc", "20"], vec!["`20` is not a flag"]),
    ] {
        let said = book.refused(&words);
        for needle in needles {
            assert!(said.contains(needle), "{words:?}: `{needle}` in {said}");
        }
    }
}
