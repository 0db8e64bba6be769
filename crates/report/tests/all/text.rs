//! What a reader reads: text taken out of the file again by another program (poppler's `pdftotext`) where the machine
//! has it. Where it has not, these tests say so and look at nothing; the structure tests stand by themselves.

use crate::boat::{Album, emptiest, fullest, hostile, options};
use crate::file::set;
use crate::record;
use report::{Document, Extras, Standing, compose};
use std::process::Command;

/// Returns the text of the file; none where there is no other reader.
fn read_back(pdf: &[u8]) -> Option<String> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("report.pdf");
    std::fs::write(&path, pdf).expect("writes");
    let Ok(out) = Command::new("pdftotext").arg("-layout").arg(&path).arg("-").output() else {
        eprintln!("pdftotext is not on this machine: text is not read back");
        return None;
    };
    assert!(out.status.success());
    let text = String::from_utf8(out.stdout).expect("UTF-8");
    Some(text.replace('\u{200b}', "").replace('\u{a0}', " "))
}

/// One space between words, no line ends, for finding sentences that run over lines.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_emptiest_survey_is_a_title_page_and_nothing_else() {
    let pdf = set(&emptiest(), &Album::default(), &options());
    assert_eq!(pdf.pages, 1);
    if let Some(text) = read_back(&pdf.bytes) {
        assert_eq!(flat(&text), "Survey Draft, not issued Vessel not named");
    }
}

#[test]
fn what_a_full_report_says_can_be_read_back_in_order() {
    let mut album = Album::default();
    let document = fullest(&mut album);
    let pdf = set(&document, &album, &options());
    let Some(text) = read_back(&pdf.bytes) else { return };
    let text = flat(&text);
    let mut from = 0;
    for words in [
        "Invented Tern",
        "Boat, people and places in this report are invented.",
        "Summary",
        "Before she floats: Draw the other eight keel bolts",
        "Contents",
        "Scope and access",
        "What was not seen",
        "Iron ballast cast in place",
        "How to read this report",
        "The vessel",
        "The owner says: ‘She was laid up from 1979 to 1994.’",
        "Drawings",
        "Findings",
        "Finding 1",
        "bears on safety",
        "work needed",
        "The owner says: ‘That plank was renewed by the yard about twelve years",
        "Proposed by machine",
        "Opinion",
        "Picture 1. Garboard, port side",
        "This picture could not be read",
        "Reckonings",
        "Hailwood and Horrobin, one hydrate.",
        "Recommendations",
        "Before she floats",
        "At the next haul-out, no later than 1 May 2027",
        "Watch: measure again on 1 October 2026",
        "Estimate",
        "Opinion of value",
        "Cautions",
        "Statement",
        "Versions of this report",
        "Observations",
        "Records",
        "Words of the trade",
        "Sources",
        "The field book",
    ] {
        let at = text[from..].find(words).unwrap_or_else(|| panic!("`{words}` is not after byte {from} in {text}"));
        from += at + words.len();
    }
    // Every page after the first has its running head; an issued report never says draft.
    assert_eq!(text.matches("Invented Tern, surveyed 3 June 2026").count(), pdf.pages - 1);
    assert!(text.contains(&format!("page {0} of {0}", pdf.pages)));
    assert!(!text.to_lowercase().contains("draft"));
}

#[test]
fn the_summary_is_one_page_whatever_it_holds() {
    let mut album = Album::default();
    let mut document = fullest(&mut album);
    let line = document.summary.found[0].clone();
    let many = |n: usize| {
        (0..n)
            .map(|i| report::SummaryLine {
                words: format!("{i} {}", "she has seen better days ".repeat(12)),
                ..line.clone()
            })
            .collect()
    };
    document.summary.found = many(30);
    document.summary.meaning = many(20);
    let pdf = set(&document, &album, &options());
    let Some(text) = read_back(&pdf.bytes) else { return };
    let pages: Vec<&str> = text.split('\u{c}').collect();
    assert!(pages[1].contains("Summary") && pages[1].contains("Money") && pages[1].contains("more: see the findings"));
    assert!(pages[2].contains("Contents"), "{}", pages[2]);
}

