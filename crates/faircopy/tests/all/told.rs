//! What was told, and what was seen on another day.

use crate::book::Book;
use faircopy::{Extras, Kind, compose};
use serde_json::json;

#[test]
fn her_history_is_printed_from_free_lines_and_from_accounts_each_with_its_speaker_and_time() {
    let mut book = Book::new();
    book.write(
        "vessel",
        json!({"name": "Invented Tern", "history": ["the owner: laid up for years", "1954: built"],
            "accounts": [{"who": "a yard's bill", "when": "about 1971", "said": "garboards renewed"}]}),
    );
    let document = compose(&book.state(), &Extras::default());
    let told: Vec<(&str, &str)> = document.history.iter().map(|said| (said.by.as_str(), said.words.as_str())).collect();
    assert_eq!(
        told,
        [("The owner", "laid up for years"), ("", "1954: built"), ("A yard's bill", "About 1971: garboards renewed")]
    );
    assert!(document.history.iter().all(|said| said.kind == Kind::Hearsay));
}

#[test]
fn an_observation_of_another_day_says_on_which_day_it_was_seen() {
    let mut book = Book::new();
    book.write("vessel", json!({"name": "Invented Tern"}));
    let rings = json!({"method": "sound", "answer": "rings"});
    book.write("observation", json!({"member": "stem", "reading": rings, "note": "dry"}));
    book.write("observation", json!({"member": "stem", "reading": rings, "seen_on": "2026-05-30"}));
    let document = compose(&book.state(), &Extras::default());
    let words: Vec<&str> = document.observations.iter().map(|o| o.said.words.as_str()).collect();
    assert_eq!(words, ["Rang under the hammer. Dry.", "Rang under the hammer. Seen on 30 May 2026."]);
}
