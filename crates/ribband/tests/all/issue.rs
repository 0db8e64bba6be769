//! Checking, issuing, and telling a stranger whether a report is what was issued.

use crate::book::{Book, jpeg, text_of_pdf};
use std::path::PathBuf;

/// A survey of an invented boat of which every member but one is struck off, so that it can be issued.
fn ready() -> Book {
    let book = Book::with_survey();
    let members = book.json(&["show", "--members"]);
    let lines = members.as_array().expect("members").iter().filter(|m| m["member"] != "stem").map(|m| {
        format!("{}\n", serde_json::json!({"kind": "member", "payload": {"member": m["member"], "has": false}}))
    });
    let said = book.run_with_input(&["enter", "lines"], &lines.collect::<String>());
    assert_eq!(said.status, 0, "{}", said.err);
    let vessel = book.json(&["show", "--kind", "vessel"])[0]["id"].as_str().expect("an entry").to_owned();
    book.good(&["amend", &vessel, "--why", "the year is known", "--set", "built_year=1950"]);
    book.good(&["enter", "conditions", "--date", "2026-06-03", "--place", "Nowhere Yard"]);
    let heard = book.entered(&["enter", "observation", "--member", "stem", "--method", "sound", "--answer", "rings"]);
    book.good(&[
        "enter",
        "finding",
        "--member",
        "stem",
        "--title",
        "Stem rings",
        "--condition",
        "sound",
        "--text",
        "It rings.",
        "--basis",
        &heard,
    ]);
    book
}

fn issue(book: &Book, name: &str, more: &[&str]) -> (PathBuf, PathBuf) {
    book.good(&[&["issue", "--out", name, "--date", "2026-06-04"], more].concat());
    let report = book.folder.path().join(name);
    (report.clone(), PathBuf::from(format!("{}.sig", report.display())))
}

#[test]
fn a_check_tells_what_is_wanting_and_a_reason_overrules_it() {
    let book = Book::with_survey();
    let said = book.run(&["check"]);
    assert_eq!(said.status, 1);
    assert!(
        said.out.contains("conditions-present (stops the issue)") && said.out.contains("to be entered: conditions"),
        "{}",
        said.out
    );
    let refused = book.run(&["issue", "--out", "early.pdf"]);
    assert_eq!(refused.status, 1);
    assert!(!book.folder.path().join("early.pdf").exists());
    assert!(book.refused(&["issue", "--against", "no-such-rule=because"]).contains("members-covered"));
    assert!(book.refused(&["issue", "--against", "members-covered="]).contains("with a reason"));

    let ready = ready();
    assert!(ready.good(&["check"]).contains("Nothing is wanting."));
    let day = ready.json(&["show", "--kind", "conditions"])[0]["id"].as_str().expect("an entry").to_owned();
    ready.good(&["amend", &day, "--why", "wrong boat", "--withdraw"]);
    assert_eq!(ready.run(&["issue", "--out", "a.pdf"]).status, 1);
    let (report, _) = issue(&ready, "a.pdf", &["--against", "conditions-present=the day is in the covering letter"]);
    let text = text_of_pdf(&report).replace('\n', " ");
    assert!(text.contains("Issued against advice") && text.contains("the day is in the covering letter"), "{text}");
    let issued = ready.json(&["show", "--kind", "report_issued"]);
    assert_eq!(issued[0]["payload"]["issue"]["against"][0]["rule"], "conditions-present");
}

#[test]
fn a_stranger_can_tell_whether_a_report_is_what_was_issued() {
    let book = ready();
    let hand = book.file("hand.jpg", &jpeg(300, 90));
    let (report, seal) = issue(&book, "one.pdf", &["--signature-image", hand.to_str().expect("a path")]);
    book.good(&["key", "--out", "surveyor.pub"]);
    book.good(&["pack", "--out", "boat.ribband"]);
    assert!(text_of_pdf(&report).contains("Certificate"));

    // On the stranger's machine there are the files and nothing else.
    let stranger = Book::new();
    let name = |file: &str| book.folder.path().join(file).display().to_string();
    let (pdf, key, package) = (name("one.pdf"), name("surveyor.pub"), name("boat.ribband"));
    let good = stranger.good(&["verify", &pdf, "--public-key", &key, "--package", &package]);
    assert!(good.contains("this is version 1") && good.contains("every entry and attachment in it fits"), "{good}");

    // One changed byte of the report.
    let bytes = std::fs::read(&report).expect("the report");
    for at in [0, bytes.len() / 2, bytes.len() - 1] {
        let mut other = bytes.clone();
        other[at] ^= 1;
        let forged = stranger.file("forged.pdf", &other);
        let said = stranger.run(&[
            "verify",
            forged.to_str().expect("a path"),
            "--public-key",
            &key,
            "--signature",
            seal.to_str().expect("a path"),
        ]);
        assert_eq!(said.status, 1, "byte {at}");
        assert!(said.err.contains("not the one that was issued"), "{}", said.err);
    }
    // A changed seal, and another surveyor's key.
    let text = std::fs::read_to_string(&seal).expect("the seal");
    let other = stranger.file("other.sig", text.replace("\"version\": 1", "\"version\": 2").as_bytes());
    let said = stranger.run(&["verify", &pdf, "--public-key", &key, "--signature", other.to_str().expect("a path")]);
    assert!(said.status == 1 && said.err.contains("not by this key"), "{}", said.err);
    stranger.good(&["key", "--author", "B. Surveyor", "--out", "other.pub"]);
    let said = stranger.run(&["verify", &pdf, "--public-key", "other.pub"]);
    assert!(said.status == 1 && said.err.contains("not by this key"), "{}", said.err);
    let said = stranger.run(&["verify", &pdf]);
    assert!(said.status == 2 && said.err.contains("--public-key"), "{}", said.err);

    // One changed letter of an entry in the package.
    let packed = std::fs::read(&package).expect("the package");
    let broken = stranger.file("broken.ribband", &changed_in_the_middle(&packed));
    let said = stranger.run(&["verify", &pdf, "--public-key", &key, "--package", broken.to_str().expect("a path")]);
    assert_eq!(said.status, 1, "{}", said.out);
}