#[test]
fn hostile_text_comes_through_inert() {
    let document = hostile();
    let pdf = set(&document, &Album::default(), &options());
    assert!(pdf.letters_replaced > 0 && !pdf.set_plainly);
    let Some(text) = read_back(&pdf.bytes) else { return };
    let text = flat(&text);
    for words in [
        "<script>alert(1)</script>",
        "#panic(\"out\")",
        "$ x^2 / 0 $ *strong* _emph_ = heading @label <label>",
        "⟨U+4E2D⟩",
        "⟨U+202E⟩",
        "⟨U+0007⟩",
        "⟨U+FEFF⟩",
    ] {
        assert!(text.contains(words), "{words}");
    }
    let squeezed: String = text.chars().filter(|c| *c == 'x').collect();
    assert!(squeezed.len() >= 10_000);
    // Links to findings and recommendations that are not there stand as plain words.
    assert!(text.contains("Recommendation 404."));
}

#[test]
fn nothing_runs_over_the_edge_of_the_page() {
    let mut album = Album::default();
    let full = fullest(&mut album);
    for document in [full, hostile()] {
        let pdf = set(&document, &album, &options());
        let edges = words_right_edges(&pdf.bytes);
        assert!(edges.is_empty() || edges.len() > 500, "{}", edges.len());
        for (page, right, width) in edges {
            assert!(right <= width - 40.0, "page {page}: a word ends at {right} of {width}");
        }
    }
}

/// Returns for each word the page, where it ends and the page's width, in points, as poppler sees them.
fn words_right_edges(pdf: &[u8]) -> Vec<(usize, f64, f64)> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("report.pdf");
    std::fs::write(&path, pdf).expect("writes");
    let Ok(out) = Command::new("pdftotext").arg("-bbox").arg(&path).arg("-").output() else { return Vec::new() };
    let html = String::from_utf8_lossy(&out.stdout).into_owned();
    let number = |line: &str, name: &str| {
        let at = line.find(&format!("{name}=\""))? + name.len() + 2;
        line[at..].split('"').next()?.parse::<f64>().ok()
    };
    let (mut page, mut width) = (0, 0.0);
    let mut edges = Vec::new();
    for line in html.lines() {
        if line.contains("<page ") {
            page += 1;
            width = number(line, "width").unwrap_or(0.0);
        } else if line.contains("<word ") {
            edges.extend(number(line, "xMax").map(|right| (page, right, width)));
        }
    }
    edges
}

#[test]
fn a_survey_composes_into_what_its_record_says() {
    let mut album = Album::default();
    let state = record::fullest(&mut album);
    let document = compose(&state, &Extras::default());
    insta::assert_json_snapshot!("recorded", document);
    let issued = compose(
        &state,
        &Extras {
            standing: Standing::Issued { version: 1, date: "5 June 2026".into() },
            first: measure::System::Customary,
            ..Extras::default()
        },
    );
    assert!(issued.particulars.iter().any(|row| row.label == "Length over all" && row.value.ends_with("(9.140 m)")));
}

#[test]
fn a_survey_without_entries_composes_into_nothing() {
    let state = survey::State::new(survey::SurveyId::from_bits(1));
    let document = compose(&state, &Extras::default());
    // It has a name of its own and a standing, and says that there is nothing.
    assert!(document.notice.starts_with("Nothing is recorded"), "{}", document.notice);
    assert_eq!(document.standing_words, "Draft, not issued");
    let bare = Document { notice: String::new(), standing_words: String::new(), reference: String::new(), ..document };
    assert_eq!(bare, Document::default());
}

#[test]
fn numbers_in_a_composed_report_point_at_one_another() {
    let mut album = Album::default();
    let document = compose(&record::fullest(&mut album), &Extras::default());
    let findings: Vec<_> = document.parts.iter().flat_map(|p| &p.findings).collect();
    assert_eq!(findings.iter().map(|f| f.number).collect::<Vec<_>>(), [1, 2, 3]);
    for finding in &findings {
        for number in &finding.recommendations {
            let answer = document.recommendations.iter().find(|r| r.number == *number).expect("there");
            assert!(answer.findings.contains(&finding.number));
        }
        for seen in &finding.seen {
            let observation = document.observations.iter().find(|o| o.number == seen.observation).expect("there");
            assert!(observation.findings.contains(&finding.number));
            assert_eq!(observation.said, seen.said);
        }
    }
    // Recommendations are numbered in the order of urgency in which they are printed.
    let urgencies: Vec<_> = document.recommendations.iter().map(|r| r.urgency).collect();
    assert!(urgencies.is_sorted());
}
