//! What a report says of its issue, its evidence, its questions and the survey before.

use crate::book::{Book, small};
use faircopy::{Extras, Issuing, LetterSize, Limitation, Standing, Style, compose};
use serde_json::json;
use survey::payload::Against;
use survey::{State, SurveyId};

fn issuing(version: u32) -> Issuing {
    Issuing {
        version,
        date: jiff::civil::date(2026, 6, 4),
        addressees: vec!["C. Example".into()],
        changes: String::new(),
        signed_by: "A. Surveyor".into(),
        public_key: "ab".repeat(32),
        hand: Some("cd".repeat(32)),
        against: vec![Against {
            rule: "members-covered".into(),
            found: 3,
            reason: "limited inspection, agreed in writing".into(),
        }],
    }
}

#[test]
fn an_issued_report_has_a_certificate_and_says_what_it_was_issued_against() {
    let state = small();
    let issuing = issuing(1);
    let document = compose(&state, &Extras { issuing: Some(&issuing), ..Extras::default() });
    assert_eq!(document.standing, Standing::Issued { version: 1, date: "4 June 2026".into() });
    assert_eq!(
        (document.standing_words.as_str(), document.dated.as_str()),
        ("Version 1, issued 4 June 2026", "of 4 June 2026")
    );
    let certificate = document.certificate.expect("it is issued");
    let value =
        |label: &str| certificate.rows.iter().find(|r| r.label == label).map(|r| r.value.as_str()).expect(label);
    assert_eq!((value("Signed by"), value("Version")), ("A. Surveyor", "1"));
    assert_eq!((certificate.sha256, certificate.public_key), (state.digest().to_string(), "ab".repeat(32)));
    assert!(certificate.against[0].value.contains("Not met at 3 places"), "{:?}", certificate.against);
    assert!(certificate.against[0].value.contains("limited inspection, agreed in writing"));
    assert_eq!(document.versions.last().map(|v| v.change.as_str()), Some("First issue."));
    assert!(document.hand.is_some_and(|hand| hand.alternative.contains("A. Surveyor")));
    assert!(document.changes.is_none(), "nothing went out before");
}

#[test]
fn a_draft_is_no_certificate_and_says_which_version_is_out() {
    let draft = compose(&small(), &Extras::default());
    assert_eq!(draft.standing_words, "Draft, not issued");
    assert!(draft.certificate.is_none() && draft.dated.starts_with("not issued; made from the field book as of"));
    let (state, ..) = issued_and_changed();
    let later = compose(&state, &Extras::default());
    assert_eq!(later.standing_words, "Draft, later than version 1 of 4 June 2026");
}

/// A small survey that was issued, after which one finding was corrected and one withdrawn.
fn issued_and_changed() -> (State, survey::EntryId) {
    let mut book = Book::new();
    book.write("brief", json!({"purpose": "pre-purchase", "client": "C. Example", "surveyor": "A. Surveyor"}));
    let heard = book.write("observation", json!({"member": "stem", "reading": {"method": "sound", "answer": "rings"}}));
    let finding = |title: &str| json!({"title": title, "member": "stem", "condition": "sound", "text": "Rings.", "basis": [heard.to_string()]});
    let (one, two) = (book.write("finding", finding("stem rings")), book.write("finding", finding("stem again")));
    let then = book.now();
    book.write(
        "report_issued",
        json!({"version": 1, "date": "2026-06-04", "field_book": then.digest(), "sha256": "00".repeat(32),
            "addressees": ["C. Example"], "issue": {"heads": then.heads()}}),
    );
    book.write(
        "amendment",
        json!({"amends": one.to_string(), "why": "heard again", "payload": finding("stem rings but for its foot")}),
    );
    book.write("amendment", json!({"amends": two.to_string(), "why": "entered twice"}));
    (book.now(), one)
}

#[test]
fn a_later_version_tells_what_changed_and_why() {
    let (state, _) = issued_and_changed();
    let issuing = Issuing { changes: "The stem was heard again.".into(), ..issuing(2) };
    let document = compose(&state, &Extras { issuing: Some(&issuing), ..Extras::default() });
    let changes = document.changes.expect("version 1 went out");
    assert_eq!(changes.since, "Since version 1, issued on 4 June 2026:");
    let lines: Vec<(&str, &str)> = changes.lines.iter().map(|r| (r.label.as_str(), r.value.as_str())).collect();
    assert_eq!(
        lines,
        [
            ("In short", "The stem was heard again."),
            ("Finding 1 amended", "Stem rings but for its foot. Why: heard again."),
            ("Finding withdrawn", "Stem again. Why: entered twice."),
        ]
    );
    assert_eq!(document.versions.len(), 2);
}

