//! What a reckoner is told by the record.

use app::given::{Given, given};
use survey::payload::{Brief, Conditions, HullForm, Observation, Payload, Vessel};
use survey::{EntryId, Pen, Place, Reading, Side, State, SurveyId};

/// An invented boat, with a little said of her.
fn boat(waters: &str) -> State {
    let survey: SurveyId = "01900000-0000-7000-8000-000000000001".parse().unwrap();
    let mut pen = Pen::new(survey, "Invented", "test");
    let place = Place { side: Some(Side::Port), strake: Some(4), ..Place::default() };
    let seen = |member: &str, reading: Reading| Observation {
        place: place.clone(),
        ..Observation::new(member, Place::default(), reading)
    };
    let gap = Reading::Measure { quantity: "seam gap".into(), value: 2.4, unit: "mm".into(), as_written: None };
    let meter = Reading::Moisture {
        reading_percent: 17.5,
        depth_mm: None,
        temp_c: Some(9.0),
        species_setting: None,
        instrument: None,
    };
    let payloads: Vec<Payload> = vec![
        Brief { purpose: "pre-purchase".into(), intended_waters: waters.into(), ..Brief::default() }.into(),
        Vessel {
            name: "Example".into(),
            planking_species: Some("larch".into()),
            planking_thickness_mm: Some(28.0),
            frame_species: Some("white oak".into()),
            ..Vessel::default()
        }
        .into(),
        HullForm { strakes: Some(11), frames: Some(31), frame_spacing_mm: Some(305.0), ..HullForm::default() }.into(),
        Conditions {
            date: Some("2026-06-03".parse().unwrap()),
            ashore_since: Some("2026-04-15".parse().unwrap()),
            temp_c: Some(14.0),
            rh_percent: Some(62.0),
            ..Conditions::default()
        }
        .into(),
        seen("seam", gap).into(),
        seen("topside-plank", meter).into(),
    ];
    let entries = payloads.iter().enumerate().map(|(n, payload)| {
        let id: EntryId = format!("01900000-0000-7000-8000-0000000001{n:02}").parse().unwrap();
        pen.write(id, 1_780_000_000_000 + n as u64, payload)
    });
    State::fold(survey, entries.collect::<Vec<_>>())
}

fn told(state: &State, topic: &str, member: Option<&str>) -> Vec<(&'static str, String)> {
    let topic = reckon::find(topic).unwrap();
    given(state, topic, member).into_iter().map(|Given { flag, value, .. }| (flag, value)).collect()
}

#[test]
fn a_seam_is_asked_with_her_timber_her_thickness_the_weather_and_the_days_ashore() {
    let boat = boat("");
    let told = told(&boat, "seam", Some("seam"));
    for (flag, value) in [
        ("species", "larch"),
        ("thickness-mm", "28"),
        ("temp-c", "14"),
        ("rh-percent", "62"),
        // 15 April to 3 June: 15 days of April, 31 of May, 3 of June.
        ("days", "49"),
        ("measured-gap-mm", "2.4"),
    ] {
        assert!(told.contains(&(flag, value.to_owned())), "{flag}: {told:?}");
    }
}

#[test]
fn frames_have_their_own_timber_and_the_meter_its_own_reading() {
    let boat = boat("");
    assert!(told(&boat, "emc", None).contains(&("temp-c", "14".to_owned())));
    assert!(told(&boat, "meter", Some("topside-plank")).contains(&("reading-percent", "17.5".to_owned())));
    assert!(told(&boat, "meter", Some("topside-plank")).contains(&("temp-c", "9".to_owned())));
    assert!(told(&boat, "meter", None).iter().all(|(flag, _)| *flag != "reading-percent"), "no member, no reading");
    assert!(told(&boat, "strength", Some("frame-steamed")).contains(&("species", "white oak".to_owned())));
}

#[test]
fn borers_are_asked_of_the_waters_in_the_brief() {
    let two = boat("Skagerrak coast, Kattegat and the Kiel Bight");
    let answers = given(&two, reckon::find("borers").unwrap(), None);
    let area = answers.iter().find(|given| given.flag == "area").unwrap();
    assert_eq!(area.value, "Kattegat (Gothenburg)");
    assert!(area.from.contains("Kiel Bight"), "the other waters are not kept quiet: {}", area.from);
    assert!(told(&boat("wherever the wind blows"), "borers", None).iter().all(|(flag, _)| *flag != "area"));
}

#[test]
fn the_curve_of_a_sprung_plank_is_read_off_her_shape() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.survey, marram.entries);
    let spring = reckon::find("spring").unwrap();
    let looked_at =
        state.observations().find(|o| o.payload.place.strake.is_some() && o.payload.place.frame_from.is_some());
    let answers = given(&state, spring, Some(&looked_at.unwrap().payload.member));
    let of =
        |flag: &str| answers.iter().find(|given| given.flag == flag).unwrap_or_else(|| panic!("{flag}: {answers:?}"));
    let chord: f64 = of("chord-mm").value.parse().unwrap();
    // Two bays of 230 mm along the waterline, a little more along the plank.
    assert!((455.0..620.0).contains(&chord), "{chord}");
    assert!(of("rise-mm").from.contains("over three frames"));
}

#[test]
fn whatever_is_told_of_the_invented_boat_is_accepted_where_it_is_asked() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.entries[0].survey, marram.entries.clone());
    let mut asked = 0;
    for topic in reckon::table() {
        for member in survey::members_of(&state) {
            for given in given(&state, topic, Some(&member.id)) {
                let mut object = serde_json::Map::new();
                object.insert(given.flag.replace('-', "_"), given.value.clone().into());
                let refused = reckon::Inputs::from_json(topic, &object).err().map(|refusal| refusal.to_string());
                let of_itself = refused.filter(|why| why.contains(&given.value) && !given.value.is_empty());
                assert_eq!(of_itself, None, "{} --{} {}", topic.name, given.flag, given.value);
                asked += 1;
            }
        }
    }
    assert!(asked > 100, "only {asked}");
}
