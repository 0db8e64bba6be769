//! Numbers, lengths and places in words. Number words are checked by a closed form that writes them (common English), lengths
//! against exact conversions (1 inch = 25.4 mm, International yard and pound agreement 1959).

use crate::corpus::timed;
use proptest::prelude::*;
use survey::{Place, Side};
use walk::said::{SaidWord, length_at, number_at, place, said};

fn words(text: &str) -> Vec<SaidWord> {
    let words: Vec<String> = text.split_whitespace().map(str::to_owned).collect();
    said(&timed(&words), &[])
}

const UNITS: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// Writes a number below ten thousand in words, British way.
fn in_words(n: u32) -> String {
    match n {
        0..20 => UNITS[n as usize].to_owned(),
        20..100 if n.is_multiple_of(10) => TENS[(n / 10) as usize].to_owned(),
        20..100 => format!("{} {}", TENS[(n / 10) as usize], UNITS[(n % 10) as usize]),
        _ if n.is_multiple_of(100) && n < 1000 => format!("{} hundred", in_words(n / 100)),
        _ => format!("{} hundred and {}", in_words(n / 100), in_words(n % 100)),
    }
}

#[test]
fn every_number_below_a_thousand_is_read_back() {
    for n in 0..1000 {
        let text = in_words(n);
        let said = words(&text);
        let number = number_at(&said, 0).unwrap_or_else(|| panic!("{text}"));
        assert_eq!((number.value, number.words), (f64::from(n), said.len()), "{text}");
        assert!(!number.ordinal);
        let figures = number_at(&words(&n.to_string()), 0).unwrap();
        assert_eq!(figures.value, f64::from(n));
    }
}

#[test]
fn orders_decimals_and_figures() {
    for (text, value, ordinal) in [
        ("first", 1.0, true),
        ("twelfth", 12.0, true),
        ("twenty first", 21.0, true),
        ("twenty-third", 23.0, true),
        ("thirtieth", 30.0, true),
        ("22nd", 22.0, true),
        ("one point two five", 1.25, false),
        ("nought point oh five", 0.05, false),
        ("a hundred and five", 105.0, false),
        ("two thousand and six", 2006.0, false),
        ("18.5", 18.5, false),
        ("twenty-two", 22.0, false),
    ] {
        let said = words(text);
        let number = number_at(&said, 0).unwrap_or_else(|| panic!("{text}"));
        assert!((number.value - value).abs() < 1e-9, "{text}: {number:?}");
        assert_eq!((number.ordinal, number.words), (ordinal, said.len()), "{text}");
    }
    assert_eq!(number_at(&words("plank"), 0), None);
    assert_eq!(number_at(&words("twenty, two"), 0).unwrap().value, 20.0, "a comma parts");
}

#[test]
fn lengths_in_words() {
    const INCH: f64 = 25.4;
    for (text, mm, taken, doubtful) in [
        ("five eighths", 0.625 * INCH, 2, true),
        ("five eighths of an inch", 0.625 * INCH, 5, false),
        ("three sixteenths of an inch", 0.1875 * INCH, 5, false),
        ("two foot six and a half", 30.5 * INCH, 6, true),
        ("two feet six inches", 30.0 * INCH, 4, false),
        ("two foot six and a half inches", 30.5 * INCH, 7, false),
        ("six inches", 6.0 * INCH, 2, false),
        ("two and a half inches", 2.5 * INCH, 5, false),
        ("an inch and a quarter", 1.25 * INCH, 5, false),
        ("three inches and a half", 3.5 * INCH, 5, false),
        ("half an inch", 0.5 * INCH, 3, false),
        ("quarter inch", 0.25 * INCH, 2, false),
        ("three quarters of an inch", 0.75 * INCH, 5, false),
        ("an inch", INCH, 2, false),
        ("thirty two mil", 32.0, 3, false),
        ("twelve millimetres", 12.0, 2, false),
        ("one point two metres", 1200.0, 4, false),
        ("half a metre", 500.0, 3, false),
        ("three foot", 36.0 * INCH, 2, false),
        ("40 mm", 40.0, 2, false),
        ("5/8 inch", 0.625 * INCH, 2, false),
        ("two yards", 72.0 * INCH, 2, false),
    ] {
        let said = words(text);
        let length = length_at(&said, 0).unwrap_or_else(|| panic!("{text}"));
        assert!((length.mm - mm).abs() < 1e-6, "{text}: {length:?}");
        assert_eq!(length.words, taken, "{text}: {length:?}");
        assert_eq!(length.doubt.is_some(), doubtful, "{text}: {length:?}");
    }
    for text in ["three", "half", "quarter side", "two planks", "a plank", "frame"] {
        assert_eq!(length_at(&words(text), 0), None, "{text}");
    }
}

