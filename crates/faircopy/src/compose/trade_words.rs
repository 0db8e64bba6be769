//! Words of the trade that the report uses, in plain words.

use super::wording::{ended, sentence_case};
use crate::{Document, Term};
use std::collections::BTreeMap;
use survey::lexicon::{self, TradeWord};

/// Kinds of word that a reader outside the trade may not know.
const KINDS: [&str; 6] = ["member", "fastening", "defect", "caulking", "repair", "construction"];

/// Returns the trade's words that stand in what the report says, by themselves or by another name.
pub(super) fn used_in(document: &Document) -> Vec<Term> {
    let text = words_of(document);
    let stands = |word: &str| text.contains(&format!(" {} ", plain(word)));
    let mut terms: BTreeMap<String, Term> = BTreeMap::new();
    for word in lexicon::terms().iter().filter(|word| KINDS.contains(&word.kind.as_str())) {
        let own = stands(&word.term);
        // Another name stands for the word only where it is nobody's own: `shoe` may be many things.
        let other = word.variants.iter().find(|v| stands(v) && is_own(v, word));
        if let Some(name) = if own { Some(&word.term) } else { other } {
            let meaning = sentence_case(&word.definition);
            let also = if own { String::new() } else { format!(" Also called: {}.", word.term) };
            terms
                .entry(name.to_lowercase())
                .or_insert_with(|| Term { word: sentence_case(name), meaning: format!("{}{also}", ended(&meaning)) });
        }
    }
    terms.into_values().collect()
}

fn is_own(name: &str, word: &TradeWord) -> bool {
    // Short words of everyday use (`bend`) may mean anything.
    let telling = name.contains(' ') || name.chars().count() > 5;
    telling && lexicon::term(name).is_some_and(|found| found.term == word.term)
}

/// Returns the words of the report's main text, each told from the next by one space.
fn words_of(document: &Document) -> String {
    let mut all: Vec<&str> = Vec::new();
    for finding in document.parts.iter().flat_map(|part| &part.findings) {
        all.extend([finding.title.as_str(), &finding.place, &finding.opinion]);
        all.extend(finding.more.iter().map(|row| row.value.as_str()));
        all.extend(finding.seen.iter().map(|seen| seen.said.words.as_str()));
        all.extend(finding.alternatives.iter().flat_map(|a| [a.what.as_str(), &a.against]));
    }
    for row in document.parts.iter().flat_map(|part| &part.seen_only).chain(&document.particulars) {
        all.extend([row.label.as_str(), &row.value]);
    }
    all.extend(document.recommendations.iter().flat_map(|r| [r.title.as_str(), &r.action]));
    all.extend(document.recommendations.iter().flat_map(|r| &r.more).map(|row| row.value.as_str()));
    all.extend(document.not_seen.iter().flat_map(|n| [n.what.as_str(), &n.why, &n.needs]));
    all.extend(document.estimate.iter().flat_map(|e| &e.lines).map(|line| line.item.as_str()));
    format!(" {} ", plain(&all.join(" ")))
}

/// Returns words in lower case, without stops, the plural as the singular, one space between them.
fn plain(text: &str) -> String {
    let words = text.split(|c: char| !(c.is_alphanumeric() || c == '-')).filter(|word| !word.is_empty());
    let one = |word: &str| {
        let word = word.to_lowercase();
        word.strip_suffix('s').filter(|one| one.len() > 3 && !one.ends_with('s')).map_or(word.clone(), str::to_owned)
    };
    words.map(one).collect::<Vec<_>>().join(" ")
}
