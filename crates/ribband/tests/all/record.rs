//! Amending, history, packing, verifying.

use crate::book::{Book, jpeg};
use std::process::Stdio;

const RINGS: &[&str] =
    &["enter", "observation", "--member", "stem", "--method", "sound", "--answer", "rings", "--note", "both sides"];

#[test]
fn an_entry_is_amended_and_its_history_stays() {
    let book = Book::with_survey();
    let id = book.entered(RINGS);
    book.good(&["amend", &id, "--why", "heard again", "--set", "reading.answer=dull_or_hollow", "--set", "note="]);
    let shown = book.json(&["show", "--entry", &id]);
    assert_eq!(shown["payload"]["reading"]["answer"], "dull_or_hollow");
    assert_eq!(shown["payload"].get("note"), None);
    assert_eq!(shown["versions"][0]["payload"]["note"], "both sides");
    assert_eq!(shown["versions"][1]["why"], "heard again");

    book.good(&["amend", &id, "--why", "wrong boat", "--withdraw"]);
    assert_eq!(book.json(&["show", "--entry", &id])["withdrawn"], true);
    let refused = book.refused(&["amend", &id, "--why", "x", "--set", "reading.answer=sings"]);
    assert!(refused.contains("sings"), "{refused}");
}

#[test]
fn json_lines_are_entered_all_or_none() {
    let book = Book::with_survey();
    let good = r#"{"kind":"not_seen","payload":{"member":"keel","why":"on the blocks"}}"#;
    let bad = r#"{"kind":"not_seen","payload":{"member":"keel"}}"#;
    let before = book.json(&["show"]).as_array().unwrap().len();
    let said = book.run_with_input(&["enter", "lines"], &format!("{good}\n{bad}\n"));
    assert_eq!(said.status, 2);
    assert!(said.err.contains("line 2") && said.err.contains("why"), "{}", said.err);
    assert_eq!(book.json(&["show"]).as_array().unwrap().len(), before, "nothing was entered");
    assert_eq!(book.run_with_input(&["enter", "lines"], &format!("{good}\n\n{good}\n")).status, 0);
    assert_eq!(book.json(&["show"]).as_array().unwrap().len(), before + 2);
}

#[test]
fn a_line_may_name_an_earlier_one_by_an_identifier_of_its_own() {
    let book = Book::with_survey();
    let lines = r#"{"id":"0196c0de-0000-7000-8000-000000000001","kind":"observation","payload":{"member":"stem","reading":{"method":"sound","answer":"rings"}}}
{"kind":"finding","payload":{"title":"Stem","member":"stem","condition":"sound","text":"Rings.","basis":["0196c0de-0000-7000-8000-000000000001"]}}"#;
    let said = book.run_with_input(&["enter", "lines"], lines);
    assert_eq!(said.status, 0, "{}", said.err);
}

#[test]
fn a_survey_travels_in_one_file_and_comes_twice_without_harm() {
    let (here, there) = (Book::with_survey(), Book::new());
    let id = here.entered(RINGS);
    here.file("stem.jpg", &jpeg(64, 48));
    here.good(&["attach", "stem.jpg", "--to", &id, "--caption", "Stem"]);
    here.good(&["pack", "--out", "example.ribband"]);
    let package = here.folder.path().join("example.ribband");
    let package = package.to_str().unwrap();
    there.good(&["unpack", package]);
    there.good(&["unpack", package]);
    let digest = |book: &Book| book.json(&["verify"])["surveys"][0]["field_book"].clone();
    assert_eq!(digest(&here), digest(&there));
    assert_eq!(there.json(&["verify"])["attachments"], 1);
}