fn changed_in_the_middle(bytes: &[u8]) -> Vec<u8> {
    let mut out = bytes.to_vec();
    let at = out.len() / 3;
    out[at] ^= 1;
    out
}

#[test]
fn the_exact_bytes_are_kept_and_a_changed_attachment_is_found() {
    let book = ready();
    let (report, _) = issue(&book, "one.pdf", &[]);
    assert!(book.good(&["verify"]).contains("All fits."));
    let issued = book.json(&["show", "--kind", "report_issued"]);
    let digest = issued[0]["payload"]["sha256"].as_str().expect("a digest").to_owned();
    let kept = find(&book.surveys(), &digest).expect("the report is kept");
    assert_eq!(std::fs::read(&kept).expect("kept"), std::fs::read(&report).expect("written"));
    let mut bytes = std::fs::read(&kept).expect("kept");
    bytes[100] ^= 1;
    let mut rights = std::fs::metadata(&kept).expect("kept").permissions();
    #[expect(clippy::permissions_set_readonly_false, reason = "the test's own copy is damaged on purpose")]
    rights.set_readonly(false);
    std::fs::set_permissions(&kept, rights).expect("the test may write");
    std::fs::write(&kept, bytes).expect("the test may write");
    let said = book.run(&["verify"]);
    assert!(said.status == 1 && said.out.contains(&digest), "{}{}", said.out, said.err);
}

/// Finds a kept file by its digest, wherever the store lays it.
fn find(folder: &std::path::Path, digest: &str) -> Option<PathBuf> {
    std::fs::read_dir(folder).ok()?.filter_map(Result::ok).find_map(|entry| {
        let path = entry.path();
        if path.is_dir() {
            return find(&path, digest);
        }
        let name: String = path.to_string_lossy().replace(['/', '\\'], "");
        (name.contains(&digest[2..]) && !name.contains("prints")).then_some(path)
    })
}

#[cfg(unix)]
#[test]
fn the_key_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let book = ready();
    issue(&book, "one.pdf", &[]);
    let key = book.surveys().join("surveyor.key");
    assert_eq!(std::fs::metadata(&key).expect("a key was drawn").permissions().mode() & 0o777, 0o600);
    std::fs::set_permissions(&key, std::fs::Permissions::from_mode(0o644)).expect("the test may");
    let said = book.run(&["issue", "--out", "two.pdf"]);
    assert!(said.status == 1 && said.err.contains("others on this machine may read"), "{}", said.err);
}

#[test]
fn a_second_version_tells_what_changed() {
    let book = ready();
    issue(&book, "one.pdf", &[]);
    let finding = book.json(&["show", "--kind", "finding"])[0]["id"].as_str().expect("an entry").to_owned();
    book.good(&["amend", &finding, "--why", "heard again", "--set", "title=Stem rings but for its foot"]);
    assert!(book.good(&["check"]).contains("issued-version-current (advice)"));
    let (report, _) = issue(&book, "two.pdf", &["--changes", "The stem was heard again."]);
    let text = text_of_pdf(&report).replace('\n', " ");
    assert!(text.contains("What changed since the version before") && text.contains("Why: heard again."), "{text}");
    let again = book.refused(&["issue", "--out", "two.pdf"]);
    assert!(again.contains("is there already"), "{again}");
}

#[test]
fn withdrawing_tells_what_hangs_on_it() {
    let book = ready();
    let heard = book.json(&["show", "--kind", "observation"])[0]["id"].as_str().expect("an entry").to_owned();
    let said = book.good(&["amend", &heard, "--why", "wrong boat", "--withdraw"]);
    assert!(said.contains("What hangs on it: finding") && said.contains("Stem rings"), "{said}");
}

