//! Words of the trade, each in plain words.

use std::collections::HashMap;
use std::sync::OnceLock;

/// A word of the trade.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TradeWord {
    /// The word.
    pub term: String,
    /// What kind of word it is: `member`, `defect`, `fastening`, `caulking`, `repair`, `construction`, …
    pub kind: String,
    /// What it means; the wording is our own.
    pub definition: String,
    /// Other words for the same, British and American.
    pub variants: Vec<String>,
}

const CSV: &str = include_str!("../data/lexicon.csv");

/// Returns all words, in the order of the file.
pub fn terms() -> &'static [TradeWord] {
    static ALL: OnceLock<Vec<TradeWord>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut reader = csv::ReaderBuilder::new().from_reader(CSV.as_bytes());
        let word = |row: csv::StringRecord| {
            let cell = |i: usize| row.get(i).map(|text| text.trim().to_owned());
            let variants = cell(3)?.split(';').map(str::trim).filter(|v| !v.is_empty()).map(str::to_owned).collect();
            Some(TradeWord { term: cell(0)?, kind: cell(1)?, definition: cell(2)?, variants })
        };
        reader.records().filter_map(Result::ok).filter_map(word).collect()
    })
}

/// Returns a word by its name or by one of its variants; letters large or small, one or many.
pub fn term(name: &str) -> Option<&'static TradeWord> {
    static BY_NAME: OnceLock<HashMap<String, &'static TradeWord>> = OnceLock::new();
    let by_name = BY_NAME.get_or_init(|| {
        let mut map = HashMap::new();
        // A word's own name goes before another's variant.
        for word in terms() {
            map.entry(word.term.to_lowercase()).or_insert(word);
        }
        for word in terms() {
            for variant in &word.variants {
                map.entry(variant.to_lowercase()).or_insert(word);
            }
        }
        map
    });
    let name = name.trim().to_lowercase();
    by_name.get(&name).or_else(|| name.strip_suffix('s').and_then(|one| by_name.get(one))).copied()
}
