//! The DOCX, read back by readers that are not ours: `zip` for the package, `quick-xml` for the parts. What is asked for
//! is from memory of ISO/IEC 29500-1 (WordprocessingML).

use crate::book::{HOSTILE, small};
use drawing::{Shape, Sheet};
use faircopy::photograph::Print;
use faircopy::prints::{Prints, Wanted};
use faircopy::word::{Sides, WordOptions, docx};
use faircopy::{Document, Extras, Picture, PictureFault, compose};
use quick_xml::events::Event;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read as _};

fn options<'a>(prints: &'a Prints, drawings_png: &'a [Vec<u8>]) -> WordOptions<'a> {
    WordOptions { paper: Sides::A4, made: jiff::civil::date(2026, 6, 5).at(9, 30, 0, 0), prints, drawings_png }
}

fn parts(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).expect("a ZIP");
    (0..zip.len())
        .map(|i| {
            let mut file = zip.by_index(i).expect("a file");
            let mut out = Vec::new();
            file.read_to_end(&mut out).expect("reads");
            (file.name().expect("a name").into_owned(), out)
        })
        .collect()
}

/// One element as read: its name, its attributes, and the text in it.
#[derive(Debug, Default)]
struct Element {
    name: String,
    attributes: BTreeMap<String, String>,
    text: String,
}

fn elements(xml: &[u8]) -> Vec<Element> {
    let text = std::str::from_utf8(xml).expect("UTF-8");
    let mut reader = quick_xml::Reader::from_str(text);
    let (mut out, mut open): (Vec<Element>, Vec<usize>) = (Vec::new(), Vec::new());
    loop {
        let event = reader.read_event().expect("well-formed");
        match event {
            Event::Start(ref tag) | Event::Empty(ref tag) => {
                let name = tag.name().as_ref().to_owned();
                let attributes = tag.attributes().map(|a| {
                    let a = a.expect("an attribute");
                    let value: &str = &a.value;
                    (
                        a.key.as_ref().to_owned(),
                        quick_xml::escape::unescape(value).expect("known entities").into_owned(),
                    )
                });
                let attributes = attributes.collect();
                out.push(Element { name, attributes, text: String::new() });
                if matches!(event, Event::Start(_)) {
                    open.push(out.len() - 1);
                }
            }
            Event::End(_) => {
                open.pop().expect("open");
            }
            Event::Text(words) => {
                let words = words.into_inner();
                open.iter().for_each(|i| out[*i].text.push_str(&words));
            }
            Event::GeneralRef(name) => {
                let name = name.into_inner();
                let said = quick_xml::escape::unescape(&format!("&{name};")).expect("known entities").into_owned();
                open.iter().for_each(|i| out[*i].text.push_str(&said));
            }
            Event::Eof => return out,
            _ => {}
        }
    }
}

fn full() -> (Document, Prints) {
    let mut document = compose(&small(), &Extras::default());
    let mut sheet = Sheet::new(150.0, 70.0, "Plank plan", "Port side laid flat, seven strakes.");
    sheet.add(Shape::rectangle(2.0, 2.0, 100.0, 30.0));
    document.plans.push(faircopy::Plan { caption: "Plank plan, port.".into(), sheet, key: vec![] });
    let first = &mut document.parts[0].findings[0];
    first.pictures = vec![
        Picture {
            observation: Some(1),
            ..Picture::new("a".repeat(64), "Garboard at frame 7.", "A dark plank & chalk.")
        },
        Picture::new("b".repeat(64), "From further off.", ""),
    ];
    let mut prints = Prints::new();
    for (i, wanted) in document.prints_wanted().into_iter().enumerate() {
        let print = Print { jpeg: vec![0xff, 0xd8, 0xff, 0xd9], width_px: 600, height_px: 400 };
        prints.insert(wanted, if i == 0 { Ok(print) } else { Err(PictureFault::Missing("lost".into())) });
    }
    (document, prints)
}

