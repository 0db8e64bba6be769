//! What changed, limitation texts, the evidence, questions of history, two surveys side by side, the certificate.

use super::body::{Body, pointers};
use super::pieces::{Face, Piece, Target, plain, set};
use crate::{Document, Row};

fn rows(body: &mut Body<'_>, rows: &[Row]) {
    rows.iter().for_each(|row| body.labelled("BodyText", &row.label, &row.value));
}

/// Writes what changed since the version before.
pub(super) fn changes(body: &mut Body<'_>, document: &Document) {
    if let Some(changes) = document.changes.as_ref().filter(|changes| !changes.lines.is_empty()) {
        body.section("What changed since the version before");
        body.prose("BodyText", &changes.since);
        rows(body, &changes.lines);
    }
}

/// Writes the limitation texts.
pub(super) fn limitations(body: &mut Body<'_>, document: &Document) {
    if document.limitations.is_empty() {
        return;
    }
    body.section("Limitations");
    for one in &document.limitations {
        for (i, words) in one.words.iter().enumerate() {
            body.labelled("BodyText", if i == 0 { &one.title } else { "" }, words);
        }
    }
}

/// Writes the evidence, questions of history, and two surveys side by side.
pub(super) fn evidence(body: &mut Body<'_>, document: &Document) {
    if !document.evidence.is_empty() {
        body.section("Evidence for what bears on safety");
        body.paragraph("BodyText", &[plain("For each finding that bears on safety: what was found for and against, what else was considered, and what was not done.")]);
        for one in &document.evidence {
            let heading = [
                set("Finding ", Face::Accent),
                Piece::See(Target::Finding(one.finding)),
                set(". ", Face::Accent),
                plain(one.title.trim()),
            ];
            body.heading("Heading3", 3, "", &heading);
            rows(body, &one.rows);
        }
    }
    if !document.draws.is_empty() {
        body.section("Fastenings drawn by plan");
        for draw in &document.draws {
            draw.words.iter().for_each(|words| body.prose("BodyText", words));
            body.table(&draw.table);
            if draw.reckoning > 0 {
                let from = [Target::Reckoning(draw.reckoning)];
                let mut pieces = vec![set("The plan: ", Face::Label)];
                pieces.extend(pointers("Reckoning", "Reckonings", &from));
                body.paragraph("BodyText", &[&pieces[..], &[plain(".")]].concat());
            }
        }
    }
    if !document.questions.is_empty() {
        body.section("Questions of her history");
        body.paragraph("BodyText", &[plain("Old work tells of old trouble. Each question below has several answers that the trade knows of; they stand side by side and none is weighed against another. A question is not a finding.")]);
        for question in &document.questions {
            body.heading("Heading3", 3, "", &[plain(question.seen.trim())]);
            for explanation in &question.explanations {
                body.labelled("BodyText", "It may be", &explanation.words);
                rows(body, &explanation.rows);
            }
            body.labelled("Opinion", "Opinion", &question.note);
            if question.reckoning > 0 {
                let from = [Target::Reckoning(question.reckoning)];
                let mut pieces = vec![set("From: ", Face::Label)];
                pieces.extend(pointers("Reckoning", "Reckonings", &from));
                body.paragraph("BodyText", &[&pieces[..], &[plain(".")]].concat());
            }
        }
    }
    if let Some(both) = document.then_and_now.as_ref().filter(|both| !both.tables.is_empty()) {
        body.section("Since the survey before");
        both.words.iter().for_each(|words| body.prose("BodyText", words));
        both.tables.iter().for_each(|table| body.table(table));
        both.notes.iter().for_each(|words| body.prose("BodyText", words));
    }
}

/// Writes the certificate. In a copy that can be edited it is only a memory of what was issued, and says so.
pub(super) fn certificate(body: &mut Body<'_>, document: &Document) {
    let Some(certificate) = &document.certificate else { return };
    body.section("Certificate");
    body.paragraph(
        "Boxed",
        &[plain("This copy can be edited, so nothing below can be checked against it. What was issued is the PDF.")],
    );
    rows(body, &certificate.rows);
    body.labelled("BodyText", "Entries of the field book", &certificate.entries.to_string());
    body.labelled("BodyText", "Field book, SHA-256", &certificate.sha256);
    body.labelled("BodyText", "Public key", &certificate.public_key);
    certificate.words.iter().for_each(|words| body.prose("BodyText", words));
    if !certificate.against.is_empty() {
        body.heading("Heading2", 2, "", &[plain("Issued against advice")]);
        body.paragraph("BodyText", &[plain("Before issue the record was checked. The surveyor issues this report though the following was not met.")]);
        rows(body, &certificate.against);
    }
}