#[test]
fn a_package_with_an_altered_byte_changes_nothing_and_says_so() {
    let (here, there) = (Book::with_survey(), Book::new());
    here.file("stem.jpg", &jpeg(64, 48));
    here.good(&["attach", "stem.jpg"]);
    here.good(&["pack", "--out", "example.ribband"]);
    let package = here.folder.path().join("example.ribband");
    let whole = std::fs::read(&package).unwrap();
    for (name, bytes) in [
        ("half", whole[..whole.len() / 2].to_vec()),
        ("bent", {
            let mut bent = whole.clone();
            let middle = bent.len() / 3;
            bent[middle] ^= 0x55;
            bent
        }),
    ] {
        let file = there.file(name, &bytes);
        let said = there.run(&["unpack", file.to_str().unwrap()]);
        assert_ne!(said.status, 0, "{name}");
        assert_eq!(said.err.trim_end().lines().count(), 1, "{name}: {}", said.err);
        assert_eq!(there.json(&["list"]), serde_json::json!([]), "{name}");
    }
}

#[test]
fn an_altered_attachment_is_found() {
    let book = Book::with_survey();
    book.file("stem.jpg", &jpeg(64, 48));
    book.good(&["attach", "stem.jpg"]);
    let mut kept = None;
    for shelf in std::fs::read_dir(book.surveys().join("attachments")).unwrap() {
        for file in std::fs::read_dir(shelf.unwrap().path()).unwrap() {
            kept = Some(file.unwrap().path());
        }
    }
    let kept = kept.expect("the attachment lies in the folder");
    let mut bytes = std::fs::read(&kept).unwrap();
    bytes[30] ^= 1;
    std::fs::write(&kept, bytes).unwrap();
    let said = book.run(&["verify"]);
    assert_eq!(said.status, 1);
    let name = kept.file_name().unwrap().to_str().unwrap();
    assert!(said.out.contains(name), "{}", said.out);
}

#[test]
fn two_programs_write_at_once_and_nothing_is_lost() {
    let book = Book::with_survey();
    let mut children: Vec<_> = (0..6)
        .map(|_| book.command(RINGS).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().expect("the program runs"))
        .collect();
    for child in &mut children {
        assert!(child.wait().unwrap().success());
    }
    let verified = book.json(&["verify"]);
    assert_eq!((&verified["fits"], &verified["entries"]), (&true.into(), &8.into()));
}

#[test]
fn members_are_listed_with_what_is_owed() {
    let book = Book::with_survey();
    book.good(RINGS);
    book.good(&["enter", "member", "--member", "centreboard-case", "--lacks"]);
    let owed = book.json(&["show", "--owed"]);
    let ids: Vec<_> = owed.as_array().unwrap().iter().map(|m| m["member"].as_str().unwrap()).collect();
    assert!(ids.contains(&"keel") && !ids.contains(&"stem") && !ids.contains(&"centreboard-case"));
}

