//! Plans from a small invented survey.

use hull::Side;
use hull::sheets::Page;
use survey::payload::{Condition, Finding, NotSeen, Observation, Payload, Vessel};
use survey::{EntryId, Pen, Place, Reading, SoundAnswer, State, SurveyId};

fn state(payloads: Vec<Payload>) -> State {
    let survey = SurveyId::from_bits(1);
    let mut pen = Pen::new(survey, "A. Surveyor", "office");
    let entries = payloads.iter().enumerate().map(|(n, payload)| pen.write(EntryId::from_bits(n as u128), 1, payload));
    State::fold(survey, entries.collect::<Vec<_>>())
}

fn vessel() -> Payload {
    let mut vessel = Vessel { name: "Invented".into(), length_mm: Some(9_800.0), ..Vessel::default() };
    vessel.counts.insert("strakes".into(), 11);
    vessel.counts.insert("frame-steamed".into(), 34);
    vessel.into()
}

fn at(side: survey::Side, strake: u32, frame: u32) -> Place {
    Place { side: Some(side), strake: Some(strake), frame_from: Some(frame), ..Place::default() }
}

fn finding(place: Place) -> Payload {
    plain_finding(place).into()
}

fn plain_finding(place: Place) -> Finding {
    Finding {
        title: "Loose".into(),
        member: "clinker-strake".into(),
        places: vec![place],
        condition: Condition::WorkNeeded,
        likely_state: None,
        text: "Off its frame.".into(),
        extent: String::new(),
        cause: String::new(),
        alternatives: vec![],
        basis: vec![],
        sure: None,
        meaning: String::new(),
        serious: true,
    }
}

fn sounded(place: Place) -> Payload {
    let reading = Reading::Sound { answer: SoundAnswer::Rings, blows: None };
    Observation { member: "clinker-strake".into(), place, reading, note: String::new() }.into()
}

#[test]
fn a_finding_is_hatched_and_an_observation_marked_on_its_own_side_only() {
    let port = survey::Side::Port;
    let state = state(vec![vessel(), finding(at(port, 4, 12)), sounded(at(port, 6, 20))]);
    let (conditions, marks) = (plans::conditions(&state), plans::marks(&state));
    assert_eq!((conditions.len(), marks.len()), (1, 1));
    let sheet = |side| plans::shell(&state, side, Page::REPORT).unwrap().sheet;
    let bare = plans::shell(&crate::state(vec![vessel()]), Side::Port, Page::REPORT).unwrap().sheet;
    assert_ne!(sheet(Side::Port).to_svg(), bare.to_svg());
    assert_ne!(sheet(Side::Port).to_svg(), sheet(Side::Starboard).to_svg());
}

#[test]
fn a_place_that_the_boat_does_not_have_is_left_out_and_costs_nothing_else() {
    let port = survey::Side::Port;
    let state = state(vec![vessel(), finding(at(port, 40, 12)), finding(at(port, 4, 99)), finding(at(port, 4, 12))]);
    assert_eq!(plans::conditions(&state).len(), 1);
}

#[test]
fn a_garboard_needs_no_strake_and_the_centreline_has_no_place_on_a_side() {
    let state = state(vec![
        vessel(),
        NotSeen {
            member: "garboard".into(),
            place: Place { side: Some(survey::Side::Starboard), ..Place::default() },
            why: "shored".into(),
            needs: String::new(),
        }
        .into(),
        NotSeen {
            member: "keel".into(),
            place: Place { side: Some(survey::Side::Centreline), ..Place::default() },
            why: "blocks".into(),
            needs: String::new(),
        }
        .into(),
    ]);
    assert_eq!(plans::conditions(&state).len(), 1);
}

#[test]
fn with_nothing_known_of_her_shape_there_are_no_plans() {
    assert!(plans::all(&state(vec![sounded(at(survey::Side::Port, 1, 1))])).is_empty());
}

#[test]
fn a_finding_bears_the_number_that_it_has_in_the_report() {
    // The later finding is on a member that comes earlier in the catalogue, so it is number 1.
    let port = survey::Side::Port;
    let mut garboard = Finding { member: "garboard".into(), ..plain_finding(at(port, 1, 5)) };
    garboard.title = "Garboard".into();
    let state = state(vec![vessel(), finding(at(port, 4, 12)), garboard.into()]);
    let words: Vec<_> = plans::conditions(&state).into_iter().map(|condition| condition.word).collect();
    assert_eq!(words, ["2", "1"]);
}