#[test]
fn every_serious_finding_says_what_speaks_for_and_against_it_and_what_was_not_done() {
    let document = compose(&small(), &Extras::default());
    assert_eq!(document.evidence.len(), 2, "both findings are serious");
    let garboard = document.evidence.iter().find(|e| e.title == "Garboard decayed").expect("it is there");
    let value = |label: &str| garboard.rows.iter().find(|r| r.label == label).map(|r| r.value.as_str());
    assert!(value("Reads against it").is_some_and(|v| v.contains("Sounded dull or hollow")), "{:?}", garboard.rows);
    assert_eq!(value("Also considered"), Some("No other explanation is recorded as considered."));
    assert_eq!(value("How sure"), Some("How sure the surveyor is, is not recorded."));
    assert!(value("Not done").is_some_and(|v| v.contains("boring, drawing a fastening and opening up")));
}

#[test]
fn a_question_of_history_stands_with_its_rival_explanations() {
    let mut book = Book::new();
    let explanation = |what: &str| {
        json!({"explanation": what, "signs_for": ["larger bungs in a run"], "signs_against": [],
            "look_next": "draw one screw", "if_so": "ask whether the frames were cured first", "source": "common practice"})
    };
    let results = json!({"seen": "Bungs larger than customary",
        "explanations": [explanation("refastened with larger screws"), explanation("a sprung plank pulled back")]});
    book.write(
        "reckoning",
        json!({"topic": "history", "version": 1, "inputs": {"pattern": "larger_bungs"}, "results": results,
            "member": "garboard", "note": "To be asked of the yard."}),
    );
    let document = compose(&book.now(), &Extras::default());
    let [question] = &document.questions[..] else { panic!("{:?}", document.questions) };
    assert_eq!(question.seen, "Bungs larger than customary (garboard).");
    assert_eq!(question.explanations.len(), 2);
    assert_eq!(question.explanations[1].words, "A sprung plank pulled back.");
    let labels: Vec<&str> = question.explanations[0].rows.iter().map(|r| r.label.as_str()).collect();
    assert_eq!(labels, ["Signs for it", "Where to look", "If it is so", "Source"]);
}

#[test]
fn inputs_given_as_json_and_names_of_flags_are_said_in_words() {
    let mut book = Book::new();
    let observations = r#"{"observations": [{"group": "hammer", "reading": "dull_or_hollow"}, {"group": "knife", "reading": "not_firm", "hearsay": true}]}"#;
    book.write(
        "reckoning",
        json!({"topic": "evidence", "version": 1, "inputs": {"observations": observations},
            "results": {"ultimate_n": 64315.628, "prior_db": {"sound": 1.5, "loose": -8.25}},
            "cautions": ["Give --temp-c where it is known; see `meter`."]}),
    );
    let about = |topic: &str| match topic {
        "evidence" => {
            Some(json!({"title": "Weighing", "flags": [{"key": "temp_c", "label": "temperature of the wood"}],
            "results": [{"key": "prior_db", "label": "odds before", "unit": "dB"}]}))
        }
        "meter" => Some(json!({"title": "Moisture by meter"})),
        _ => None,
    };
    let document = compose(&book.now(), &Extras { describe: Some(&about), ..Extras::default() });
    let r = &document.reckonings[0];
    assert_eq!(r.inputs[0].value, "hammer: dull or hollow; knife: not firm (told)");
    assert_eq!(
        r.cautions[0],
        "Give ‘temperature of the wood’ where it is known; see the reckoning ‘Moisture by meter’."
    );
    let value = |label: &str| r.results.iter().find(|row| row.label == label).map(|row| row.value.as_str());
    assert_eq!(value("Ultimate"), Some("64,315.628 N"));
    assert_eq!(value("Odds before"), Some("sound 1.5 dB; loose −8.25 dB"));
}

#[test]
fn an_empty_survey_says_that_nothing_is_recorded() {
    let empty = compose(&State::new(SurveyId::from_bits(1)), &Extras::default());
    assert!(empty.notice.starts_with("Nothing is recorded in this survey"), "{}", empty.notice);
    let mut begun = Book::new();
    begun.write("brief", json!({"purpose": "pre-purchase"}));
    assert!(compose(&begun.now(), &Extras::default()).notice.starts_with("Nothing is recorded yet"));
    assert_eq!(compose(&small(), &Extras::default()).notice, "");
}