#[test]
fn what_would_be_lost_or_replaced_without_a_word_is_refused() {
    let book = Book::with_survey();
    let sound = ["enter", "observation", "--member", "stem", "--method", "sound", "--answer", "rings"];
    let with = |more: &[&'static str]| [&sound[..], more].concat();
    assert!(book.refused(&with(&["--knife", "firm"])).contains("--knife belongs to --method probe"));
    assert!(book.refused(&["enter", "brief", "--purpose", "damage"]).contains("amend that one"));
    assert!(book.refused(&["enter", "vessel", "--name", "Another"]).contains("amend that one"));
    let unknown = book.refused(&["enter", "not-seen", "--member", "garbord", "--why", "shored"]);
    assert!(unknown.contains("near to it are garboard"), "{unknown}");
    book.good(&["enter", "member", "--member", "fish-well", "--called", "fish well"]);
    book.good(&["enter", "not-seen", "--member", "fish-well", "--why", "full"]);
    let low =
        ["enter", "estimate-line", "--item", "x", "--low", "-1", "--likely", "2", "--high", "3", "--currency", "EUR"];
    assert!(book.refused(&low).contains("must be numbers from 0 in rising order"));
    assert!(book.refused(&["amend", "LAST", "--why", " ", "--set", "note=x"]).contains("--why is empty"));
    let thin = [
        "enter",
        "observation",
        "--member",
        "stem",
        "--method",
        "measure",
        "--quantity",
        "thickness",
        "--value",
        "-3 mm",
    ];
    assert!(book.refused(&thin).contains("a thickness is -3 mm"));
    assert!(book.refused(&with(&["--seen-on", "2999-01-01"])).contains("has not come yet"));
}

#[test]
fn the_day_of_seeing_is_kept_beside_the_time_of_writing() {
    let book = Book::with_survey();
    let seen = [
        "enter",
        "observation",
        "--member",
        "stem",
        "--method",
        "sound",
        "--answer",
        "rings",
        "--seen-on",
        "2026-05-11",
    ];
    book.good(&seen);
    assert_eq!(book.json(&["show", "--kind", "observation"])[0]["payload"]["seen_on"], "2026-05-11");
}

#[test]
fn a_fastening_thicker_than_new_is_entered_with_a_caution() {
    let book = Book::with_survey();
    let drawn = [
        "enter",
        "observation",
        "--member",
        "keel-bolt",
        "--method",
        "draw",
        "--fastening",
        "iron bolt",
        "--condition",
        "good",
        "--original",
        "19",
        "--measured",
        "21",
    ];
    let said = book.run(&drawn);
    assert_eq!(said.status, 0);
    assert!(said.err.contains("measures 21 mm now and 19 mm as new"), "{}", said.err);
}

#[test]
fn a_package_without_its_attachments_is_not_made_unless_it_is_asked_for() {
    let book = Book::with_survey();
    book.file("stem.jpg", &jpeg(64, 48));
    book.good(&["attach", "stem.jpg"]);
    std::fs::remove_dir_all(book.surveys().join("attachments")).unwrap();
    let said = book.run(&["pack", "--out", "p.ribband"]);
    assert_eq!(said.status, 1);
    assert!(said.err.contains("nothing was packed: attachment "), "{}", said.err);
    assert!(!book.folder.path().join("p.ribband").exists());
    let packed = book.json(&["pack", "--out", "p.ribband", "--without-missing"]);
    assert_eq!(packed["left_out"].as_array().unwrap().len(), 1);
}

#[test]
fn the_demo_is_not_poured_into_a_folder_with_something_in_it() {
    let book = Book::new();
    std::fs::create_dir(book.folder.path().join("full")).unwrap();
    book.file("full/letter.txt", b"mine");
    assert!(book.refused(&["demo", "--into", "full"]).contains("there is something in this folder"));
    let real = Book::with_survey();
    let surveys = real.surveys();
    assert!(real.refused(&["demo", "--into", surveys.to_str().unwrap()]).contains("there is something in this folder"));
    // Her own folder takes her again, and nothing is new.
    book.good(&["demo", "--into", "marram"]);
    assert_eq!(book.json(&["demo", "--into", "marram"])["entries_new"], 0);
}

#[test]
fn every_sheet_is_listed_and_drawn_by_its_name() {
    let book = Book::new();
    book.good(&["demo", "--into", "marram"]);
    fn drawn<'a>(args: &[&'a str]) -> Vec<&'a str> {
        [&["--folder", "marram"], args].concat()
    }
    let sheets = book.json(&drawn(&["draw", "--list"]));
    let names: Vec<_> = sheets.as_array().unwrap().iter().map(|s| s["sheet"].as_str().unwrap().to_owned()).collect();
    for name in ["shell-port", "shell-starboard", "shell-both", "backbone", "framing", "deck"] {
        assert!(names.iter().any(|n| n == name), "{name} in {names:?}");
    }
    assert!(!names.iter().any(|n| n == "transom"), "she is double-ended");
    for name in &names {
        book.good(&drawn(&["draw", "--sheet", name, "--svg", "one.svg"]));
        assert!(std::fs::read_to_string(book.folder.path().join("one.svg")).unwrap().contains("data-"));
    }
    assert!(book.refused(&drawn(&["draw", "--sheet", "keel", "--svg", "one.svg"])).contains("accepted are shell-port"));
}
