//! Puts the surveyor's own style into the document: letterhead, licences, limitation texts, size of letters, names.

use super::Extras;
use crate::{Document, LetterSize, Letterhead, Paragraphs, Person, Picture};

/// Puts in what the style says. The brief's own words go before it.
pub(super) fn put(extras: &Extras<'_>, document: &mut Document) {
    if let Some(sha256) = extras.issuing.and_then(|issuing| issuing.hand.as_deref()) {
        let name = extras.issuing.map(|issuing| issuing.signed_by.as_str()).unwrap_or_default();
        document.hand = Some(Picture::new(sha256, "", format!("Signature of {name}, drawn by hand.")));
    }
    let Some(style) = extras.style else { return };
    document.large_letters = style.letters == LetterSize::Large;
    let lines = |lines: &[String]| -> Vec<String> {
        lines.iter().map(|line| line.trim().to_owned()).filter(|line| !line.is_empty()).collect()
    };
    document.letterhead = Letterhead { lines: lines(&style.letterhead), licences: lines(&style.licences) };
    document.limitations = style
        .limitations
        .iter()
        .filter(|one| !one.text.trim().is_empty())
        .map(|one| Paragraphs {
            title: one.title.trim().to_owned(),
            words: one.text.split("\n\n").map(|p| p.trim().to_owned()).filter(|p| !p.is_empty()).collect(),
        })
        .collect();
    let name = style.surveyor.trim();
    if document.front.surveyor.is_none() && !name.is_empty() {
        document.front.surveyor = Some(Person { name: name.to_owned(), qualification: String::new() });
    }
    let qualification = style.qualification.trim();
    if let Some(person) = document.front.surveyor.as_mut().filter(|p| p.qualification.is_empty()) {
        person.qualification = qualification.to_owned();
    }
    if let Some(statement) = document.statement.as_mut().filter(|s| s.signed_by.qualification.is_empty()) {
        statement.signed_by.qualification = qualification.to_owned();
    }
}
