//! Title page, summary, contents, scope, the vessel; and at the end cautions, statement and versions.

use super::body::{Body, CONTENTS_HERE};
use super::issue;
use super::pieces::{Face, Piece, Target, plain, set};
use crate::{Column, Document, Standing, SummaryLine};

/// Writes what stands before the findings.
pub(super) fn write(body: &mut Body<'_>, document: &Document) {
    title_page(body, document);
    summary(body, document);
    if has_sections(document) {
        body.paragraph("ContentsHeading", &[plain("Contents")]);
        body.xml.push_str(CONTENTS_HERE);
        body.new_page();
    }
    issue::changes(body, document);
    scope(body, document);
    reading(body, document);
    vessel(body, document);
    if !document.plans.is_empty() {
        body.section("Drawings");
        for (at, plan) in document.plans.iter().enumerate() {
            body.plan(plan, at);
        }
    }
}

/// Tells whether there is anything beside the title page.
fn has_sections(document: &Document) -> bool {
    let bare = Document {
        title: document.title.clone(),
        vessel_name: document.vessel_name.clone(),
        surveyed: document.surveyed.clone(),
        reference: document.reference.clone(),
        standing: document.standing.clone(),
        standing_words: document.standing_words.clone(),
        dated: document.dated.clone(),
        notice: document.notice.clone(),
        large_letters: document.large_letters,
        letterhead: document.letterhead.clone(),
        front: document.front.clone(),
        ..Document::default()
    };
    *document != bare
}

/// Returns the title as the document's own.
pub(super) fn title(document: &Document) -> String {
    let title = if document.title.trim().is_empty() { "Survey" } else { document.title.trim() };
    format!("{title}: {}", name(document))
}

pub(super) fn name(document: &Document) -> &str {
    if document.vessel_name.trim().is_empty() { "Vessel not named" } else { document.vessel_name.trim() }
}

pub(super) fn standing(document: &Document) -> String {
    if !document.standing_words.trim().is_empty() {
        return document.standing_words.trim().to_owned();
    }
    match &document.standing {
        Standing::Draft => "Draft, not issued".to_owned(),
        Standing::Issued { version, date } => format!("Version {version}, issued {date}"),
    }
}

fn title_page(body: &mut Body<'_>, document: &Document) {
    let front = &document.front;
    let kind = if document.title.trim().is_empty() { "Survey" } else { document.title.trim() };
    let head = document.letterhead.lines.iter().chain(&document.letterhead.licences);
    head.for_each(|line| body.prose("Letterhead", line));
    body.paragraph("Kicker", &[plain(format!("{kind}. {}", standing(document)))]);
    body.paragraph("Title", &[plain(name(document))]);
    body.prose("Subtitle", &front.subtitle);
    if !document.surveyed.trim().is_empty() {
        body.paragraph("BodyText", &[set("Surveyed ", Face::Label), plain(document.surveyed.trim())]);
    }
    if !document.dated.trim().is_empty() {
        body.paragraph("BodyText", &[set("Report ", Face::Label), plain(document.dated.trim())]);
    }
    body.prose("Boxed", &document.notice);
    if let Some(picture) = &front.picture {
        let room = document.pictures_placed().next().map_or((156.0, 96.0), |(_, room)| room);
        body.picture(picture, room, false);
    }
    for row in &front.rows {
        body.labelled("BodyText", &row.label, &row.value);
    }
    if let Some(surveyor) = &front.surveyor {
        let words = [surveyor.name.trim(), surveyor.qualification.trim()].into_iter().filter(|w| !w.is_empty());
        body.labelled("BodyText", "Surveyor", &words.collect::<Vec<_>>().join(", "));
    }
    body.labelled("BodyText", "Reference", &document.reference);
    body.prose("Boxed", &front.invented);
    body.new_page();
}

fn summary(body: &mut Body<'_>, document: &Document) {
    let s = &document.summary;
    if s == &crate::Summary::default() {
        return;
    }
    body.heading("Heading1Plain", 1, "", &[plain("Summary")]);
    if !s.purpose.is_empty() {
        body.prose("BodyText", &s.purpose.join(" "));
    }
    let lines = |body: &mut Body<'_>, title: &str, lines: &[SummaryLine]| {
        if !lines.is_empty() {
            body.heading("Heading3", 3, "", &[plain(title)]);
        }
        for line in lines {
            let mut pieces = vec![plain(line.words.trim())];
            let named = [
                line.finding.map(|n| ("finding", Target::Finding(n))),
                line.recommendation.map(|n| ("recommendation", Target::Recommendation(n))),
            ];
            for (word, target) in named.into_iter().flatten() {
                pieces.extend([set(format!(" ({word} "), Face::Faint), Piece::See(target), set(")", Face::Faint)]);
            }
            body.paragraph("BodyText", &pieces);
        }
    };
    lines(body, "What was found", &s.found);
    lines(body, "What it means", &s.meaning);
    if !s.first.is_empty() {
        body.heading("Heading3", 3, "", &[plain("What to do first")]);
    }
    for line in &s.first {
        body.paragraph(
            "BodyText",
            &[
                set(format!("{}: ", sentence_case(&line.when)), Face::Label),
                plain(line.words.trim()),
                set(" (recommendation ", Face::Faint),
                Piece::See(Target::Recommendation(line.recommendation)),
                set(")", Face::Faint),
            ],
        );
    }
    for (title, words) in [("What was not seen", &s.not_seen), ("Money", &s.money)] {
        if !words.is_empty() {
            body.heading("Heading3", 3, "", &[plain(title)]);
            words.iter().for_each(|words| body.prose("BodyText", words));
        }
    }
    body.new_page();
}

