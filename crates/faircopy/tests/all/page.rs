//! The report as a page, read back by a parser that is not ours (`quick-xml`: the page is written so that it is well formed
//! as XML too).

use crate::book::{Book, HOSTILE, small};
use faircopy::{Document, Extras, compose, page};
use quick_xml::events::Event;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Elements of a report's page; none of them loads, runs or leads anywhere.
const ELEMENTS: [&str; 23] = [
    "h2",
    "h3",
    "h4",
    "p",
    "strong",
    "em",
    "dl",
    "div",
    "dt",
    "dd",
    "ul",
    "li",
    "table",
    "caption",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
    "ol",
    "page",
    "figure",
    "figcaption",
];

/// What a chart may be made of.
const SHAPES: [&str; 11] =
    ["svg", "title", "desc", "defs", "pattern", "path", "g", "text", "circle", "rect", "polyline"];

/// Returns the names of elements and of attributes, and all text with its spaces made one.
fn read(html: &str) -> (BTreeSet<String>, BTreeSet<String>, String) {
    let whole = format!("<page>{html}</page>");
    let mut reader = quick_xml::Reader::from_str(&whole);
    let (mut names, mut attributes, mut text) = (BTreeSet::new(), BTreeSet::new(), String::new());
    let mut within_drawing = false;
    loop {
        let event = reader.read_event().expect("well formed");
        // A chart is shapes and lettering only: nothing that runs, styles itself or points anywhere.
        if let Event::Start(start) | Event::Empty(start) = &event
            && (within_drawing || start.name().as_ref() == "svg")
        {
            within_drawing = true;
            assert!(SHAPES.contains(&start.name().as_ref()), "{start:?}");
            for attribute in start.attributes() {
                let key = attribute.expect("well formed").key.as_ref().to_owned();
                assert!(!key.starts_with("on") && key != "style" && !key.contains("href"), "{key}");
            }
            text.push(' ');
            continue;
        }
        match event {
            Event::Start(start) => {
                names.insert(start.name().as_ref().to_owned());
                for attribute in start.attributes() {
                    let attribute = attribute.expect("well formed");
                    attributes.insert(attribute.key.as_ref().to_owned());
                }
                text.push(' ');
            }
            Event::End(end) => {
                within_drawing &= end.name().as_ref() != "svg";
                text.push(' ');
            }
            Event::Text(found) => text.push_str(&found),
            Event::GeneralRef(entity) => text.push_str(match &*entity {
                "amp" => "&",
                "lt" => "<",
                "gt" => ">",
                "quot" => "\"",
                "#39" => "'",
                other => panic!("{other}"),
            }),
            Event::Eof => return (names, attributes, one_space(&text)),
            other => panic!("{other:?}"),
        }
    }
}

fn one_space(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every text of a document that is printed as words.
fn words(of: &Value, name: &str, into: &mut Vec<String>) {
    match of {
        Value::String(text) => into.push(one_space(text)),
        Value::Array(items) => items.iter().for_each(|item| words(item, name, into)),
        Value::Object(fields) => {
            // Names of settings, numbers of other parts, and what only a typeset page has.
            let aside = [
                "kind",
                "language",
                "mark",
                "standing",
                "align",
                "urgency",
                "date",
                "date_order",
                "sha256",
                "how",
                "letterhead",
                "reference",
                "surveyed",
                "dated",
                "title_of",
                "when",
                "entry",
                "plans",
                "certificate",
                "versions",
                "alternative",
                "taken",
                "hand",
                "by",
            ];
            let aside = |field: &str| aside.contains(&field) && !(field == "when" && name == "first");
            fields.iter().filter(|(field, _)| !aside(field)).for_each(|(field, value)| words(value, field, into));
        }
        _ => {}
    }
}

fn holds_all(document: &Document) -> usize {
    let (names, attributes, text) = read(&page(document));
    let strange: Vec<_> = names.iter().filter(|name| !ELEMENTS.contains(&name.as_str())).collect();
    assert!(strange.is_empty(), "{strange:?}");
    let allowed = ["scope", "class", "tabindex", "role", "aria-label"];
    assert!(attributes.iter().all(|name| allowed.contains(&name.as_str())), "{attributes:?}");
    let mut wanted = Vec::new();
    words(&serde_json::to_value(document).expect("JSON"), "", &mut wanted);
    for words in &wanted {
        assert!(text.contains(words.as_str()), "{words:?} is not on the page");
    }
    wanted.len()
}

#[test]
fn every_word_of_a_report_is_on_the_page() {
    let all = holds_all(&compose(&small(), &Extras::default()));
    assert!(all > 150, "{all} texts");
    holds_all(&Document::default());
    assert_eq!(page(&Document::default()), "");
}

#[test]
fn hostile_words_stay_words() {
    let mut book = Book::new();
    let said = format!("{HOSTILE} <script>alert(1)</script> <img src=x onerror=alert(1)> ' onmouseover='x");
    book.write("vessel", json!({"name": said}));
    book.write(
        "observation",
        json!({"member": "stem", "reading": {"method": "ask", "who": said, "said": said}, "note": said}),
    );
    book.write("finding", json!({"title": said, "member": "stem", "condition": "watch", "text": said}));
    // Two lines of cost, so that their names stand in a chart too.
    for low in [1, 2] {
        book.write("estimate_line", json!({"item": said, "low": low, "likely": 5, "high": 9, "currency": "EUR"}));
    }
    let html = page(&compose(&book.state(), &Extras::default()));
    assert!(html.contains("<figure>") && html.contains("<svg"));
    assert!(html.contains("&lt;script&gt;") && !html.contains("<script") && !html.contains("<img"), "{html}");
    let (names, _, _) = read(&html.replace('\u{7}', ""));
    assert!(names.iter().all(|name| ELEMENTS.contains(&name.as_str())), "{names:?}");
}
