//! The file's structure, read by an independent reader (lopdf): ISO 19005-2 (PDF/A-2a) and ISO 14289-1 (PDF/UA-1) ask
//! for tags, a language, words for every figure, embedded fonts and their own marks in the XMP packet. Which keys are
//! asked for is from memory of those standards; a full validator is not part of these tests.

use crate::boat::{Album, emptiest, fullest, hostile, options};
use crate::record;
use lopdf::{Dictionary, Document as File, Object};
use report::{Document, Extras, Options, Paper, Pdf, Pictures, compose, typeset};

pub fn set(document: &Document, album: &Album, options: &Options) -> Pdf {
    let read = |sha256: &str| album.read(sha256);
    typeset(document, Pictures { read: &read, kept_in: None }, options).expect("typesets")
}

fn all() -> Vec<(&'static str, Pdf)> {
    let mut album = Album::default();
    let full = fullest(&mut album);
    let recorded = compose(&record::fullest(&mut album), &Extras::default());
    [("emptiest", emptiest()), ("fullest", full), ("recorded", recorded), ("hostile", hostile())]
        .into_iter()
        .map(|(name, document)| (name, set(&document, &album, &options())))
        .collect()
}

/// Walks the structure tree and hands over each element with its tag.
fn elements<'a>(file: &'a File, of: &'a Object, seen: &mut Vec<(String, &'a Dictionary)>) {
    let object = match of {
        Object::Reference(id) => file.get_object(*id).expect("there"),
        other => other,
    };
    match object {
        Object::Array(items) => items.iter().for_each(|item| elements(file, item, seen)),
        Object::Dictionary(dictionary) => {
            if let Ok(tag) = dictionary.get(b"S").and_then(Object::as_name) {
                seen.push((String::from_utf8_lossy(tag).into_owned(), dictionary));
            }
            if let Ok(kids) = dictionary.get(b"K") {
                elements(file, kids, seen);
            }
        }
        _ => {}
    }
}

fn structure(file: &File) -> Vec<(String, &Dictionary)> {
    let catalog = file.catalog().expect("catalogue");
    let root = file
        .get_dictionary(catalog.get(b"StructTreeRoot").and_then(Object::as_reference).expect("tagged"))
        .expect("there");
    let mut seen = Vec::new();
    elements(file, root.get(b"K").expect("kids"), &mut seen);
    seen
}

#[test]
fn every_report_is_tagged_has_a_language_and_claims_both_standards() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let catalog = file.catalog().expect("catalogue");
        assert_eq!(catalog.get(b"Lang").and_then(Object::as_str).expect("language"), b"en-GB", "{name}");
        let marked = catalog.get(b"MarkInfo").and_then(|m| m.as_dict()).and_then(|m| m.get(b"Marked")).expect("marked");
        assert!(marked.as_bool().expect("a yes"), "{name}");
        assert!(catalog.has(b"OutputIntents"), "{name}");
        assert!(!catalog.has(b"OpenAction") && !file.is_encrypted(), "{name}");
        let xmp = file
            .get_object(catalog.get(b"Metadata").and_then(Object::as_reference).expect("XMP"))
            .and_then(Object::as_stream)
            .expect("stream");
        let xmp = String::from_utf8(xmp.content.clone()).expect("UTF-8");
        for mark in [
            "<pdfaid:part>2</pdfaid:part>",
            "<pdfaid:conformance>A</pdfaid:conformance>",
            "<pdfuaid:part>1</pdfuaid:part>",
        ] {
            assert!(xmp.contains(mark), "{name} lacks {mark}: {xmp}");
        }
        assert!(!pdf.set_plainly, "{name}");
        assert_eq!(file.get_pages().len(), pdf.pages, "{name}");
    }
}

#[test]
fn every_figure_has_words_for_those_who_cannot_see_it() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let figures: Vec<_> = structure(&file).into_iter().filter(|(tag, _)| tag == "Figure").collect();
        if matches!(name, "fullest" | "recorded") {
            assert!(figures.len() >= 4, "{name}: {}", figures.len());
        }
        for (_, figure) in figures {
            let words = figure.get(b"Alt").and_then(Object::as_str).expect("Alt");
            assert!(words.len() > 3, "{name}");
        }
    }
}

#[test]
fn headings_follow_one_another_without_a_gap_and_tables_have_heads() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let tags: Vec<String> = structure(&file).into_iter().map(|(tag, _)| tag).collect();
        let levels = tags.iter().filter_map(|t| t.strip_prefix('H')).filter_map(|n| n.parse::<u8>().ok());
        let mut before = 0;
        for level in levels {
            assert!(level <= before + 1, "{name}: from H{before} to H{level}");
            before = level;
        }
        let tables = tags.iter().filter(|t| *t == "Table").count();
        let heads = tags.iter().filter(|t| *t == "THead").count();
        assert_eq!(tables, heads, "{name}");
        if name == "fullest" {
            assert!(tables >= 5 && tags.iter().any(|t| t == "Link") && tags.iter().any(|t| t == "TOC"), "{tags:?}");
        }
    }
}

