//! The words of the trade: terms, their variants, and how they sound.

use crate::phones::{self, Band};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

const CSV: &str = include_str!("../data/lexicon.csv");

/// A term of the trade.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// The term.
    pub term: String,
    /// What kind of thing it is: `member`, `defect`, `wood`, `fastening`, …
    pub kind: String,
    /// Other words for it.
    pub variants: Vec<String>,
}

/// Returns the terms, in the order of the file.
pub fn terms() -> &'static [Term] {
    static TERMS: OnceLock<Vec<Term>> = OnceLock::new();
    TERMS.get_or_init(|| {
        let mut reader = csv::Reader::from_reader(CSV.as_bytes());
        let rows = reader.records().filter_map(Result::ok);
        rows.filter_map(|row| {
            let variants = row.get(3)?.split(';').map(str::trim).filter(|v| !v.is_empty()).map(str::to_owned).collect();
            Some(Term { term: row.get(0)?.to_owned(), kind: row.get(1)?.to_owned(), variants })
        })
        .collect()
    })
}

/// A word or phrase that mending may propose.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// As it is written: `garboards`.
    pub said: String,
    /// The term it stands for: `garboard`.
    pub term: &'static str,
    /// The term's kind.
    pub kind: &'static str,
    /// How it sounds.
    pub phones: Vec<u8>,
}

/// Returns what mending may propose: words that a general recogniser is apt not to know. Those are terms and variants with a
/// word in them beyond the 11,000 commonest of English; the rest (`floor`, `soft`, `dead`) it is taken to hear aright.
pub fn targets() -> &'static [Target] {
    static TARGETS: OnceLock<Vec<Target>> = OnceLock::new();
    TARGETS.get_or_init(|| {
        let mut seen = BTreeSet::new();
        let mut targets = Vec::new();
        for term in terms() {
            for said in std::iter::once(&term.term).chain(&term.variants) {
                let said = plain(said);
                if !is_rare(&said) || is_stray(&said) {
                    continue;
                }
                let mut forms = vec![said.clone()];
                if matches!(term.kind.as_str(), "member" | "fastening")
                    && !said.ends_with(['s', 'x'])
                    && !said.ends_with("ing")
                {
                    forms.push(format!("{said}s"));
                }
                for said in forms {
                    for phones in ways(&said) {
                        if phones.len() >= 3 && seen.insert((said.clone(), phones.clone())) {
                            targets.push(Target { said: said.clone(), term: &term.term, kind: &term.kind, phones });
                        }
                    }
                }
            }
        }
        targets
    })
}

/// Variants that are listed because they are heard or written for a term, and would be no mending.
fn is_stray(said: &str) -> bool {
    matches!(said, "streak" | "rabbit" | "shear strake" | "juniper" | "crayon" | "geralds" | "okum" | "roove" | "for'd")
}

fn is_rare(said: &str) -> bool {
    said.split(' ').any(|word| phones::band(word) > Band::Common)
}

/// Returns every way a phrase may sound.
fn ways(said: &str) -> Vec<Vec<u8>> {
    let mut ways: Vec<Vec<u8>> = vec![Vec::new()];
    for word in said.split(' ') {
        let mut own = phones::own_ways(word);
        if own.is_empty() {
            own.push(phones::of_word(word));
        }
        ways = ways.iter().flat_map(|way| own.iter().map(move |next| [way.as_slice(), next].concat())).collect();
    }
    ways
}

/// Writes a phrase in small letters, hyphens as spaces.
pub(crate) fn plain(text: &str) -> String {
    let small: String = text.chars().flat_map(char::to_lowercase).map(|c| if c == '-' { ' ' } else { c }).collect();
    small.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A phrase, word by word, with its term.
type Phrase = (Vec<String>, &'static Term);

/// Phrases of the lexicon by their first word, the longest first.
fn phrases() -> &'static BTreeMap<String, Vec<Phrase>> {
    static PHRASES: OnceLock<BTreeMap<String, Vec<Phrase>>> = OnceLock::new();
    PHRASES.get_or_init(|| {
        let mut map: BTreeMap<String, Vec<Phrase>> = BTreeMap::new();
        for term in terms() {
            for said in std::iter::once(&term.term).chain(&term.variants) {
                let words: Vec<String> = plain(said).split(' ').map(str::to_owned).collect();
                let mut forms = vec![words.clone()];
                if let Some((last, rest)) = words.split_last()
                    && matches!(term.kind.as_str(), "member" | "fastening")
                    && !last.ends_with('s')
                {
                    forms.push([rest, &[format!("{last}s")]].concat());
                }
                for words in forms {
                    map.entry(words[0].clone()).or_default().push((words, term));
                }
            }
        }
        for phrases in map.values_mut() {
            phrases.sort_by(|a, b| b.0.len().cmp(&a.0.len()).then_with(|| a.0.cmp(&b.0)));
        }
        map
    })
}

/// Returns the longest phrase of the lexicon that starts at a word, as its number of words and its term.
pub fn phrase_at(words: &[String], at: usize) -> Option<(usize, &'static Term)> {
    let phrases = phrases().get(words.get(at)?)?;
    let found = phrases.iter().find(|(phrase, _)| words[at..].starts_with(phrase))?;
    Some((found.0.len(), found.1))
}

/// Words in the names of members, as the catalogue has them, that are not common English (`archboard`, `headledge`).
fn names_of_members() -> &'static BTreeSet<String> {
    static NAMES: OnceLock<BTreeSet<String>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let names = survey::catalogue().iter().flat_map(|m| [m.name.as_str(), m.other_names.as_str()]);
        let words = names.flat_map(|name| name.split(|c: char| !c.is_alphabetic())).map(str::to_lowercase);
        words.filter(|word| word.len() > 3 && phones::band(word) > Band::Common).collect()
    })
}

/// Tells for every word whether it is a word of the lexicon, alone or within a phrase, or in the name of a member.
pub fn in_lexicon(words: &[String]) -> Vec<bool> {
    let mut inside: Vec<bool> = words.iter().map(|word| names_of_members().contains(word)).collect();
    for at in 0..words.len() {
        if let Some((length, _)) = phrase_at(words, at) {
            inside[at..at + length].fill(true);
        }
    }
    inside
}