fn scope(body: &mut Body<'_>, document: &Document) {
    if !document.scope.is_empty() {
        body.section("Scope and access");
        for one in &document.scope {
            for (i, words) in one.words.iter().enumerate() {
                body.labelled("BodyText", if i == 0 { &one.title } else { "" }, words);
            }
        }
    }
    issue::limitations(body, document);
    if document.not_seen.is_empty() && document.coverage.is_empty() {
        return;
    }
    body.section("What was not seen");
    if !document.not_seen.is_empty() {
        body.paragraph("BodyText", &[plain("No conclusion is drawn about what is listed here. That nothing was found in it does not mean that nothing is wrong with it.")]);
        let rows =
            document.not_seen.iter().map(|n| [&n.what, &n.why, &n.needs].map(|w| vec![plain(w.clone())]).to_vec());
        let columns = [
            Column::words("Member and place", 1.2),
            Column::words("Why it was not seen", 1.4),
            Column::words("What it would take", 1.4),
        ];
        body.ruled("Not seen", &columns, &rows.collect::<Vec<_>>());
    }
    document.coverage.iter().for_each(|table| body.table(table));
}

fn reading(body: &mut Body<'_>, document: &Document) {
    if document.parts.iter().all(|part| part.findings.is_empty()) && document.definitions.is_empty() {
        return;
    }
    body.section("How to read this report");
    body.labelled("BodyText", "Observation", "What the surveyor saw, heard or measured is set like this.");
    body.labelled("BodyText", "Hearsay", "What somebody else says carries their name and is set in italics between quotation marks. It was not checked unless the report says so.");
    body.labelled("Proposed", "Proposed by machine", "What a computer proposed from the observations stands beside a dotted line. It is a proposal, not a conclusion.");
    body.labelled(
        "Opinion",
        "Opinion",
        "What the surveyor concludes stands beside a solid line and names what it rests on.",
    );
    for row in &document.definitions {
        body.labelled("BodyText", &row.label, &row.value);
    }
}

fn vessel(body: &mut Body<'_>, document: &Document) {
    if document.particulars.is_empty() && document.history.is_empty() {
        return;
    }
    body.section("The vessel");
    for row in &document.particulars {
        body.labelled("BodyText", &row.label, &row.value);
    }
    if !document.history.is_empty() {
        body.heading("Heading2", 2, "", &[plain("History")]);
        document.history.iter().for_each(|said| body.said(said));
    }
}

/// Writes what stands between the estimate and the appendices.
pub(super) fn write_end(body: &mut Body<'_>, document: &Document) {
    if !document.cautions.is_empty() {
        body.section("Cautions");
        document.cautions.iter().for_each(|words| body.prose("BodyText", words));
    }
    if let Some(statement) = &document.statement {
        body.section("Statement");
        for said in &statement.words {
            match said.kind {
                crate::Kind::Fact | crate::Kind::Opinion => body.prose("BodyText", &said.words),
                _ => body.said(said),
            }
        }
        if let Some(hand) = &document.hand {
            body.picture(hand, crate::prints::HAND_MM, false);
        }
        body.paragraph("Signature", &[plain("")]);
        body.paragraph("BodyText", &[set(statement.signed_by.name.trim(), Face::Strong)]);
        body.prose("BodyText", &statement.signed_by.qualification);
        body.prose("BodyText", &statement.place_and_date);
    }
    if !document.versions.is_empty() {
        body.section("Versions of this report");
        let columns = [
            Column::words("Version", 1.0),
            Column::words("Issued", 1.3),
            Column::words("What changed and why", 3.0),
            Column::words("Sent to", 2.0),
        ];
        let rows = document
            .versions
            .iter()
            .map(|v| [&v.version, &v.date, &v.change, &v.told].map(|words| vec![plain(words.clone())]).to_vec());
        body.ruled("Versions", &columns, &rows.collect::<Vec<_>>());
    }
}

fn sentence_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
