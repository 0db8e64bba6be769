//! Common English: which words there are, how common, and how they sound. The list is made by `tests/reference/words.py`.

use std::collections::HashMap;
use std::sync::OnceLock;

/// The list, where it is built in.
#[cfg(feature = "words")]
const BUILT_IN: Option<&str> = Some(include_str!("../../data/words.txt"));
#[cfg(not(feature = "words"))]
const BUILT_IN: Option<&str> = None;

/// SHA-256 of the list, so that what is brought is the whole of it.
const WORDS_SHA256: &str = "ba0b2899c1754df631302ff65c1013eb6c1d646fe933af6fed4f686afb4bd289";

/// The list, where it was brought.
static BROUGHT: OnceLock<String> = OnceLock::new();

const OWN: &str = include_str!("../../data/own-pronunciations.csv");

/// How common a word is: the size of the SCOWL list it first stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Band {
    /// SCOWL 10, some 4,000 words.
    Everyday,
    /// SCOWL 20, some 7,000 more.
    Common,
    /// SCOWL 35, some 29,000 more.
    Known,
    /// Not in the list.
    Unlisted,
}

struct Listed {
    band: Band,
    phones: Option<Vec<u8>>,
}

/// Brings the list of common words to a program that was built without it (feature `words`): the file `data/words.txt`
/// of this room. Returns whether it is that list; any other is left alone.
pub fn bring_words(text: String) -> bool {
    if survey::Digest::of(text.as_bytes()).to_string() != WORDS_SHA256 {
        return false;
    }
    BROUGHT.get_or_init(|| text);
    true
}

/// Tells whether the list of common words is here. Without it every word would be taken for an uncommon one, and mended
/// too readily.
pub fn words_are_here() -> bool {
    words().is_some()
}

fn words() -> Option<&'static str> {
    BUILT_IN.or_else(|| BROUGHT.get().map(String::as_str))
}

fn list() -> &'static HashMap<&'static str, Listed> {
    static LIST: OnceLock<HashMap<&'static str, Listed>> = OnceLock::new();
    static NONE: OnceLock<HashMap<&'static str, Listed>> = OnceLock::new();
    let Some(words) = words() else { return NONE.get_or_init(HashMap::new) };
    LIST.get_or_init(|| {
        words
            .lines()
            .filter_map(|line| read(line).map(|(word, band, phones)| (word, Listed { band, phones })))
            .collect()
    })
}

fn read(line: &'static str) -> Option<(&'static str, Band, Option<Vec<u8>>)> {
    let mut parts = line.split(' ');
    let word = parts.next()?;
    let band = match parts.next()? {
        "1" => Band::Everyday,
        "2" => Band::Common,
        _ => Band::Known,
    };
    let phones = parts.next().filter(|text| !text.is_empty()).map(spread);
    Some((word, band, phones))
}

/// Writes the one letter for ER as two.
fn spread(text: &str) -> Vec<u8> {
    text.bytes().flat_map(|b| if b == b'R' { vec![b'u', b'r'] } else { vec![b] }).collect()
}

fn own() -> &'static HashMap<&'static str, Vec<u8>> {
    static OWN_LIST: OnceLock<HashMap<&'static str, Vec<u8>>> = OnceLock::new();
    OWN_LIST.get_or_init(|| {
        let mut list = HashMap::new();
        for (word, phones) in own_lines() {
            list.entry(word).or_insert(phones);
        }
        list
    })
}

fn own_lines() -> impl Iterator<Item = (&'static str, Vec<u8>)> {
    OWN.lines()
        .filter(|line| !line.starts_with('#') && *line != "word,phones")
        .filter_map(|line| line.split_once(','))
        .map(|(word, phones)| (word, super::from_arpabet(phones)))
}

/// Returns every way our own list says a word.
pub(crate) fn own_ways(word: &str) -> Vec<Vec<u8>> {
    own_lines().filter(|(own, _)| *own == word).map(|(_, phones)| phones).collect()
}

/// Endings that make a word from a listed one, with what may stand in their place, and what they add in phones.
const ENDINGS: [(&str, &[&str], &[u8]); 8] = [
    ("ies", &["y"], b"z"),
    ("es", &["e", ""], b"iz"),
    ("s", &[""], b"z"),
    ("ed", &["e", ""], b"d"),
    ("ing", &["", "e"], b"iN"),
    ("ly", &[""], b"lI"),
    ("ers", &["", "e"], b"urz"),
    ("er", &["", "e"], b"ur"),
];

fn derived(word: &str) -> Option<(&'static Listed, &'static [u8])> {
    ENDINGS.iter().find_map(|(ending, instead, adds)| {
        let stem = word.strip_suffix(ending).filter(|stem| stem.len() >= 3)?;
        let bytes = stem.as_bytes();
        let doubled = bytes.len() > 3 && bytes[bytes.len() - 1] == bytes[bytes.len() - 2] && *ending != "s";
        let found = instead.iter().find_map(|end| list().get(format!("{stem}{end}").as_str()));
        let found = found.or_else(|| if doubled { list().get(&stem[..stem.len() - 1]) } else { None })?;
        Some((found, *adds))
    })
}

/// Returns how common a word is, in small letters.
pub fn band(word: &str) -> Band {
    list().get(word).or_else(|| derived(word).map(|(listed, _)| listed)).map_or(Band::Unlisted, |listed| listed.band)
}

pub(super) fn phones(word: &str) -> Option<Vec<u8>> {
    if let Some(phones) = own().get(word) {
        return Some(phones.clone());
    }
    if let Some(listed) = list().get(word) {
        return listed.phones.clone();
    }
    let (listed, adds) = derived(word)?;
    let mut phones = listed.phones.clone()?;
    let hisses = phones.last().is_some_and(|last| b"szSZCj".contains(last));
    let hard = phones.last().is_some_and(|last| b"pkftTsSC".contains(last));
    match adds {
        b"z" | b"iz" if hisses => phones.extend(b"iz"),
        b"z" | b"iz" => phones.push(if hard { b's' } else { b'z' }),
        b"d" if phones.last().is_some_and(|last| b"td".contains(last)) => phones.extend(b"id"),
        b"d" => phones.push(if hard { b't' } else { b'd' }),
        _ => phones.extend(adds),
    }
    Some(phones)
}

pub(super) fn all() -> impl Iterator<Item = (&'static str, Band, &'static [u8])> {
    static ALL: OnceLock<Vec<(&'static str, Band, Vec<u8>)>> = OnceLock::new();
    static NONE: OnceLock<Vec<(&'static str, Band, Vec<u8>)>> = OnceLock::new();
    let (all, words) = words().map_or((&NONE, ""), |words| (&ALL, words));
    all.get_or_init(|| {
        words
            .lines()
            .filter_map(read)
            .filter_map(|(word, band, phones)| phones.map(|phones| (word, band, phones)))
            .collect()
    })
    .iter()
    .map(|(word, band, phones)| (*word, *band, phones.as_slice()))
}
