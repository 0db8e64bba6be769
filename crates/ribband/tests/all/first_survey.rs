//! From nothing to a report, as the help texts tell it.

use crate::book::{Book, jpeg, text_of_pdf};

/// Text with runs of white space as single blanks, because a page breaks lines where it likes.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn from_a_new_survey_to_a_report_whose_text_reads_back() {
    let book = Book::with_survey();
    let heard = book.entered(&[
        "enter",
        "observation",
        "--member",
        "garboard",
        "--side",
        "port",
        "--strake",
        "1",
        "--frame",
        "11",
        "--frame-to",
        "13",
        "--method",
        "sound",
        "--answer",
        "dull_or_hollow",
        "--note",
        "Dull over three frames.",
    ]);
    let probed = book.entered(&[
        "enter",
        "observation",
        "--member",
        "garboard",
        "--side",
        "port",
        "--strake",
        "1",
        "--frame",
        "11",
        "--method",
        "probe",
        "--knife",
        "firm",
        "--depth",
        "1/16\"",
        "--moves",
        "yes",
    ]);
    book.file("seam.jpg", &jpeg(800, 600));
    book.good(&[
        "attach",
        "seam.jpg",
        "--to",
        &probed,
        "--caption",
        "Garboard lifted with a wedge",
        "--alternative",
        "A plank's edge standing away from the frame behind it.",
    ]);
    book.good(&[
        "enter",
        "not-seen",
        "--member",
        "keel",
        "--why",
        "she stands on it",
        "--needs",
        "lift and shift the blocks",
    ]);
    let finding = book.entered(&[
        "enter",
        "finding",
        "--member",
        "garboard",
        "--side",
        "port",
        "--frame",
        "11",
        "--title",
        "Port garboard loose",
        "--condition",
        "work_needed",
        "--likely-state",
        "loose",
        "--serious",
        "--text",
        "The plank is firm wood but has come off its frames.",
        "--alternative",
        "decay: the knife finds firm wood",
        "--basis",
        &heard,
        "--basis",
        &probed[probed.len() - 8..],
        "--sure",
        "likely",
    ]);
    book.good(&[
        "enter",
        "recommendation",
        "--title",
        "Refasten the port garboard",
        "--action",
        "Draw the rivets at frames 11 to 13, look at the frames behind, refasten.",
        "--urgency",
        "before_she_floats",
        "--finding",
        &finding,
        "--who",
        "the yard",
    ]);
    book.good(&["report", "--out", "example.pdf"]);

    let pdf = book.folder.path().join("example.pdf");
    let text = flowing(&text_of_pdf(&pdf));
    for words in [
        "Example",
        "A. Buyer",
        "A. Surveyor",
        "Port garboard loose",
        "The plank is firm wood but has come off its frames.",
        "the knife finds firm wood",
        "Garboard lifted with a wedge",
        "Refasten the port garboard",
        "before she floats",
        "she stands on it",
        "frames 11 to 13",
    ] {
        assert!(text.to_lowercase().contains(&words.to_lowercase()), "`{words}` is in the report:\n{text}");
    }
    let digest = book.json(&["verify"])["surveys"][0]["field_book"].as_str().unwrap().to_owned();
    assert!(text.replace(' ', "").contains(&digest), "the digest of the field book is in the report");
}

#[test]
fn the_same_record_gives_the_same_report_to_the_byte() {
    let book = Book::with_survey();
    book.good(&["report", "--out", "one.pdf"]);
    book.good(&["report", "--out", "two.pdf"]);
    let read = |name: &str| std::fs::read(book.folder.path().join(name)).unwrap();
    assert_eq!(read("one.pdf"), read("two.pdf"));
}

#[test]
fn the_demo_loads_verifies_and_gives_a_report() {
    let book = Book::new();
    book.good(&["demo", "--into", "marram"]);
    let again = book.run(&["demo", "--into", "marram"]);
    assert_eq!(again.status, 0, "loading her twice changes nothing: {}", again.err);
    let verified = book.json(&["--folder", "marram", "verify"]);
    assert_eq!(verified["fits"], true);
    assert!(verified["entries"].as_u64().unwrap() >= 120);
    book.good(&["--folder", "marram", "report", "--out", "marram.pdf"]);
    let text = text_of_pdf(&book.folder.path().join("marram.pdf"));
    assert!(text.contains("Marram") && text.to_lowercase().contains("invented"));
}

#[test]
fn what_speaks_against_a_member_is_never_hidden() {
    let book = Book::with_survey();
    let soft = ["enter", "observation", "--member", "keelson", "--method", "probe", "--knife", "soft"];
    let lost = book.entered(&soft);
    let seen = book.entered(&["enter", "observation", "--member", "stem", "--method", "sound", "--answer", "rings"]);
    book.file("stem.jpg", &jpeg(80, 60));
    book.good(&["attach", "stem.jpg", "--to", "LAST", "--caption", "A stem photographed"]);
    // LAST is the blow, not its picture.
    let finding =
        ["enter", "finding", "--member", "stem", "--title", "Stem", "--condition", "sound", "--text", "Rings."];
    book.good(&[&finding[..], &["--basis", "LAST", "--basis", &lost]].concat());
    let shown = book.json(&["show", "--kind", "finding"]);
    assert_eq!(shown[0]["payload"]["basis"][0], seen.as_str());
    book.entered(&["enter", "observation", "--member", "hog", "--method", "probe", "--knife", "soft"]);
    book.good(&["amend", &lost, "--why", "another boat", "--withdraw"]);
    book.good(&["report", "--out", "against.pdf"]);
    let text = flowing(&text_of_pdf(&book.folder.path().join("against.pdf")));
    assert!(text.contains("Speaks against it, with no finding made of it: observation 2"), "{text}");
    assert!(text.contains("One entry that this finding rested on has been withdrawn"), "{text}");
    assert!(text.contains("A stem photographed"), "{text}");
}
