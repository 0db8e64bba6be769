//! What may be entered and what is refused.

use survey::payload::{KINDS, Payload};
use survey::{Draft, Place, Side};

fn fault(json: &str) -> String {
    Draft::read(json).expect_err("this is refused").to_string()
}

#[test]
fn every_kind_of_the_record_has_a_name_of_its_own() {
    let mut names = KINDS.to_vec();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), 18);
}

#[test]
fn a_draft_is_read_and_written_back() {
    let json = r#"{"kind":"observation","payload":{"member":"garboard","place":{"side":"port","strake":1,"frame_from":11,"frame_to":13},"reading":{"method":"probe","knife":"firm","depth_mm":2.0,"moves_under_pry":true},"note":"lifts 3 mm"}}"#;
    let draft = Draft::read(json).unwrap();
    let Payload::Observation(observation) = &draft.payload else { panic!("an observation") };
    assert_eq!(observation.place.to_string(), "port, garboard, frames 11 to 13");
    assert_eq!(observation.reading.to_string(), "firm, point enters 2 mm; moves when pried");
    let back: serde_json::Value = serde_json::from_str(&draft.payload.to_json()).unwrap();
    let given: serde_json::Value = serde_json::from_str(json).unwrap();
    assert_eq!(back, given["payload"]);
}

#[test]
fn refusals_name_what_is_wrong_and_what_is_accepted() {
    insta::assert_snapshot!([
        fault("not json"),
        fault(r#"{"kind":"observatoin","payload":{}}"#),
        fault(r#"{"kind":"not_seen","payload":{"member":"keel","why":"blocks","neds":"lift"}}"#),
        fault(r#"{"kind":"not_seen","payload":{"member":"Keel!","why":"blocks"}}"#),
        fault(r#"{"kind":"not_seen","payload":{"member":"keel","why":"  "}}"#),
        fault(r#"{"kind":"observation","payload":{"member":"keel","reading":{"method":"smell"}}}"#),
        fault(r#"{"kind":"observation","payload":{"member":"keel","reading":{"method":"moisture","reading_percent":1800}}}"#),
        fault(r#"{"kind":"observation","payload":{"member":"keel","reading":{"method":"probe"}}}"#),
        fault(r#"{"kind":"observation","payload":{"member":"keel","place":{"frame_from":9,"frame_to":4},"reading":{"method":"sound","answer":"rings"}}}"#),
        fault(r#"{"kind":"vessel","payload":{"name":"X","length_mm":4000,"beam_mm":5000}}"#),
        fault(r#"{"kind":"recommendation","payload":{"title":"t","action":"a","urgency":"watch"}}"#),
        fault(r#"{"kind":"estimate_line","payload":{"item":"i","low":5,"likely":4,"high":9,"currency":"EUR"}}"#),
        fault(r#"{"kind":"attachment","payload":{"sha256":"12","bytes":1,"media_type":"image/png"}}"#),
    ].join("\n"));
}

#[test]
fn a_place_is_said_as_the_trade_says_it() {
    let place = Place { side: Some(Side::Starboard), strake: Some(4), frame_from: Some(12), ..Place::default() };
    assert_eq!(place.to_string(), "starboard, strake 4, frame 12");
    let joint = Place { joint_with: Some("stem".into()), height_mm: Some(-250.0), ..Place::default() };
    assert_eq!(joint.to_string(), "0.25 m below the waterline, joint with the stem");
}

#[test]
fn what_names_an_entry_that_is_not_there_or_of_another_kind_is_not_taken() {
    use crate::story::{Desk, SURVEY, amend, finding, pen, sounding};
    use survey::payload::{Recommendation, Urgency};
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let heard = desk.write(&mut phone, sounding("dull"));
    let state = survey::State::fold(SURVEY, [heard.clone()]);
    let nowhere = survey::EntryId::from_bits(404);
    assert_eq!(state.admits(&finding(vec![heard.id]).into()), Ok(()));
    let refused = |payload: Payload| state.admits(&payload).unwrap_err().to_string();
    assert!(refused(finding(vec![nowhere]).into()).contains("`basis` names entry"));
    let advice = Recommendation {
        title: "Refasten".into(),
        findings: vec![heard.id],
        action: "refasten".into(),
        why: String::new(),
        urgency: Urgency::BeforeSheFloats,
        by: None,
        who: String::new(),
        proof: String::new(),
        carried_from: None,
    };
    assert!(refused(advice.into()).contains("of kind observation; accepted is finding"));
    let mut bad = amend(heard.id, &sounding("x"));
    bad.payload = Some(serde_json::json!({"member": "keel", "reading": {"method": "probe"}}));
    assert!(refused(bad.into()).contains("a probe reading needs"));
}
