//! Input that means harm, or comes from a bad day.

use crate::book::{Book, jpeg, text_of_pdf};
use std::path::Path;
use std::process::Command;

/// Text without white space, because a page breaks lines where it likes.
fn closed_up(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn hostile_names_and_notes_come_through_command_line_package_and_report_unharmed_and_inert() {
    let book = Book::new();
    let name = "O'Neill \"Quote\" <script>alert(1)</script> #strong[x] $x^2$ `code` \\u{41}";
    let rtl = "שלום עולם";
    let long = "word ".repeat(2_000);
    let unbroken = "x".repeat(10_000);
    book.good(&["create", "--author", name, "--name", name, "--purpose", "#import \"x\": *", "--client", rtl]);
    let notes =
        [name, rtl, "fish 🐟 and chips", "@label <label> = heading - item /* comment */ // end", &long, &unbroken];
    for note in notes {
        book.good(&["enter", "observation", "--member", "stem", "--method", "sight", "--note", note]);
    }
    // Control characters cannot be typed, but come in by JSON.
    let control = r#"{"kind":"observation","payload":{"member":"stem","reading":{"method":"sight"},"note":"bell\u0007 nul\u0000 esc\u001b[31m back\u202edrow"}}"#;
    assert_eq!(book.run_with_input(&["enter", "lines"], control).status, 0);

    let shown = book.json(&["show", "--kind", "observation"]);
    for (n, note) in notes.iter().enumerate() {
        assert_eq!(shown[n]["payload"]["note"].as_str().unwrap(), *note);
    }
    assert_eq!(shown[6]["payload"]["note"], "bell\u{7} nul\u{0} esc\u{1b}[31m back\u{202e}drow");
    let terminal = book.good(&["show", "--kind", "observation"]);
    assert!(!terminal.contains(['\u{7}', '\u{1b}', '\u{202e}', '\u{0}']), "nothing that a terminal obeys is printed");

    let there = Book::new();
    book.good(&["pack", "--out", "p.ribband"]);
    there.good(&["unpack", book.folder.path().join("p.ribband").to_str().unwrap()]);
    assert_eq!(there.json(&["show", "--kind", "observation"])[3], shown[3]);

    book.good(&["report", "--out", "hostile.pdf"]);
    let pdf = book.folder.path().join("hostile.pdf");
    let text = closed_up(&text_of_pdf(&pdf));
    assert!(text.contains(&closed_up("<script>alert(1)</script> #strong[x] $x^2$ `code`")), "{}", &text[..2_000]);
    let start = text.find("@label").expect("the note is there");
    assert!(
        text.contains(&closed_up("@label <label> = heading - item /* comment */ // end")),
        "{}",
        &text[start..start + 200]
    );
    assert!(text.contains("#import"));
    assert!(text.contains("שלום") || text.contains("םולש"), "right-to-left text is there, in either order");
}

#[test]
fn a_truncated_a_disguised_and_a_giant_picture_each_give_one_sentence_or_a_report_all_the_same() {
    let book = Book::with_survey();
    let disguised = book.file("photo.jpg", b"#!/bin/sh\necho not a picture\n");
    let said = book.refused(&["attach", disguised.to_str().unwrap()]);
    assert!(said.contains("photo.jpg") && said.contains("not"), "{said}");
    let empty = book.file("empty.jpg", b"");
    assert!(book.refused(&["attach", empty.to_str().unwrap()]).contains("empty"));
    assert!(book.refused(&["attach", "nowhere.jpg"]).contains("nowhere.jpg"));

    let id = book.entered(&["enter", "observation", "--member", "stem", "--method", "sight", "--note", "seen"]);
    let whole = jpeg(600, 400);
    book.file("half.jpg", &whole[..whole.len() / 2]);
    book.file("giant.png", &png_that_claims(20_000, 10_000));
    book.good(&["attach", "half.jpg", "giant.png", "--to", &id, "--caption", "A picture with a fault"]);
    let said = book.run(&["report", "--out", "pictures.pdf"]);
    assert!(said.status == 1 && said.err.contains("is written, but"), "{}", said.err);
    book.good(&["report", "--out", "pictures.pdf", "--without-missing"]);
    let text = closed_up(&text_of_pdf(&book.folder.path().join("pictures.pdf")));
    assert!(text.contains(&closed_up("A picture with a fault")), "{text}");
    assert_eq!(book.json(&["verify"])["fits"], true);
}

/// The first bytes of a PNG of the given size (W3C PNG, 2nd edition, clauses 5.2 and 11.2.2), and nothing after.
fn png_that_claims(width: u32, height: u32) -> Vec<u8> {
    let mut chunk = b"IHDR".to_vec();
    chunk.extend(width.to_be_bytes());
    chunk.extend(height.to_be_bytes());
    chunk.extend([8, 2, 0, 0, 0]);
    let mut crc = 0xffff_ffff_u32;
    for byte in &chunk {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { (crc >> 1) ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    let mut png = b"\x89PNG\r\n\x1a\n\0\0\0\x0d".to_vec();
    png.extend(chunk);
    png.extend((!crc).to_be_bytes());
    png
}

#[test]
fn a_newer_field_book_and_a_file_that_is_none_are_left_alone() {
    let book = Book::with_survey();
    let database = database(&book.surveys());
    let mut bytes = std::fs::read(&database).unwrap();
    // "User version", bytes 60 to 63 of an SQLite file (SQLite file format, section 1.3).
    bytes[60..64].copy_from_slice(&999u32.to_be_bytes());
    std::fs::write(&database, &bytes).unwrap();
    let said = book.run(&["list"]);
    assert_eq!(said.status, 1);
    assert!(said.err.contains("newer"), "{}", said.err);
    assert_eq!(said.err.trim_end().lines().count(), 1);
    assert_eq!(std::fs::read(&database).unwrap()[60..64], 999u32.to_be_bytes());

    std::fs::write(&database, b"this is a letter, not a field book, and it is long enough to tell").unwrap();
    let said = book.run(&["list"]);
    assert_eq!(said.status, 1);
    assert_eq!(said.err.trim_end().lines().count(), 1, "{}", said.err);
}

#[expect(clippy::unwrap_used, reason = "a test's own folder")]
fn database(folder: &Path) -> std::path::PathBuf {
    let files = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let mut found: Vec<_> =
        files.filter(|f| std::fs::read(f).is_ok_and(|b| b.starts_with(b"SQLite format 3"))).collect();
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

#[test]
fn a_full_disk_gives_one_sentence_and_loses_nothing_recorded() {
    let book = Book::new();
    let small = book.folder.path().join("small");
    std::fs::create_dir(&small).unwrap();
    let mounted = Command::new("mount")
        .args(["-t", "tmpfs", "-o", "size=2m", "tmpfs"])
        .arg(&small)
        .output()
        .is_ok_and(|output| output.status.success());
    if !mounted {
        eprintln!("skipped: a small disk can only be mounted by root on Linux");
        return;
    }
    let folder = small.join("surveys");
    let folder = folder.to_str().unwrap();
    let outcome = std::panic::catch_unwind(|| {
        book.good(&[
            "--folder",
            folder,
            "create",
            "--author",
            "A. Surveyor",
            "--name",
            "Small",
            "--purpose",
            "insurance",
        ]);
        let note = "n".repeat(50_000);
        let mut entered = 0;
        let last = loop {
            let said = book.run(&[
                "--folder",
                folder,
                "enter",
                "observation",
                "--member",
                "stem",
                "--method",
                "sight",
                "--note",
                &note,
            ]);
            if said.status != 0 {
                break said;
            }
            entered += 1;
            assert!(entered < 200, "the disk never fills");
        };
        assert_eq!(last.status, 1);
        assert_eq!(last.err.trim_end().lines().count(), 1, "{}", last.err);
        assert!(last.err.contains("full"), "{}", last.err);
        let verified = book.json(&["--folder", folder, "verify"]);
        assert_eq!((&verified["fits"], verified["entries"].as_u64()), (&true.into(), Some(entered + 2)));
    });
    let _ = Command::new("umount").arg(&small).status();
    if let Err(panic) = outcome {
        std::panic::resume_unwind(panic);
    }
}