#[test]
fn every_part_is_declared_related_and_well_formed() {
    let (document, prints) = full();
    let bytes = docx(&document, &options(&prints, &[])).expect("writes");
    assert_eq!(bytes, docx(&document, &options(&prints, &[])).expect("writes"), "the same bytes");
    let parts = parts(&bytes);
    for (name, part) in parts.iter().filter(|(name, _)| name.ends_with(".xml") || name.ends_with(".rels")) {
        assert!(elements(part).len() > 1, "{name}");
    }
    let types = elements(&parts["[Content_Types].xml"]);
    let overrides: BTreeSet<&str> =
        types.iter().filter_map(|e| e.attributes.get("PartName")).map(|n| &n[1..]).collect();
    let endings: BTreeSet<&str> =
        types.iter().filter_map(|e| e.attributes.get("Extension")).map(String::as_str).collect();
    for name in parts.keys().filter(|name| *name != "[Content_Types].xml") {
        let ending = name.rsplit('.').next().expect("an ending");
        assert!(overrides.contains(name.as_str()) || (ending != "xml" && endings.contains(ending)), "{name}");
    }
    assert!(overrides.iter().all(|name| parts.contains_key(*name)), "{overrides:?}");
    // Every relation leads somewhere, and everything used is related.
    let related: BTreeMap<String, String> = elements(&parts["word/_rels/document.xml.rels"])
        .into_iter()
        .filter(|e| e.name == "Relationship")
        .map(|e| (e.attributes["Id"].clone(), e.attributes["Target"].clone()))
        .collect();
    assert!(related.values().all(|target| parts.contains_key(&format!("word/{target}"))), "{related:?}");
    for element in elements(&parts["word/document.xml"]) {
        for key in ["r:embed", "r:id"] {
            if let Some(id) = element.attributes.get(key) {
                assert!(related.contains_key(id), "{id}");
            }
        }
    }
}

#[test]
fn headings_captions_tables_and_references_are_real() {
    let (document, prints) = full();
    let parts = parts(&docx(&document, &options(&prints, &[])).expect("writes"));
    let body = elements(&parts["word/document.xml"]);
    let styles: BTreeSet<String> = elements(&parts["word/styles.xml"])
        .into_iter()
        .filter_map(|e| e.attributes.get("w:styleId").cloned())
        .collect();
    for element in body.iter().filter(|e| matches!(e.name.as_str(), "w:pStyle" | "w:rStyle" | "w:tblStyle")) {
        assert!(styles.contains(&element.attributes["w:val"]), "{element:?}");
    }
    let used = |style: &str| body.iter().filter(|e| e.name == "w:pStyle" && e.attributes["w:val"] == style).count();
    assert!(used("Heading1") >= 4 && used("Heading2") >= 2 && used("Heading3") >= 5 && used("AppendixHeading") >= 2);

    let instructions: Vec<&str> = body.iter().filter(|e| e.name == "w:instrText").map(|e| e.text.trim()).collect();
    let bookmarks: Vec<&String> =
        body.iter().filter_map(|e| e.attributes.get("w:name").filter(|_| e.name == "w:bookmarkStart")).collect();
    let unique: BTreeSet<&String> = bookmarks.iter().copied().collect();
    assert_eq!(unique.len(), bookmarks.len(), "a name stands once");
    let pointing: Vec<&str> =
        instructions.iter().filter(|i| i.starts_with("REF ") || i.starts_with("PAGEREF ")).copied().collect();
    assert!(pointing.iter().any(|i| i.starts_with("REF finding_1")), "{pointing:?}");
    for pointer in pointing {
        let name = pointer.split(' ').nth(1).expect("a name").to_owned();
        assert!(unique.contains(&name), "{name}");
    }
    for counted in ["SEQ Picture \\* ARABIC", "SEQ Table \\* ARABIC", "SEQ Drawing \\* ARABIC"] {
        assert!(instructions.contains(&counted), "{counted}: {instructions:?}");
    }
    assert!(instructions.iter().any(|i| i.starts_with("TOC ")));
    let kinds =
        |kind: &str| body.iter().filter(|e| e.attributes.get("w:fldCharType").is_some_and(|k| k == kind)).count();
    assert_eq!((kinds("begin"), kinds("separate")), (kinds("end"), kinds("end")), "every field is closed");

    let tables = body.iter().filter(|e| e.name == "w:tbl").count();
    assert!(tables >= 4);
    for part in ["w:tblHeader", "w:tblCaption", "w:tblDescription"] {
        assert_eq!(body.iter().filter(|e| e.name == part).count(), tables, "{part}");
    }
    // Ids of drawings and bookmarks are unique among their kind, or the file would be called damaged.
    let ids: Vec<&String> = body.iter().filter(|e| e.name == "wp:docPr").map(|e| &e.attributes["id"]).collect();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
}

