//! Reckonings, recommendations, estimate and value.

use super::body::{Body, pointers};
use super::findings::ended;
use super::pieces::{Face, Piece, Target, plain, set};
use crate::{Column, Document, Recommendation};

/// Writes reckonings, recommendations, estimate and value.
pub(super) fn write(body: &mut Body<'_>, document: &Document) {
    reckonings(body, document);
    recommendations(body, document);
    estimate(body, document);
    if let Some(value) = &document.value {
        body.section("Opinion of value");
        value.rows.iter().for_each(|row| body.labelled("BodyText", &row.label, &row.value));
        body.labelled("Opinion", "Opinion", &value.reasoning);
        value.comparables.iter().for_each(|table| body.table(table));
        if let Some(plan) = &value.drawn {
            let of_estimate = document.estimate.as_ref().is_some_and(|estimate| estimate.drawn.is_some());
            body.plan(plan, document.plans.len() + usize::from(of_estimate));
        }
        value.notes.iter().for_each(|note| body.prose("BodyText", note));
    }
}

fn reckonings(body: &mut Body<'_>, document: &Document) {
    if document.reckonings.is_empty() {
        return;
    }
    body.section("Reckonings");
    body.paragraph(
        "BodyText",
        &[plain("Each reckoning gives its inputs, the equation by name and its source, so that it can be done again.")],
    );
    for r in &document.reckonings {
        let heading = [
            set("Reckoning ", Face::Accent),
            Piece::Here(Target::Reckoning(r.number), Face::Accent),
            set(". ", Face::Accent),
            plain(r.title.trim()),
        ];
        body.heading("Heading3", 3, "", &heading);
        body.labelled("Opinion", "Opinion", &r.note);
        for (title, rows) in [("Inputs", &r.inputs), ("Results", &r.results)] {
            if !rows.is_empty() {
                let columns = [Column::words(title, 1.3), Column::words("Value", 1.0)];
                let rows = rows.iter().map(|row| vec![vec![plain(row.label.clone())], vec![plain(row.value.clone())]]);
                body.ruled("", &columns, &rows.collect::<Vec<_>>());
            }
        }
        body.labelled("BodyText", "Reckoned by", &ended(&r.equation));
        r.sources.iter().for_each(|source| body.labelled("BodyText", "Source", source));
        r.cautions.iter().for_each(|caution| body.labelled("BodyText", "Caution", caution));
        if !r.findings.is_empty() {
            let targets: Vec<Target> = r.findings.iter().map(|n| Target::Finding(*n)).collect();
            let mut pieces = vec![set("Used in: ", Face::Label)];
            pieces.extend(pointers("Finding", "Findings", &targets));
            body.paragraph("BodyText", &[&pieces[..], &[plain(".")]].concat());
        }
    }
}

fn recommendations(body: &mut Body<'_>, document: &Document) {
    if document.recommendations.is_empty() {
        return;
    }
    body.section("Recommendations");
    let mut group = String::new();
    for r in Recommendation::by_urgency(&document.recommendations) {
        let words = r.urgency.words(r.date.as_deref());
        if words != group {
            let mut chars = words.chars();
            let title: String = chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect());
            body.heading("Heading2", 2, "", &[plain(title)]);
            group = words;
        }
        let heading = [
            set("No. ", Face::Accent),
            Piece::Here(Target::Recommendation(r.number), Face::Accent),
            set(". ", Face::Accent),
            plain(r.title.trim()),
        ];
        body.heading("Heading3", 3, "", &heading);
        body.prose("BodyText", &r.action);
        r.more.iter().for_each(|row| body.labelled("BodyText", &row.label, &row.value));
        body.table(&r.ways);
        if !r.findings.is_empty() {
            let targets: Vec<Target> = r.findings.iter().map(|n| Target::Finding(*n)).collect();
            let mut pieces = vec![set("Answers: ", Face::Label)];
            pieces.extend(pointers("Finding", "Findings", &targets));
            body.paragraph("BodyText", &[&pieces[..], &[plain(".")]].concat());
        }
        body.labelled("BodyText", "Since then", &r.standing);
    }
}

fn estimate(body: &mut Body<'_>, document: &Document) {
    let Some(estimate) = &document.estimate else { return };
    body.section("Estimate");
    if !estimate.lines.is_empty() {
        let money = |title: &str| {
            let currency =
                if estimate.currency.is_empty() { String::new() } else { format!(", {}", estimate.currency) };
            Column::figures(format!("{title}{currency}"), 1.0)
        };
        let columns =
            [Column::words("Work", 3.2), Column::words("Quantity", 1.1), money("Low"), money("Likely"), money("High")];
        let rows = estimate.lines.iter().map(|line| {
            let mut item = vec![plain(line.item.trim())];
            if let Some(n) = line.recommendation {
                item.extend([
                    set(" (recommendation ", Face::Faint),
                    Piece::See(Target::Recommendation(n)),
                    set(")", Face::Faint),
                ]);
            }
            if !line.note.trim().is_empty() {
                item.push(set(format!(" {}", ended(&line.note)), Face::Faint));
            }
            let figures = [&line.quantity, &line.low, &line.likely, &line.high].map(|words| vec![plain(words.clone())]);
            std::iter::once(item).chain(figures).collect()
        });
        body.ruled("Estimate", &columns, &rows.collect::<Vec<_>>());
    }
    estimate.totals.iter().for_each(|row| body.labelled("BodyText", &row.label, &row.value));
    if let Some(plan) = &estimate.drawn {
        body.plan(plan, document.plans.len());
    }
    estimate.notes.iter().for_each(|note| body.prose("BodyText", note));
}