#[test]
fn the_next_survey_begins_from_the_last() {
    let book = ready();
    let finding = book.json(&["show", "--kind", "finding"])[0]["id"].as_str().expect("an entry").to_owned();
    book.good(&[
        "enter",
        "recommendation",
        "--title",
        "Sound the stem again",
        "--action",
        "Sound it.",
        "--urgency",
        "find_out",
        "--finding",
        &finding,
    ]);
    book.good(&["pack", "--out", "last.ribband"]);
    let made = book.json(&["create", "--after", "Example", "--purpose", "re-inspection"]);
    assert_eq!(made["recommendations_carried"], 1);
    let next = made["survey"].as_str().expect("a survey").to_owned();
    let carried = book.json(&["--survey", &next, "show", "--kind", "recommendation"]);
    assert_eq!(carried[0]["payload"]["carried_from"]["findings"][0], "Stem rings");
    assert!(book.json(&["--survey", &next, "show", "--kind", "observation"]).as_array().expect("a list").is_empty());
    book.good(&["--survey", &next, "report", "--out", "next.pdf"]);
    let text = text_of_pdf(&book.folder.path().join("next.pdf")).replace('\n', " ");
    assert!(text.contains("Since the survey before") && text.contains("Nothing is recorded."), "{text}");

    // From a package, on another desk.
    let elsewhere = Book::new();
    let package = book.folder.path().join("last.ribband").display().to_string();
    let words = ["create", "--after", &package, "--purpose", "re-inspection", "--author", "B. Surveyor"];
    assert_eq!(elsewhere.json(&words)["recommendations_carried"], 1);
    assert!(book.refused(&["create", "--purpose", "pre-purchase"]).contains("--name"));
}

#[test]
fn a_style_of_ones_own_is_read_from_the_desk_and_a_wrong_one_is_refused() {
    let book = ready();
    book.file("surveys/limits.txt", b"What was not seen is not reported on.\n\nSo it was agreed.\n");
    let style = "letterhead = ['A. Surveyor', '1 Nowhere Quay']\nlicences = ['Invented licence 12']\npaper = 'letter'\nletters = 'large'\n\n[[limitations]]\ntitle = 'Reach'\nfile = 'limits.txt'\n";
    book.file("surveys/style.toml", style.as_bytes());
    book.good(&["report", "--out", "styled.pdf"]);
    let text = text_of_pdf(&book.folder.path().join("styled.pdf"));
    for words in ["1 Nowhere Quay", "Invented licence 12", "So it was agreed."] {
        assert!(text.contains(words), "{words}: {text}");
    }
    let wrong = book.file("wrong.toml", b"leterhead = ['x']\n");
    let said = book.refused(&["report", "--out", "x.pdf", "--style", wrong.to_str().expect("a path")]);
    assert!(said.contains("leterhead"), "{said}");
}

#[test]
fn a_missing_picture_is_told_by_the_exit_status_unless_it_is_taken_as_it_is() {
    let book = ready();
    let picture = book.file("stem.jpg", &jpeg(400, 300));
    let heard = book.json(&["show", "--kind", "observation"])[0]["id"].as_str().expect("an entry").to_owned();
    book.good(&["attach", picture.to_str().expect("a path"), "--to", &heard, "--caption", "The stem."]);
    book.good(&["report", "--out", "whole.pdf"]);
    let attachment = book.json(&["show", "--kind", "attachment"]);
    let digest = attachment[0]["payload"]["sha256"].as_str().expect("a digest").to_owned();
    std::fs::remove_file(find(&book.surveys(), &digest).expect("it is kept")).expect("the test may");
    for folder in ["cache", "prints"] {
        let _ = std::fs::remove_dir_all(book.surveys().join(folder));
    }
    let said = book.run(&["report", "--out", "holes.pdf"]);
    assert_eq!(said.status, 1, "{}{}", said.out, said.err);
    assert!(book.folder.path().join("holes.pdf").exists(), "the report is written all the same");
    assert_eq!(book.run(&["report", "--out", "holes.pdf", "--without-missing"]).status, 0);
    assert_eq!(book.run(&["check"]).status, 1);
}

#[test]
fn a_link_is_made_for_a_report_that_went_out_and_its_secret_is_not_on_record() {
    let book = ready();
    let none = book.run(&["link", "--to", "A client"]);
    assert_eq!(none.status, 2, "{}", none.err);
    assert!(none.err.contains("ribband issue"), "{}", none.err);
    issue(&book, "report.pdf", &["--changes", "None."]);
    let over = book.run(&["link", "--to", "A client", "--until", "2020-01-01"]);
    assert_eq!(over.status, 2, "{}", over.err);
    let made =
        book.json(&["link", "--to", "A client", "--until", "2199-01-01", "--clients", "https://reports.example.org"]);
    let address = made["address"].as_str().expect("an address");
    let token = address.strip_prefix("https://reports.example.org/issued/").expect("under the clients' name");
    assert_eq!(token.len(), 64);
    let kept = book.json(&["show", "--kind", "client_link"]);
    assert!(!kept.to_string().contains(token), "only its digest is kept");
    assert!(kept.to_string().contains(&survey::Digest::of(token.as_bytes()).to_string()), "{kept}");
}
