//! Words that name waters. Which sea a place lies in: common geography.

use proptest::prelude::*;
use waters::areas::{find, table};
use waters::named::named;

fn names(words: &str) -> Vec<&'static str> {
    named(words).areas.iter().map(|area| area.name).collect()
}

#[test]
fn areas_are_found_in_the_order_in_which_they_are_said() {
    assert_eq!(
        names("From Plymouth to the Solent, later Brest."),
        ["Plymouth", "Solent / Southampton approaches", "Brest"]
    );
    assert_eq!(names("Öresund and KATTEGAT"), ["Oeresund (Copenhagen-Malmoe)", "Kattegat (Gothenburg)"]);
    assert_eq!(names("off Malmö"), ["Oeresund (Copenhagen-Malmoe)"]);
    assert_eq!(names("the Thames Estuary and the Firth of Forth"), ["Thames Estuary outer", "Firth of Forth"]);
    assert_eq!(names("Puget Sound"), ["Strait of Juan de Fuca / Puget Sound approach"]);
}

#[test]
fn a_sea_named_as_a_whole_gives_its_areas_and_none_in_particular() {
    let western = named("the western Baltic in summer");
    assert!(western.areas.is_empty());
    assert!(western.of_region.len() > 5 && western.of_region.iter().all(|area| area.region == "Baltic"));
    let part = named("the Baltic, kept in the Kiel Bight");
    assert_eq!(part.areas.iter().map(|a| a.name).collect::<Vec<_>>(), ["Kiel Bight"]);
    assert!(part.of_region.is_empty(), "the part named goes before the whole");
}

#[test]
fn part_of_a_word_or_a_name_of_two_coasts_names_nothing() {
    for words in ["brestow", "Portland", "Boston", "her home mooring", "", "Bergenhus"] {
        assert!(names(words).is_empty(), "{words}: {:?}", names(words));
    }
}

#[test]
fn fresh_water_is_heard() {
    assert!(named("Lake Ostrel: fresh water, moored afloat").fresh);
    assert!(named("French canals").fresh);
    assert!(!named("Solent").fresh);
}

#[test]
fn every_area_is_named_by_its_own_full_name() {
    for area in table() {
        let found = names(area.name);
        assert!(found.contains(&area.name), "{}: {found:?}", area.name);
        assert!(find(area.name).is_ok());
    }
}

proptest! {
    #[test]
    fn no_words_are_too_odd(words in ".{0,300}") {
        let _ = named(&words);
    }
}