#[test]
fn every_font_is_embedded() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let mut descriptors = 0;
        for object in file.objects.values() {
            let Ok(dictionary) = object.as_dict() else { continue };
            if dictionary.get(b"Type").and_then(Object::as_name).is_ok_and(|t| t == b"FontDescriptor") {
                descriptors += 1;
                assert!(dictionary.has(b"FontFile2") || dictionary.has(b"FontFile3"), "{name}");
            }
        }
        assert!(descriptors > 0, "{name}");
    }
}

#[test]
fn the_same_input_gives_the_same_bytes_and_another_date_does_not() {
    let mut album = Album::default();
    let document = fullest(&mut album);
    let one = set(&document, &album, &options());
    let two = set(&document, &album, &options());
    assert!(one.bytes == two.bytes);
    let later = Options { made: jiff::civil::date(2027, 1, 1).at(0, 0, 0, 0), ..options() };
    assert!(set(&document, &album, &later).bytes != one.bytes);
}

#[test]
fn pages_have_the_size_of_the_paper() {
    // ISO 216: A4 is 210 mm by 297 mm; letter is 8 1/2 in by 11 in; 72 points an inch.
    for (paper, width, height) in [(Paper::A4, 210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0), (Paper::Letter, 612.0, 792.0)]
    {
        let pdf = set(&emptiest(), &Album::default(), &Options { paper, ..options() });
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let (_, page) = file.get_pages().into_iter().next().expect("a page");
        let media = file.get_dictionary(page).and_then(|p| p.get(b"MediaBox")).and_then(Object::as_array).expect("box");
        let side = |i: usize| f64::from(media[i].as_float().expect("number"));
        assert!((side(2) - width).abs() < 0.1 && (side(3) - height).abs() < 0.1);
    }
}

#[test]
fn bookmarks_say_what_they_lead_to() {
    let mut album = Album::default();
    let document = fullest(&mut album);
    let pdf = set(&document, &album, &options());
    let file = File::load_mem(&pdf.bytes).expect("reads");
    let titles: Vec<String> = file
        .objects
        .values()
        .filter_map(|o| o.as_dict().ok())
        .filter(|d| d.has(b"Title") && d.has(b"Parent"))
        .filter_map(|d| d.get(b"Title").ok().and_then(|t| lopdf::decode_text_string(t).ok()))
        .collect();
    for wanted in ["Summary", "Planking", "Finding 1. Garboard decayed along the lower edge", "No. 1. Keel bolts"] {
        assert!(titles.iter().any(|title| title.trim() == wanted), "{wanted}: {titles:?}");
    }
}

/// Returns every dictionary of the file, those of streams and those within others too.
fn dictionaries<'a>(of: &'a Object, seen: &mut Vec<&'a Dictionary>) {
    match of {
        Object::Dictionary(one) => {
            seen.push(one);
            one.iter().for_each(|(_, value)| dictionaries(value, seen));
        }
        Object::Stream(stream) => {
            seen.push(&stream.dict);
            stream.dict.iter().for_each(|(_, value)| dictionaries(value, seen));
        }
        Object::Array(items) => items.iter().for_each(|item| dictionaries(item, seen)),
        _ => {}
    }
}

#[test]
fn nothing_runs_nothing_is_fetched_and_nothing_is_packed_in_a_way_that_is_not_allowed() {
    // ISO 19005-2, 6.1.7 (no external streams, no LZW), 6.1.12 (no actions that run or fetch), 6.2.8 (no Interpolate true).
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let mut all = Vec::new();
        file.objects.values().for_each(|object| dictionaries(object, &mut all));
        assert!(all.len() > 10, "{name}");
        for one in all {
            for key in ["JS", "JavaScript", "AA", "EmbeddedFiles", "F", "FFilter"] {
                // A link annotation has flags under the key F: a number, not a file.
                let flags = key == "F" && one.get(b"F").is_ok_and(|value| value.as_i64().is_ok());
                assert!(!one.has(key.as_bytes()) || flags, "{name}: {key} in {one:?}");
            }
            for (key, not_allowed) in [
                (&b"Filter"[..], &[&b"LZWDecode"[..], b"Crypt"][..]),
                (b"S", &[b"JavaScript", b"Launch", b"Sound", b"Movie", b"ImportData", b"ResetForm", b"SubmitForm"]),
            ] {
                let value = one.get(key).and_then(Object::as_name).unwrap_or_default();
                assert!(!not_allowed.contains(&value), "{name}: {}", String::from_utf8_lossy(value));
            }
            assert!(!one.get(b"Interpolate").and_then(Object::as_bool).unwrap_or(false), "{name}");
        }
    }
}

