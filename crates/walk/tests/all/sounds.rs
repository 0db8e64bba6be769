//! How words sound. Pronunciations are checked against the CMU Pronouncing Dictionary (Carnegie Mellon University, 0.7b),
//! entries written out here; what it costs to hear one for another is our own judgement, of which only laws are checked.

use proptest::prelude::*;
use walk::phones::{Band, band, by_spelling, distance, from_arpabet, of_word};

/// CMU Pronouncing Dictionary 0.7b: GARBAGE, PLANK, RIGHT, STREAK, KNEE, CHURCH.
#[test]
fn listed_words_sound_as_the_dictionary_has_them() {
    for (word, arpabet) in [
        ("garbage", "G AA R B IH JH"),
        ("plank", "P L AE NG K"),
        ("right", "R AY T"),
        ("streak", "S T R IY K"),
        ("knee", "N IY"),
        ("church", "CH ER CH"),
        // by ending, from PLANK, SPLIT, CRACK and CHURCH
        ("planks", "P L AE NG K S"),
        ("splits", "S P L IH T S"),
        ("cracked", "K R AE K T"),
        ("churches", "CH ER CH IH Z"),
    ] {
        assert_eq!(of_word(word), from_arpabet(arpabet), "{word}");
    }
}

/// SCOWL: `the` is in size 10, `keel` in size 35, `garboard` in none of the three.
#[test]
fn bands_of_commonness() {
    assert_eq!(band("the"), Band::Everyday);
    assert_eq!(band("keel"), Band::Known);
    assert_eq!(band("garboard"), Band::Unlisted);
    assert_eq!(band("keels"), Band::Known);
}

/// Words that are in no list, against their pronunciation in the CMU Pronouncing Dictionary or by ear: near, not the same.
#[test]
fn spelling_comes_near_to_sound() {
    for (word, arpabet) in [
        ("garbord", "G AA R B AO R D"),
        ("futtock", "F AH T AH K"),
        ("straik", "S T R EY K"),
        ("fastner", "F AE S N ER"),
        ("bildge", "B IH L JH"),
        ("skeg", "S K EH G"),
    ] {
        let (written, said) = (by_spelling(word), from_arpabet(arpabet));
        let apart = distance(&written, &said) / said.len() as f64;
        assert!(apart < 0.16, "{word}: {apart}");
    }
}

fn phones() -> impl Strategy<Value = Vec<u8>> {
    prop::collection::vec(prop::sample::select(b"bCdDfghjklmnNprsStTvwJzZAauOWYeEiIoyUx".to_vec()), 0..9)
}

proptest! {
    #[test]
    fn distance_is_nought_for_the_same_and_the_same_both_ways(a in phones(), b in phones()) {
        prop_assert_eq!(distance(&a, &a), 0.0);
        prop_assert!((distance(&a, &b) - distance(&b, &a)).abs() < 1e-9);
        prop_assert!(a == b || distance(&a, &b) > 0.0);
    }

    #[test]
    fn no_word_makes_spelling_panic(word in "\\PC{0,24}") {
        let _ = of_word(&word);
        let _ = by_spelling(&word);
    }
}

/// A voicing pair is heard for its partner sooner than an unlike consonant, a near vowel sooner than a far one (order only).
#[test]
fn like_phones_are_nearer() {
    let d = |a: &[u8], b: &[u8]| distance(a, b);
    assert!(d(b"p", b"b") < d(b"p", b"s"));
    assert!(d(b"m", b"n") < d(b"m", b"t"));
    assert!(d(b"i", b"I") < d(b"I", b"A"));
    assert!(d(b"gArbOrd", b"gAbOd") < d(b"gArbOrd", b"gArblOrdz"), "dropped r costs little");
}

#[test]
fn only_the_list_itself_is_taken_for_the_list() {
    let list = include_str!("../../data/words.txt");
    assert!(walk::words_are_here());
    assert!(walk::bring_words(list.to_owned()));
    let cut = list.lines().take(1000).collect::<Vec<_>>().join("\n");
    for other in [String::new(), cut, list.replacen("abandon", "abandom", 1)] {
        assert!(!walk::bring_words(other));
    }
}