#[test]
fn the_survey_before_stands_beside_this_one() {
    let (now, mut earlier) = (small(), Book::new());
    earlier.write("conditions", json!({"date": "2024-06-03", "place": "an invented yard"}));
    let heard =
        earlier.write("observation", json!({"member": "garboard", "reading": {"method": "sound", "answer": "rings"}}));
    earlier.write(
        "finding",
        json!({"title": "garboard rings", "member": "garboard", "condition": "sound", "text": "Rings.", "basis": [heard.to_string()]}),
    );
    let before = earlier.now();
    let document = compose(&now, &Extras { before: Some(&before), ..Extras::default() });
    let side_by_side = document.then_and_now.expect("there is a survey before");
    let members = side_by_side.tables.iter().find(|t| t.title == "Member by member").expect("members");
    let garboard = members.rows.iter().find(|r| r[0] == "Garboard").expect("garboard");
    assert_eq!(garboard[1..], ["Sound: garboard rings", "Work needed: garboard decayed", "worse"]);
    assert!(compose(&now, &Extras::default()).then_and_now.is_none());
}

#[test]
fn a_style_of_ones_own_fills_what_the_brief_leaves_open() {
    let style = Style {
        qualification: "thirty years of wooden boats".into(),
        licences: vec!["Invented licence 12".into()],
        letterhead: vec!["A. Surveyor".into(), "1 Nowhere Quay".into()],
        limitations: vec![Limitation { title: "Reliance".into(), text: "One.\n\nTwo.".into(), file: None }],
        letters: LetterSize::Large,
        ..Style::default()
    };
    let document = compose(&small(), &Extras { style: Some(&style), ..Extras::default() });
    assert_eq!(document.limitations[0].words, ["One.", "Two."]);
    assert_eq!(document.letterhead.licences, ["Invented licence 12"]);
    assert!(document.large_letters);
    let surveyor = document.front.surveyor.expect("the brief names one");
    assert_eq!(
        (surveyor.name.as_str(), surveyor.qualification.as_str()),
        ("A. Surveyor", "thirty years of wooden boats")
    );
}

#[test]
fn a_draw_by_plan_is_told_with_what_it_supports_and_no_more() {
    let mut book = Book::new();
    let plan = book.write(
        "reckoning",
        json!({"topic": "draw-plan", "version": 2, "inputs": {"confidence_percent": 90.0, "seed": 41},
            "results": {"population": 140,
                "allocation": [{"zone": "hood-ends", "population": 40}, {"zone": "garboards", "population": 100}],
                "picks": [
                    {"zone": "hood-ends", "draw": [3, 17], "substitutes": [9],
                        "places": [{"side": "port", "strake": 4, "frame": 1, "row": 1}, {"side": "starboard", "strake": 6, "frame": 1, "row": 2}],
                        "substitute_places": [{"side": "port", "strake": 8, "frame": 1, "row": 1}]},
                    {"zone": "garboards", "draw": [55], "substitutes": [],
                        "places": [{"side": "port", "strake": 1, "frame": 12, "row": 1}], "substitute_places": []}]},
            "equation": "", "sources": [], "cautions": [], "note": ""}),
    );
    assert!(compose(&book.now(), &Extras::default()).draws.is_empty(), "a plan of which nothing is drawn is no draw");
    let mut draw = |number: u64, condition: &str| {
        book.write(
            "observation",
            json!({"member": "plank-fastening", "reading": {"method": "draw", "fastening": "bronze screw", "condition": condition,
                "original_mm": 5.0, "measured_mm": 4.1, "picked": {"plan": plan.to_string(), "zone": "hood-ends", "number": number}}}),
        )
    };
    draw(3, "would_not_draw");
    draw(17, "wasted");
    let document = compose(&book.now(), &Extras::default());
    let [one] = &document.draws[..] else { panic!("one draw: {:?}", document.draws) };
    let words = one.words.join(" ");
    assert!(
        words
            .starts_with("Of 140 fastenings 3 were picked beforehand, by lot from seed 41. 1 was drawn, 1 of them bad"),
        "{words}"
    );
    assert!(words.contains("The draw is not finished"), "{words}");
    assert!(words.contains("Garboards: none drawn; nothing is known of its 100."), "{words}");
    let found: Vec<(&str, &str)> = one.table.rows.iter().map(|row| (row[2].as_str(), row[3].as_str())).collect();
    assert_eq!(found[0], ("Port, strake 4, frame 1, row 1 from the lower edge", "would not draw"));
    assert_eq!(found[1].1, "wasted");
    assert_eq!(found[2], ("Port, strake 8, frame 1, row 1 from the lower edge (substitute)", "not drawn"));
    assert_eq!(found[3].1, "not drawn");
    assert!(one.table.rows[1][5].contains("4.1 mm"), "{:?}", one.table.rows[1]);
}
