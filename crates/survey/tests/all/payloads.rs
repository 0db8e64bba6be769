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
    assert_eq!(names.len(), 20);
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

/// A line as the first version wrote it reads as it did, and says what it said.
#[test]
fn a_line_without_the_newer_fields_reads_unchanged() {
    let payload = r#"{"member":"garboard","place":{"side":"port","strake":1},"reading":{"method":"sound","answer":"rings"},"note":"clear"}"#;
    let survey = survey::SurveyId::from_bits(7);
    let old = survey::Pen::new(survey, "A. Surveyor", "office").write(
        survey::EntryId::from_bits(1),
        1_780_000_000_000,
        &Draft::read(&format!(r#"{{"kind":"observation","payload":{payload}}}"#)).unwrap().payload,
    );
    assert!(old.line().contains(payload), "nothing is added to what was said: {}", old.line());
    let Payload::Observation(read) = survey::Entry::read(old.line()).unwrap().payload else { panic!("an observation") };
    assert_eq!((read.seen_on, read.note.as_str()), (None, "clear"));
    let with_day = payload.replace("\"note\"", "\"seen_on\":\"2026-05-11\",\"note\"");
    let Payload::Observation(read) =
        Draft::read(&format!(r#"{{"kind":"observation","payload":{with_day}}}"#)).unwrap().payload
    else {
        panic!("an observation")
    };
    assert_eq!(read.seen_on, Some(jiff::civil::date(2026, 5, 11)));
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
        ways: vec![],
        carried_from: None,
    };
    assert!(refused(advice.into()).contains("of kind observation; accepted is finding"));
    let mut bad = amend(heard.id, &sounding("x"));
    bad.payload = Some(serde_json::json!({"member": "keel", "reading": {"method": "probe"}}));
    assert!(refused(bad.into()).contains("a probe reading needs"));
}

#[test]
fn her_history_tells_a_time_from_whose_word_it_is() {
    use survey::payload::{Account, Vessel};
    // A line as the first version wrote it, beside an account as it is written now.
    let json = r#"{"kind":"vessel","payload":{"name":"X","history":["1954: built for line fishing","About 1971: decked over","Until 20 April 2026: afloat","the owner: laid up for years","the yard's bill of 1998: new garboards","re-engined"],"accounts":[{"who":"the owner","when":"2004","said":"present engine"}]}}"#;
    let Payload::Vessel(vessel) = Draft::read(json).unwrap().payload else { panic!("a vessel") };
    let told: Vec<(String, String, String)> = vessel.told().into_iter().map(|a| (a.who, a.when, a.said)).collect();
    let row = |who: &str, when: &str, said: &str| (who.to_owned(), when.to_owned(), said.to_owned());
    assert_eq!(
        told,
        [
            row("", "1954", "built for line fishing"),
            row("", "About 1971", "decked over"),
            row("", "Until 20 April 2026", "afloat"),
            row("the owner", "", "laid up for years"),
            row("the yard's bill of 1998", "", "new garboards"),
            row("", "", "re-engined"),
            row("the owner", "2004", "present engine"),
        ]
    );
    let empty = Vessel { name: "X".into(), accounts: vec![Account::default()], ..Vessel::default() };
    assert!(Payload::from(empty).fault().unwrap().to_string().contains("`accounts.said` is empty"));
}

fn boat(counts: &[(&str, u32)]) -> survey::State {
    use survey::payload::Vessel;
    let mut vessel = Vessel { name: "X".into(), length_mm: Some(9_000.0), ..Vessel::default() };
    vessel.counts = counts.iter().map(|(name, n)| ((*name).to_owned(), *n)).collect();
    let survey = survey::SurveyId::from_bits(7);
    let entry =
        survey::Pen::new(survey, "A. Surveyor", "office").write(survey::EntryId::from_bits(1), 1, &vessel.into());
    survey::State::fold(survey, [entry])
}

fn seen(member: &str, place: Place) -> Payload {
    survey::payload::Observation::new(
        member,
        place,
        survey::Reading::Sound { answer: survey::SoundAnswer::Rings, blows: None },
    )
    .into()
}

#[test]
fn a_second_vessel_is_refused_and_the_first_named_though_the_fold_takes_it() {
    use survey::payload::{Amendment, Brief, Vessel};
    let mut state = boat(&[]);
    let second = Payload::from(Vessel { name: "Y".into(), ..Vessel::default() });
    let said = state.admits(&second).unwrap_err().to_string();
    let first = survey::EntryId::from_bits(1);
    assert!(said.contains(&first.to_string()) && said.contains("amend that one"), "{said}");
    // An amendment of it is taken, and so is a first brief.
    let payload = Some(serde_json::json!({"name": "Y"}));
    let amended = Amendment { amends: first, settles: vec![], why: "painted over".into(), payload };
    assert_eq!(state.admits(&amended.into()), Ok(()));
    assert_eq!(state.admits(&Brief { purpose: "damage".into(), ..Brief::default() }.into()), Ok(()));
    // One that came from elsewhere is still read: the later shows, as before.
    let survey = survey::SurveyId::from_bits(7);
    state.take(survey::Pen::new(survey, "B. Surveyor", "phone").write(survey::EntryId::from_bits(2), 2, &second));
    assert_eq!(state.vessel().unwrap().payload.name, "Y");
}

#[test]
fn a_member_that_nobody_knows_is_refused_with_the_names_near_to_it_until_it_is_added() {
    use survey::payload::MemberHad;
    let mut state = boat(&[]);
    let refused =
        |state: &survey::State, member: &str| state.admits(&seen(member, Place::default())).unwrap_err().to_string();
    assert!(refused(&state, "garbord").contains("near to it are garboard"));
    // By another name of the trade: a treenail is a plank fastening, a rebate the rabbet.
    assert!(refused(&state, "rebate").contains("rabbet"));
    assert!(refused(&state, "frame").contains("frame-"));
    assert!(refused(&state, "xylophone-of-brass").contains("add it with a `member` entry first"));
    let own = MemberHad {
        member: "fish-well".into(),
        has: true,
        name: None,
        group: None,
        each_side: false,
        count: None,
        note: String::new(),
    };
    assert!(state.admits(&seen("fish-well", Place::default())).is_err());
    let survey = survey::SurveyId::from_bits(7);
    state.take(survey::Pen::new(survey, "A. Surveyor", "phone").write(survey::EntryId::from_bits(2), 2, &own.into()));
    assert_eq!(state.admits(&seen("fish-well", Place::default())), Ok(()));
    let joint = Place { joint_with: Some("keell".into()), ..Place::default() };
    assert!(state.admits(&seen("stem", joint)).unwrap_err().to_string().contains("near to it are keel"));
}

#[test]
fn strakes_and_frames_beyond_those_counted_are_refused() {
    let state = boat(&[("strakes", 11), ("frame-steamed", 30), ("frame-sawn", 4), ("frame-sister", 6)]);
    let at = |strake, frame_from, frame_to| Place { strake, frame_from, frame_to, ..Place::default() };
    assert_eq!(state.admits(&seen("clinker-strake", at(Some(11), Some(30), Some(34)))), Ok(()));
    let refused = |place| state.admits(&seen("clinker-strake", place)).unwrap_err().to_string();
    assert!(refused(at(Some(12), None, None)).contains("strake 12 is beyond the 11 that she has"));
    assert!(refused(at(None, Some(30), Some(35))).contains("frame 35 is beyond the 34 that she has"));
    // Nothing counted, nothing refused.
    assert_eq!(boat(&[]).admits(&seen("clinker-strake", at(Some(60), Some(300), None))), Ok(()));
}

#[test]
fn days_far_off_and_sizes_below_nought_are_refused_but_a_hog_may_be_negative() {
    let conditions = |rest: &str| fault(&format!(r#"{{"kind":"conditions","payload":{{"place":"yard",{rest}}}}}"#));
    assert!(conditions(r#""date":"0206-05-11""#).contains("accepted are days from 1900 to 2199"));
    assert!(conditions(r#""date":"2026-05-11","ashore_since":"2026-05-12""#).contains("comes after the day itself"));
    let measure = |quantity: &str| {
        let json = format!(
            r#"{{"kind":"observation","payload":{{"member":"keel","reading":{{"method":"measure","quantity":"{quantity}","value":-3,"unit":"mm"}}}}}}"#
        );
        Draft::read(&json).map(drop).map_err(|f| f.to_string())
    };
    assert!(measure("plank thickness").unwrap_err().contains("a thickness is -3 mm"));
    assert_eq!(measure("hog"), Ok(()));
    assert!(
        fault(r#"{"kind":"vessel","payload":{"name":"X","built_year":19540}}"#).contains("years from 1500 to 2199")
    );
}

#[test]
fn what_is_wrong_is_said_in_our_own_words() {
    for (json, wanted) in [
        (
            r#"{"kind":"vessel","payload":{"name":"X","length_mm":"long"}}"#,
            "vessel: `length_mm` is \"long\"; accepted is a number",
        ),
        (r#"{"kind":"vessel","payload":{"name":7}}"#, "vessel: `name` is 7; accepted is text"),
        (r#"{"kind":"not_seen","payload":{"member":"keel"}}"#, "not_seen: `why` is missing"),
        (
            r#"{"kind":"conditions","payload":{"place":"yard","date":"11 May"}}"#,
            "conditions: `date` is \"11 May\"; accepted is a day, as 2026-06-03",
        ),
        (
            r#"{"kind":"observation","payload":{"member":"keel","place":{"side":"left"},"reading":{"method":"sound","answer":"rings"}}}"#,
            "observation: `place.side` is \"left\"; accepted are port, starboard, centreline",
        ),
    ] {
        assert_eq!(fault(json), wanted);
    }
    for said in [
        fault("{"),
        fault("[1"),
        fault(r#"{"kind":"vessel"}"#),
        fault(r#"{"kind":"vessel","payload":{"name":"X","counts":[1]}}"#),
    ] {
        assert!(!said.contains("expected") && !said.contains("EOF") && !said.contains("invalid"), "{said}");
    }
}
