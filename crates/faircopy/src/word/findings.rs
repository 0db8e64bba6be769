//! Findings by part of the boat.

use super::body::{Body, pointers, said_pieces};
use super::pieces::{Face, Piece, Target, plain, set};
use crate::{Document, Finding, Kind};

/// Writes the findings.
pub(super) fn write(body: &mut Body<'_>, document: &Document) {
    let full = || document.parts.iter().filter(|part| part.findings.len() + part.seen_only.len() > 0);
    if full().next().is_none() {
        return;
    }
    body.section("Findings");
    for part in full() {
        body.heading("Heading2", 2, "", &[plain(part.title.trim())]);
        part.findings.iter().for_each(|finding| one(body, finding));
        if !part.seen_only.is_empty() {
            body.heading("Heading3", 3, "", &[plain("Looked at; no finding made of its own")]);
            part.seen_only.iter().for_each(|row| body.labelled("BodyText", &row.label, &row.value));
        }
    }
}

fn one(body: &mut Body<'_>, finding: &Finding) {
    let heading = [
        set("Finding ", Face::Accent),
        Piece::Here(Target::Finding(finding.number), Face::Accent),
        set(". ", Face::Accent),
        plain(finding.title.trim()),
    ];
    body.heading("Heading3", 3, "", &heading);
    let mut about = vec![set(finding.place.trim(), Face::Faint)];
    if !finding.condition.trim().is_empty() {
        about.extend([set(" Condition: ", Face::Label), set(finding.condition.trim(), Face::Strong)]);
    }
    if finding.serious {
        about.push(set(" Bears on safety.", Face::Accent));
    }
    body.paragraph("BodyText", &about);
    for seen in &finding.seen {
        let word = if seen.said.kind == Kind::Hearsay { "Hearsay " } else { "Observation " };
        let mut pieces =
            vec![set(word, Face::Label), Piece::See(Target::Observation(seen.observation)), set(": ", Face::Label)];
        pieces.extend(said_pieces(&seen.said));
        if !seen.place.trim().is_empty() {
            pieces.push(set(format!(" ({})", seen.place.trim()), Face::Faint));
        }
        body.paragraph("BodyText", &pieces);
    }
    if !finding.reckonings.is_empty() {
        let targets: Vec<Target> = finding.reckonings.iter().map(|n| Target::Reckoning(*n)).collect();
        let mut pieces = vec![set("Reckoned: ", Face::Label)];
        pieces.extend(pointers("See reckoning", "See reckonings", &targets));
        pieces.push(plain("."));
        body.paragraph("BodyText", &pieces);
    }
    finding.proposed.iter().for_each(|said| body.said(said));
    body.labelled("Opinion", "Opinion", &finding.opinion);
    finding.more.iter().for_each(|row| body.labelled("Opinion", &row.label, &row.value));
    body.labelled("Opinion", "How sure", &finding.sure);
    for other in &finding.alternatives {
        let mut pieces = vec![set("Also considered: ", Face::Label), plain(format!("{} ", ended(&other.what)))];
        if !other.against.trim().is_empty() {
            pieces.extend([set("Against it: ", Face::Label), plain(ended(&other.against))]);
        }
        body.paragraph("Opinion", &pieces);
    }
    if !finding.recommendations.is_empty() {
        let targets: Vec<Target> = finding.recommendations.iter().map(|n| Target::Recommendation(*n)).collect();
        let mut pieces = vec![set("To be done: ", Face::Label)];
        pieces.extend(pointers("Recommendation", "Recommendations", &targets));
        pieces.push(plain("."));
        body.paragraph("BodyText", &pieces);
    }
    body.pictures(&finding.pictures);
}

pub(super) fn ended(words: &str) -> String {
    let words = words.trim();
    if words.is_empty() || words.ends_with(['.', '!', '?', '…']) { words.to_owned() } else { format!("{words}.") }
}
