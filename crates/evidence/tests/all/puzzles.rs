//! The puzzles of history are complete and marked.

use evidence::puzzles::{about, all};
use std::collections::BTreeMap;

#[test]
fn every_pattern_has_rival_explanations_with_signs_for_and_against() {
    let mut patterns: BTreeMap<String, usize> = BTreeMap::new();
    for e in all().expect("the data file") {
        for (what, text) in
            [("for", &e.signs_for), ("against", &e.signs_against), ("next", &e.look_next), ("if so", &e.if_so)]
        {
            assert!(!text.trim().is_empty(), "{}: {} lacks {what}", e.pattern, e.explanation);
        }
        assert!(e.source.contains("common practice") || e.source.contains("TB 55"), "{}", e.source);
        *patterns.entry(e.pattern).or_default() += 1;
    }
    assert_eq!(patterns.len(), 8, "{patterns:?}");
    assert!(patterns.values().all(|n| *n >= 3), "{patterns:?}");
}

#[test]
fn larger_bungs_lead_to_the_reckoner_of_sprung_planks() {
    let rivals = about("larger bungs").expect("the data file");
    assert!(rivals.iter().any(|e| e.reckoner == "spring"));
    assert!(about("transom").expect("the data file").iter().any(|e| e.signs_for.contains("plank ends show")));
    assert!(about("a green parrot").expect("the data file").is_empty());
}