#[test]
fn pictures_have_words_and_missing_ones_say_why() {
    let (document, prints) = full();
    let png = vec![vec![0x89, b'P', b'N', b'G']];
    let parts = parts(&docx(&document, &options(&prints, &png)).expect("writes"));
    let body = elements(&parts["word/document.xml"]);
    let words: Vec<&str> =
        body.iter().filter(|e| e.name == "wp:docPr").map(|e| e.attributes["descr"].as_str()).collect();
    let [plan, picture, chart] = words[..] else { panic!("{words:?}") };
    assert_eq!([plan, picture], ["Port side laid flat, seven strakes.", "A dark plank & chalk."]);
    assert!(chart.starts_with("The chance that the whole costs no more than a figure:"), "{chart}");
    assert!(body.iter().any(|e| e.name == "asvg:svgBlip"));
    assert_eq!(parts["word/media/picture-2.png"], png[0]);
    assert!(parts["word/media/picture-1.svg"].starts_with(b"<svg"));
    let text: String = body.iter().filter(|e| e.name == "w:body").map(|e| e.text.clone()).collect();
    assert!(text.contains("This picture could not be read: its file is not to be had (lost)."), "{text}");
    // A print for a pair is 75 mm wide: 2,700,000 English Metric Units, of which an inch has 914,400.
    let widths: Vec<&String> = body.iter().filter(|e| e.name == "wp:extent").map(|e| &e.attributes["cx"]).collect();
    assert_eq!(widths[1], "2700000");
    let wanted = Wanted::of(&document.parts[0].findings[0].pictures[0], (75.0, 60.0));
    assert_eq!(wanted.box_px, (591, 472));
}

#[test]
fn what_the_record_says_stays_words() {
    let (document, prints) = full();
    let parts = parts(&docx(&document, &options(&prints, &[])).expect("writes"));
    let body = elements(&parts["word/document.xml"]);
    let text: String = body.iter().filter(|e| e.name == "w:body").map(|e| e.text.clone()).collect();
    let shown = HOSTILE.replace('\u{7}', "⟨U+0007⟩").replace('\u{202e}', "⟨U+202E⟩");
    assert!(text.contains(&shown), "{text}");
    // Labels, ways and money are there as words too.
    for words in
        ["Renew (advised)", "The frame heels.", "Bears on safety.", "Lines of one trade rise and fall together"]
    {
        assert!(text.contains(words), "{words}");
    }
}

#[test]
fn the_emptiest_survey_is_a_title_page() {
    let prints = Prints::new();
    let parts = parts(&docx(&Document::default(), &options(&prints, &[])).expect("writes"));
    let body = elements(&parts["word/document.xml"]);
    let text: String = body.iter().filter(|e| e.name == "w:body").map(|e| e.text.clone()).collect();
    assert!(text.contains("Vessel not named") && !text.contains("Findings"), "{text}");
}
