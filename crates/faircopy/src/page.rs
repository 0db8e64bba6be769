//! The report as a page to be read on a screen, where nothing can typeset it: every word of it, in the order of print,
//! with the charts of money, without plans of the hull (the place Hull shows those), and with pictures named.
//!
//! HTML (WHATWG HTML Living Standard), a part of a page: headings from `h2` down, no style, no script, no address. All
//! text is escaped; it cannot become markup.

use crate::{Document, Finding, Kind, Picture, Plan, Recommendation, Row, Said, Table};
use std::fmt::Write as _;

/// Writes a document as HTML.
pub fn page(document: &Document) -> String {
    let mut page = Page(String::new());
    page.front(document);
    page.scope(document);
    page.boat(document);
    page.findings(document);
    page.reckoned(document);
    page.recommendations(document);
    page.money(document);
    page.end(document);
    page.0
}

struct Page(String);

/// Escapes text for HTML.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

fn numbers(what: &str, all: &[u32]) -> String {
    match all {
        [] => String::new(),
        [one] => format!("{what} {one}"),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(u32::to_string).collect();
            format!("{what}s {} and {last}", first.join(", "))
        }
    }
}

impl Page {
    fn element(&mut self, name: &str, text: &str) {
        if !text.trim().is_empty() {
            let _ = write!(self.0, "<{name}>{}</{name}>", escaped(text));
        }
    }

    fn paragraph(&mut self, text: &str) {
        self.element("p", text);
    }

    fn labelled(&mut self, label: &str, text: &str) {
        if !text.trim().is_empty() {
            let _ = write!(self.0, "<p><strong>{}:</strong> {}</p>", escaped(label), escaped(text));
        }
    }

    /// Writes a chart. Its words for those who cannot see it are within it.
    fn drawn(&mut self, plan: Option<&Plan>) {
        if let Some(plan) = plan {
            // As wide as it is printed, so that its letters can be read; on a narrow page it is moved sideways.
            let title = escaped(&plan.sheet.title);
            let _ = write!(
                self.0,
                "<figure><div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{title}\">{}</div>",
                plan.sheet.to_svg()
            );
            self.element("figcaption", &plan.caption);
            self.0.push_str("</figure>");
        }
    }

    fn rows(&mut self, rows: &[Row]) {
        if rows.is_empty() {
            return;
        }
        self.0.push_str("<dl>");
        for row in rows {
            let _ = write!(self.0, "<div><dt>{}</dt><dd>{}</dd></div>", escaped(&row.label), escaped(&row.value));
        }
        self.0.push_str("</dl>");
    }

