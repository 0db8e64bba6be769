//! The report in its other forms: to edit, and for a yard.

use crate::book::Book;
use std::io::Read as _;

fn book() -> Book {
    let book = Book::with_survey();
    let finding = book.entered(&[
        "enter",
        "finding",
        "--title",
        "garboard decayed",
        "--member",
        "garboard",
        "--side",
        "port",
        "--frame",
        "6",
        "--condition",
        "work_needed",
        "--text",
        "The lower edge is decayed.",
    ]);
    let work = book.entered(&[
        "enter",
        "recommendation",
        "--title",
        "Garboard",
        "--action",
        "Renew it",
        "--urgency",
        "before_she_floats",
        "--finding",
        &finding,
        "--way",
        "leave_and_watch; risks: the seam opens",
        "--way",
        "renew; needs: dry larch; lasts: 30 years; opens: the frame heels; advised",
    ]);
    book.good(&[
        "enter",
        "estimate-line",
        "--item",
        "plank",
        "--recommendation",
        &work,
        "--trade",
        "shipwright",
        "--low",
        "100",
        "--likely",
        "200",
        "--high",
        "600",
        "--currency",
        "EUR",
        "--quantity",
        "3.2",
        "--unit",
        "m",
    ]);
    book
}

fn part(docx: &[u8], name: &str) -> String {
    let mut zip = zip::ZipArchive::new(std::io::Cursor::new(docx)).expect("a ZIP");
    let mut text = String::new();
    zip.by_name(name).expect("the part").read_to_string(&mut text).expect("text");
    text
}

#[test]
fn the_name_of_the_file_tells_what_is_written() {
    let book = book();
    for (name, begins) in [("r.pdf", &b"%PDF-1.7"[..]), ("r.docx", b"PK\x03\x04"), ("r.xlsx", b"PK\x03\x04")] {
        book.good(&["report", "--out", name]);
        let bytes = std::fs::read(book.folder.path().join(name)).expect("written");
        assert!(bytes.starts_with(begins), "{name}");
    }
    let told = book.json(&["report", "--out", "list", "--format", "csv"]);
    assert_eq!(told["rows"], 1);
    let text = std::fs::read_to_string(book.folder.path().join("list")).expect("written");
    assert!(text.contains("Garboard") && text.contains(",3.2,m,100,200,600,EUR,"), "{text}");
}

#[test]
fn the_report_to_edit_says_what_the_report_says() {
    let book = book();
    book.good(&["report", "--out", "r.docx"]);
    let docx = std::fs::read(book.folder.path().join("r.docx")).expect("written");
    let text = part(&docx, "word/document.xml");
    for words in ["The lower edge is decayed.", "Renew (advised)", "Dry larch.", "The frame heels.", "REF finding_1"] {
        assert!(text.contains(words), "{words}");
    }
    book.good(&["report", "--out", "again.docx"]);
    assert!(docx == std::fs::read(book.folder.path().join("again.docx")).expect("written"), "the same bytes");
}

#[test]
fn a_way_that_is_not_understood_is_refused() {
    let book = book();
    let enter = |way: &str| {
        book.refused(&[
            "enter",
            "recommendation",
            "--title",
            "Garboard",
            "--action",
            "Renew it",
            "--urgency",
            "before_she_floats",
            "--way",
            way,
        ])
    };
    assert!(enter("renew; costs: much").contains("`costs: much` is not understood"));
    assert!(enter("paint").contains("repair_in_place"));
}