/// Common practice, no source: strakes are counted from the garboard, frames and bolts from forward.
#[test]
fn places_in_words() {
    let port = Place { side: Some(Side::Port), ..Place::default() };
    for (text, wanted) in [
        (
            "port side fourth plank up between frames eleven and thirteen",
            Place { strake: Some(4), frame_from: Some(11), frame_to: Some(13), ..port.clone() },
        ),
        ("port strake nine", Place { strake: Some(9), ..port.clone() }),
        ("port garboard at frame 7", Place { strake: Some(1), frame_from: Some(7), ..port.clone() }),
        ("port frames thirteen to eleven", Place { frame_from: Some(11), frame_to: Some(13), ..port.clone() }),
        ("port strake number six frame number twelve", Place { strake: Some(6), frame_from: Some(12), ..port.clone() }),
        ("keel bolt number three", Place { number: Some(3), ..Place::default() }),
        ("third keel bolt from forward", Place { number: Some(3), ..Place::default() }),
        ("three bolts from forward", Place { number: Some(3), ..Place::default() }),
        ("starboard beam five", Place { side: Some(Side::Starboard), number: Some(5), ..Place::default() }),
        ("four metres from the stem", Place { from_stem_mm: Some(4000.0), ..Place::default() }),
        ("six inches below the waterline", Place { height_mm: Some(-152.4), ..Place::default() }),
        ("a foot above the waterline", Place { height_mm: Some(304.8), ..Place::default() }),
        ("it is raining", Place::default()),
    ] {
        let said = place(&words(text));
        let close = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() < 1e-6,
            (a, b) => a == b,
        };
        assert!(close(said.place.height_mm, wanted.height_mm), "{text}: {said:?}");
        assert_eq!(Place { height_mm: wanted.height_mm, ..said.place.clone() }, wanted, "{text}");
    }
}

#[test]
fn counts_from_elsewhere_stay_in_words_with_a_doubt() {
    for text in ["second plank below the sheer", "frame four from aft", "keel bolt two from aft"] {
        let said = place(&words(text));
        assert!(said.place.words.is_some() && !said.doubts.is_empty(), "{text}: {said:?}");
        assert_eq!((said.place.strake, said.place.frame_from, said.place.number), (None, None, None), "{text}");
    }
    let both = place(&words("port and starboard"));
    assert_eq!(both.place.side, Some(Side::Port));
    assert_eq!(both.doubts.len(), 1);
}

proptest! {
    #[test]
    fn no_words_make_a_place_that_cannot_be(parts in prop::collection::vec(prop::sample::select(vec![
        "port", "frame", "frames", "eleven", "to", "and", "0", "zero", "strake", "plank", "fourth", "up", "from", "aft", "forward", "the", "stem",
        "sheer", "two", "foot", "half", "a", "inch", "point", "hundred", "waterline", "below", "of", "bolt", "999999999", "number", "1/0", "point",
    ]), 0..14)) {
        let said = words(&parts.join(" "));
        let found = place(&said);
        prop_assert_eq!(found.place.fault(), None);
        for range in &found.words {
            prop_assert!(range.start < range.end && range.end <= said.len());
        }
        for at in 0..said.len() {
            if let Some(length) = length_at(&said, at) {
                prop_assert!(length.mm.is_finite() && length.words > 0 && at + length.words <= said.len());
            }
            if let Some(number) = number_at(&said, at) {
                prop_assert!(number.value >= 0.0 && at + number.words <= said.len());
            }
        }
    }
}