    fn list<'a>(&mut self, items: impl IntoIterator<Item = &'a str>) {
        let items: Vec<String> = items.into_iter().map(|item| format!("<li>{}</li>", escaped(item))).collect();
        if !items.is_empty() {
            let _ = write!(self.0, "<ul>{}</ul>", items.concat());
        }
    }

    /// What kind of thing is said is told by a word, as in print.
    fn said(&mut self, said: &Said, before: &str) {
        let word = match said.kind {
            Kind::Fact => String::new(),
            Kind::Hearsay if said.by.trim().is_empty() => "Hearsay: ".to_owned(),
            Kind::Hearsay => format!("Hearsay, {}: ", escaped(&said.by)),
            Kind::Inference => "Reckoned from the record: ".to_owned(),
            Kind::Opinion => "Opinion: ".to_owned(),
        };
        let _ = write!(self.0, "<p>{}<em>{word}</em>{}</p>", escaped(before), escaped(&said.words));
    }

    fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let _ = write!(
            self.0,
            "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{}\"><table>",
            escaped(&table.title)
        );
        self.element("caption", &table.title);
        self.0.push_str("<thead><tr>");
        for column in &table.columns {
            let _ = write!(self.0, "<th scope=\"col\">{}</th>", escaped(&column.title));
        }
        self.0.push_str("</tr></thead><tbody>");
        for row in &table.rows {
            self.0.push_str("<tr>");
            for column in 0..table.columns.len() {
                let _ = write!(self.0, "<td>{}</td>", row.get(column).map_or_else(String::new, |cell| escaped(cell)));
            }
            self.0.push_str("</tr>");
        }
        self.0.push_str("</tbody></table></div>");
        self.paragraph(&table.note);
    }

    fn pictures(&mut self, pictures: &[Picture]) {
        for picture in pictures {
            let of = picture.observation.map(|n| format!("of observation {n}")).unwrap_or_default();
            let said = [&picture.caption, &picture.alternative, &of, &picture.place];
            let said =
                said.into_iter().map(|words| words.trim()).find(|words| !words.is_empty()).unwrap_or("no caption");
            let _ = write!(self.0, "<p>[Picture: {}]</p>", escaped(said));
        }
    }

    fn front(&mut self, document: &Document) {
        self.paragraph(&document.standing_words);
        self.element("h2", &document.vessel_name);
        self.paragraph(&document.title);
        self.paragraph(&document.front.subtitle);
        self.paragraph(&document.front.invented);
        self.rows(&document.front.rows);
        if let Some(surveyor) = &document.front.surveyor {
            self.labelled("Surveyor", &[surveyor.name.as_str(), &surveyor.qualification].join(" "));
        }
        self.paragraph(&document.notice);
        let s = &document.summary;
        let any = s.purpose.len() + s.found.len() + s.meaning.len() + s.first.len() + s.not_seen.len() + s.money.len();
        if any > 0 {
            self.element("h2", "Summary");
            s.purpose.iter().for_each(|words| self.paragraph(words));
            for (title, lines) in [("What was found", &s.found), ("What it means", &s.meaning)] {
                if !lines.is_empty() {
                    self.element("h3", title);
                    self.list(lines.iter().map(|line| line.words.as_str()));
                }
            }
            if !s.first.is_empty() {
                self.element("h3", "What to do first");
                let lines: Vec<String> = s.first.iter().map(|line| format!("{}: {}", line.when, line.words)).collect();
                self.list(lines.iter().map(String::as_str));
            }
            for (title, lines) in [("What was not seen", &s.not_seen), ("Money", &s.money)] {
                if !lines.is_empty() {
                    self.element("h3", title);
                    lines.iter().for_each(|words| self.paragraph(words));
                }
            }
        }
        if let Some(changes) = &document.changes {
            self.element("h2", "What changed since the version before");
            self.paragraph(&changes.since);
            self.rows(&changes.lines);
        }
    }

    fn scope(&mut self, document: &Document) {
        if document.scope.len() + document.limitations.len() > 0 {
            self.element("h2", "Scope and limits");
            for paragraphs in document.scope.iter().chain(&document.limitations) {
                self.element("h3", &paragraphs.title);
                paragraphs.words.iter().for_each(|words| self.paragraph(words));
            }
        }
        if !document.not_seen.is_empty() {
            self.element("h2", "What was not seen");
            for one in &document.not_seen {
                let needs = if one.needs.trim().is_empty() {
                    String::new()
                } else {
                    format!("; to see it: {}", one.needs.trim())
                };
                self.paragraph(&format!("{}: {}{needs}", one.what.trim(), one.why.trim()));
            }
        }
        document.coverage.iter().for_each(|table| self.table(table));
        if !document.definitions.is_empty() {
            self.element("h2", "Words and numbers used");
            self.rows(&document.definitions);
        }
    }

    fn boat(&mut self, document: &Document) {
        if document.particulars.len() + document.history.len() == 0 {
            return;
        }
        self.element("h2", "The boat");
        self.rows(&document.particulars);
        if !document.history.is_empty() {
            self.element("h3", "History");
            document.history.iter().for_each(|said| self.said(said, ""));
        }
    }

    fn findings(&mut self, document: &Document) {
        let full = || document.parts.iter().filter(|part| part.findings.len() + part.seen_only.len() > 0);
        if full().next().is_some() {
            self.element("h2", "Findings");
        }
        for part in full() {
            self.element("h3", &part.title);
            part.findings.iter().for_each(|finding| self.finding(finding));
            if !part.seen_only.is_empty() {
                self.element("h4", "Looked at; no finding made of its own");
                self.rows(&part.seen_only);
            }
        }
        if !document.evidence.is_empty() {
            self.element("h2", "The evidence for what bears on safety");
            for one in &document.evidence {
                self.element("h3", &format!("Finding {}. {}", one.finding, one.title.trim()));
                self.rows(&one.rows);
            }
        }
        if !document.questions.is_empty() {
            self.element("h2", "Questions of her history");
            for question in &document.questions {
                self.element("h3", &question.seen);
                for one in &question.explanations {
                    self.element("h4", &one.words);
                    self.rows(&one.rows);
                }
                self.labelled("The surveyor", &question.note);
            }
        }
    }

    fn finding(&mut self, finding: &Finding) {
        self.element("h4", &format!("Finding {}. {}", finding.number, finding.title.trim()));
        let serious = if finding.serious { ". Bears on safety" } else { "" };
        self.paragraph(&format!("{}. Condition: {}{serious}.", finding.place.trim(), finding.condition.trim()));
        for seen in &finding.seen {
            let place = if seen.place.trim().is_empty() { String::new() } else { format!(" ({})", seen.place.trim()) };
            self.said(&seen.said, &format!("Observation {}{place}: ", seen.observation));
        }
        self.labelled("Reckoned", &numbers("see reckoning", &finding.reckonings));
        finding.proposed.iter().for_each(|said| self.said(said, ""));
        self.labelled("Opinion", &finding.opinion);
        finding.more.iter().for_each(|row| self.labelled(&row.label, &row.value));
        self.labelled("How sure", &finding.sure);
        for other in &finding.alternatives {
            self.labelled("Also considered", &format!("{}. Against it: {}", other.what.trim(), other.against.trim()));
        }
        self.labelled("See", &numbers("recommendation", &finding.recommendations));
        self.pictures(&finding.pictures);
    }

    fn reckoned(&mut self, document: &Document) {
        for draw in &document.draws {
            self.element("h2", "Fastenings drawn by plan");
            draw.words.iter().for_each(|words| self.paragraph(words));
            self.table(&draw.table);
        }
        if let Some(both) = &document.then_and_now {
            self.element("h2", "The survey before and this one");
            both.words.iter().for_each(|words| self.paragraph(words));
            both.tables.iter().for_each(|table| self.table(table));
            both.notes.iter().for_each(|words| self.paragraph(words));
        }
        if !document.reckonings.is_empty() {
            self.element("h2", "Reckonings");
        }
        for reckoning in &document.reckonings {
            self.element("h3", &format!("Reckoning {}. {}", reckoning.number, reckoning.title.trim()));
            self.rows(&reckoning.inputs);
            self.rows(&reckoning.results);
            self.labelled("By", &reckoning.equation);
            self.labelled("After", &reckoning.sources.join("; "));
            reckoning.cautions.iter().for_each(|words| self.labelled("Caution", words));
            self.labelled("The surveyor", &reckoning.note);
        }
    }

    fn recommendations(&mut self, document: &Document) {
        if document.recommendations.is_empty() {
            return;
        }
        self.element("h2", "Recommendations");
        for one in Recommendation::by_urgency(&document.recommendations) {
            self.element("h3", &format!("Recommendation {}. {}", one.number, one.title.trim()));
            self.labelled("When", &one.urgency.words(one.date.as_deref()));
            self.paragraph(&one.action);
            self.rows(&one.more);
            self.table(&one.ways);
            self.labelled("Answers", &numbers("finding", &one.findings));
            self.labelled("Since then", &one.standing);
        }
    }

    fn money(&mut self, document: &Document) {
        if let Some(estimate) = &document.estimate {
            self.element("h2", &format!("What the work may cost ({})", estimate.currency.trim()));
            let column = |title: &str| crate::Column::words(title, 1.0);
            let rows = estimate.lines.iter().map(|line| {
                [&line.item, &line.quantity, &line.low, &line.likely, &line.high, &line.note].map(Clone::clone).to_vec()
            });
            self.table(&Table {
                title: "Estimate".to_owned(),
                columns: ["What for", "How much", "Least", "Most likely", "Most", "Note"].map(column).to_vec(),
                rows: rows.collect(),
                note: String::new(),
            });
            self.rows(&estimate.totals);
            self.drawn(estimate.drawn.as_ref());
            estimate.notes.iter().for_each(|words| self.paragraph(words));
        }
        if let Some(value) = &document.value {
            self.element("h2", "Value");
            self.rows(&value.rows);
            self.paragraph(&value.reasoning);
            value.comparables.iter().for_each(|table| self.table(table));
            self.drawn(value.drawn.as_ref());
            value.notes.iter().for_each(|words| self.paragraph(words));
        }
    }

    fn end(&mut self, document: &Document) {
        if let Some(statement) = &document.statement {
            self.element("h2", "Statement");
            statement.words.iter().for_each(|said| self.said(said, ""));
            self.paragraph(&[statement.signed_by.name.as_str(), &statement.signed_by.qualification].join(" "));
            self.paragraph(&statement.place_and_date);
        }
        if !document.cautions.is_empty() {
            self.element("h2", "Cautions");
            document.cautions.iter().for_each(|words| self.paragraph(words));
        }
        if !document.observations.is_empty() {
            self.element("h2", "Observations");
            for one in &document.observations {
                self.said(&one.said, &format!("{}. {}, {}: ", one.number, one.place.trim(), one.method.trim()));
            }
        }
        document.records.iter().for_each(|table| self.table(table));
        self.pictures(&document.pictures);
        if !document.glossary.is_empty() {
            self.element("h2", "Words of the trade");
            let rows: Vec<Row> =
                document.glossary.iter().map(|term| Row::new(term.word.as_str(), term.meaning.as_str())).collect();
            self.rows(&rows);
        }
        if !document.sources.is_empty() {
            self.element("h2", "Published works");
            self.list(document.sources.iter().map(String::as_str));
        }
        if let Some(digest) = &document.digest {
            self.labelled("Digest of the field book (SHA-256)", &digest.sha256);
        }
    }
}
