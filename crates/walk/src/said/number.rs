//! Numbers in words: cardinals and ordinals below ten thousand, decimals, and figures.

use super::{SaidWord, plain};

/// A number as said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaidNumber {
    /// Its value.
    pub value: f64,
    /// Whether it tells an order: `fourth`, `11th`.
    pub ordinal: bool,
    /// How many words it takes.
    pub words: usize,
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
const UNIT_ORDERS: [&str; 20] = [
    "zeroth",
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
];
const TEN_ORDERS: [&str; 10] =
    ["", "", "twentieth", "thirtieth", "fortieth", "fiftieth", "sixtieth", "seventieth", "eightieth", "ninetieth"];

fn at(list: &[&str], word: &str) -> Option<f64> {
    if word.is_empty() { None } else { list.iter().position(|known| *known == word).map(|n| n as f64) }
}

fn unit(word: &str) -> Option<f64> {
    at(&UNITS, word).or(if matches!(word, "nought" | "nil") { Some(0.0) } else { None })
}

/// Reads the number that starts at a word, the longest there is: `thirty two`, `a hundred and five`, `one point two`, `fourth`,
/// `11`, `22nd`, `1.5`.
pub fn number_at(words: &[SaidWord], from: usize) -> Option<SaidNumber> {
    let word = plain(words, from);
    if let Some(figures) = figures(word) {
        return Some(figures);
    }
    let (mut value, mut next) = below_hundred(words, from)
        .or_else(|| (word == "a" && plain(words, from + 1) == "hundred").then_some((1.0, from + 1)))?;
    if value < 0.0 {
        return Some(SaidNumber { value: -value, ordinal: true, words: next - from });
    }
    if matches!(plain(words, next), "hundred" | "thousand") && !words[next - 1].ends && value >= 1.0 {
        value *= if plain(words, next) == "hundred" { 100.0 } else { 1000.0 };
        next += 1;
        let after = if plain(words, next) == "and" { next + 1 } else { next };
        if let Some((rest, end)) = below_hundred(words, after).filter(|_| !words[next - 1].ends) {
            value += rest.abs();
            next = end;
            if rest < 0.0 {
                return Some(SaidNumber { value, ordinal: true, words: next - from });
            }
        }
    }
    if plain(words, next) == "point" {
        let mut decimals = String::new();
        let mut end = next + 1;
        while let Some(digit) =
            unit(if plain(words, end) == "oh" { "zero" } else { plain(words, end) }).filter(|d| *d < 10.0)
        {
            decimals.push_str(&digit.to_string());
            end += 1;
        }
        if let Ok(part) = format!("0.{decimals}").parse::<f64>()
            && !decimals.is_empty()
        {
            value += part;
            next = end;
        }
    }
    Some(SaidNumber { value, ordinal: false, words: next - from })
}

/// Reads a number below a hundred; an ordinal is given as its negative.
fn below_hundred(words: &[SaidWord], from: usize) -> Option<(f64, usize)> {
    let word = plain(words, from);
    if let Some(n) = at(&UNIT_ORDERS, word).or_else(|| at(&TEN_ORDERS, word).map(|n| n * 10.0)) {
        return Some((-n, from + 1));
    }
    if let Some(n) = unit(word) {
        return Some((n, from + 1));
    }
    let tens = at(&TENS, word)? * 10.0;
    let next = plain(words, from + 1);
    let joined = words.get(from).is_some_and(|word| !word.ends);
    if let Some(n) = at(&UNIT_ORDERS, next).filter(|n| joined && (1.0..10.0).contains(n)) {
        return Some((-(tens + n), from + 2));
    }
    match unit(next).filter(|n| joined && (1.0..10.0).contains(n)) {
        Some(n) => Some((tens + n, from + 2)),
        None => Some((tens, from + 1)),
    }
}

fn figures(word: &str) -> Option<SaidNumber> {
    let word = word.trim_end_matches(['%', '°']);
    let stem = ["st", "nd", "rd", "th"].iter().find_map(|end| word.strip_suffix(end));
    let good = |text: &str| text.starts_with(|c: char| c.is_ascii_digit()) && text.len() <= 9;
    if let Some(stem) = stem.filter(|stem| good(stem) && stem.bytes().all(|b| b.is_ascii_digit())) {
        return Some(SaidNumber { value: stem.parse().ok()?, ordinal: true, words: 1 });
    }
    let plain = good(word) && word.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if plain { Some(SaidNumber { value: word.parse().ok()?, ordinal: false, words: 1 }) } else { None }
}