#[test]
fn the_file_has_an_identifier_a_title_shown_and_colours_with_a_meaning() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        // ISO 19005-2, 6.1.3: the trailer has an ID, an array of two strings.
        let ids = file.trailer.get(b"ID").and_then(Object::as_array).expect("an identifier");
        assert!(ids.len() == 2 && ids.iter().all(|id| id.as_str().is_ok_and(|id| id.len() >= 8)), "{name}");
        let catalog = file.catalog().expect("catalogue");
        // ISO 14289-1, 7.1: the title is in the metadata and is what a reader shows.
        let shown = catalog.get(b"ViewerPreferences").and_then(|p| match p {
            Object::Reference(id) => file.get_dictionary(*id),
            other => other.as_dict(),
        });
        let shown = shown.and_then(|p| p.get(b"DisplayDocTitle")).and_then(Object::as_bool);
        assert!(shown.expect("preferences"), "{name}");
        let xmp = file
            .get_object(catalog.get(b"Metadata").and_then(Object::as_reference).expect("XMP"))
            .and_then(Object::as_stream)
            .expect("stream");
        let xmp = String::from_utf8(xmp.content.clone()).expect("UTF-8");
        let title = xmp.split("<dc:title>").nth(1).and_then(|rest| rest.split("</dc:title>").next()).expect("a title");
        assert!(title.contains("x-default") && title.contains(": "), "{name}: {title}");
        // ISO 19005-2, 6.2.3: an output intent for PDF/A with the profile itself in the file.
        let intents = catalog.get(b"OutputIntents").expect("intents");
        let intents = match intents {
            Object::Reference(id) => file.get_object(*id).and_then(Object::as_array),
            other => other.as_array(),
        };
        for intent in intents.expect("a list") {
            let intent = match intent {
                Object::Reference(id) => file.get_dictionary(*id),
                other => other.as_dict(),
            };
            let intent = intent.expect("an intent");
            assert_eq!(intent.get(b"S").and_then(Object::as_name).expect("its kind"), b"GTS_PDFA1", "{name}");
            let profile = intent.get(b"DestOutputProfile").and_then(Object::as_reference).expect("a profile");
            assert!(file.get_object(profile).and_then(Object::as_stream).is_ok(), "{name}");
        }
    }
}

#[test]
fn every_letter_has_a_meaning_and_the_keyboard_follows_the_order_of_reading() {
    for (name, pdf) in all() {
        let file = File::load_mem(&pdf.bytes).expect("reads");
        let mut fonts = 0;
        for object in file.objects.values() {
            let Ok(font) = object.as_dict() else { continue };
            let kind = |key: &[u8]| font.get(key).and_then(Object::as_name).unwrap_or_default();
            if kind(b"Type") == b"Font" && matches!(kind(b"Subtype"), b"Type0" | b"TrueType" | b"Type1") {
                fonts += 1;
                // Level A of ISO 19005-2, 6.2.11.7: each code leads to Unicode.
                assert!(font.has(b"ToUnicode"), "{name}: {font:?}");
            }
        }
        assert!(fonts > 0, "{name}");
        for (_, page) in file.get_pages() {
            let page = file.get_dictionary(page).expect("a page");
            // ISO 14289-1, 7.18.3: pages with links have the tab order of the structure.
            if page.has(b"Annots") {
                assert_eq!(page.get(b"Tabs").and_then(Object::as_name).expect("an order"), b"S", "{name}");
            }
        }
    }
}

#[test]
fn another_program_finds_no_damage() {
    for (name, pdf) in all() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("report.pdf");
        std::fs::write(&path, &pdf.bytes).expect("writes");
        let Ok(out) = std::process::Command::new("qpdf").arg("--check").arg(&path).output() else {
            eprintln!("qpdf is not on this machine: the file is not looked at by it");
            return;
        };
        assert!(out.status.success(), "{name}: {}", String::from_utf8_lossy(&out.stderr));
    }
}

/// ISO 32000-1, 14.11.2: the media box is the size of the paper, in points of 1/72 inch.
#[test]
fn a_sheet_by_itself_is_a_page_of_its_own_size_tagged_and_told() {
    let document = fullest(&mut Album::default());
    let sheet = &document.plans[0].sheet;
    let bytes = report::drawn(sheet, &options()).expect("it is set");
    assert_eq!(bytes, report::drawn(sheet, &options()).expect("it is set"), "the same bytes each time");
    let file = File::load_mem(&bytes).expect("it can be read");
    let pages = file.get_pages();
    assert_eq!(pages.len(), 1);
    let page = file.get_dictionary(pages[&1]).expect("a page");
    let size: Vec<f32> = page
        .get(b"MediaBox")
        .and_then(Object::as_array)
        .expect("a size")
        .iter()
        .map(|n| n.as_float().expect("a figure"))
        .collect();
    let points = |mm: f64| (mm / 25.4 * 72.0) as f32;
    assert!(
        (size[2] - points(sheet.width_mm)).abs() < 0.1 && (size[3] - points(sheet.height_mm)).abs() < 0.1,
        "{size:?}"
    );
    let figures: Vec<_> = structure(&file).into_iter().filter(|(kind, _)| kind == "Figure").collect();
    assert_eq!(figures.len(), 1);
    let words =
        figures[0].1.get(b"Alt").ok().and_then(|alt| lopdf::decode_text_string(alt).ok()).expect("words for it");
    assert!(words.len() > 20, "{words}");
}
