//! What stands behind the report.

use super::body::{Body, said_pieces};
use super::pieces::{Face, Piece, Target, plain, set};
use crate::{Column, Document, Kind};

/// Writes the appendices.
pub(super) fn write(body: &mut Body<'_>, document: &Document) {
    body.begin_appendices();
    observations(body, document);
    if document.records.iter().any(|table| !table.rows.is_empty()) {
        body.section("Records");
        document.records.iter().for_each(|table| body.table(table));
    }
    if !document.pictures.is_empty() {
        body.section("Photographs");
        body.paragraph(
            "BodyText",
            &[plain("Photographs that stand with no finding. All are listed by number among the records.")],
        );
        body.pictures(&document.pictures);
    }
    if !document.glossary.is_empty() {
        body.section("Words of the trade");
        document.glossary.iter().for_each(|term| body.labelled("BodyText", &term.word, &term.meaning));
    }
    if !document.sources.is_empty() {
        body.section("Sources");
        document.sources.iter().for_each(|words| body.prose("BodyText", words));
    }
    if let Some(digest) = document.digest.as_ref().filter(|digest| !digest.sha256.is_empty()) {
        body.section("The field book");
        body.labelled("BodyText", "Digest, SHA-256", &digest.sha256);
        body.labelled("BodyText", "Entries", &digest.entries.to_string());
        digest.how.iter().for_each(|words| body.prose("BodyText", words));
        body.paragraph("BodyText", &[plain("This copy is made to be edited. What is changed in it is no longer what was composed from the field book; the report as issued is the PDF.")]);
    }
}

fn observations(body: &mut Body<'_>, document: &Document) {
    if document.observations.is_empty() {
        return;
    }
    body.section("Observations");
    let columns = [
        Column::figures("No.", 0.6),
        Column::words("Member and place", 1.6),
        Column::words("What was found", 3.0),
        Column::words("Entry", 1.7),
        Column::words("Findings", 0.9),
    ];
    let rows = document.observations.iter().map(|o| {
        let mut found = Vec::new();
        if !o.method.is_empty() {
            found.push(set(format!("{}: ", o.method), Face::Faint));
        }
        if o.said.kind == Kind::Hearsay {
            found.push(set("Hearsay. ", Face::Strong));
        }
        found.extend(said_pieces(&o.said));
        if o.pictures > 0 {
            let many = if o.pictures == 1 { "" } else { "s" };
            found.push(set(format!(" ({} picture{many})", o.pictures), Face::Faint));
        }
        let mut findings = Vec::new();
        for (i, n) in o.findings.iter().enumerate() {
            if i > 0 {
                findings.push(plain(", "));
            }
            findings.push(Piece::See(Target::Finding(*n)));
        }
        vec![
            vec![Piece::Here(Target::Observation(o.number), Face::Plain)],
            vec![plain(o.place.clone())],
            found,
            vec![plain(format!("{}\n{}", o.when, o.entry))],
            findings,
        ]
    });
    body.ruled("Observations", &columns, &rows.collect::<Vec<_>>());
}
