//! Words of the trade that the report uses, in plain words.

use crate::{Document, Term};
use std::collections::BTreeSet;

/// `term, kind, definition, variants, source`; the definitions are our own wording.
const LEXICON: &str = include_str!("../../data/lexicon.csv");
/// Kinds of word that a reader outside the trade may not know.
const KINDS: [&str; 6] = ["member", "fastening", "defect", "caulking", "repair", "construction"];

/// Returns the trade's words that stand in the findings, summary, recommendations or list of what was not seen.
pub(super) fn used_in(document: &Document) -> Vec<Term> {
    let text = words_of(document);
    let mut terms: Vec<Term> = LEXICON
        .lines()
        .skip(1)
        .filter_map(|line| {
            let cells = cells(line);
            let (term, kind, meaning) = (cells.first()?, cells.get(1)?, cells.get(2)?);
            let used = KINDS.contains(&kind.as_str()) && text.contains(&format!(" {} ", term.to_lowercase()));
            used.then(|| Term {
                word: super::wording::sentence_case(term),
                meaning: super::wording::ended(&super::wording::sentence_case(meaning)),
            })
        })
        .collect();
    terms.sort_by_key(|term| term.word.to_lowercase());
    let mut seen = BTreeSet::new();
    terms.retain(|term| seen.insert(term.word.clone()));
    terms
}

/// Returns the words of the report's main text, in lower case, one space between words and none of the stops.
fn words_of(document: &Document) -> String {
    let mut all: Vec<&str> = Vec::new();
    for finding in document.parts.iter().flat_map(|part| &part.findings) {
        all.extend([finding.title.as_str(), &finding.place, &finding.opinion]);
        all.extend(finding.more.iter().map(|row| row.value.as_str()));
        all.extend(finding.seen.iter().map(|seen| seen.said.words.as_str()));
    }
    all.extend(document.recommendations.iter().flat_map(|r| [r.title.as_str(), &r.action]));
    all.extend(document.not_seen.iter().flat_map(|n| [n.what.as_str(), &n.why, &n.needs]));
    let mut out = String::from(" ");
    for word in all.join(" ").split(|c: char| !(c.is_alphanumeric() || c == '-')).filter(|word| !word.is_empty()) {
        // The plural of a term counts as the term.
        let word = word.to_lowercase();
        let one = word.strip_suffix('s').filter(|one| one.len() > 3 && !one.ends_with('s')).map(str::to_owned);
        out.push_str(one.as_deref().unwrap_or(&word));
        out.push(' ');
    }
    out
}

/// Splits a line of the table; cells in quotation marks may hold commas.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            c => {
                if let Some(cell) = cells.last_mut() {
                    cell.push(c);
                }
            }
        }
    }
    cells
}
