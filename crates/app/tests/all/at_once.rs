//! Recording with one tap, figures keyed in, and stepping along.

use app::at_once::{Figure, Reach, Spot, at_once};
use measure::System;
use proptest::prelude::*;
use survey::payload::{HullForm, Payload, Vessel};
use survey::{EntryId, Method, Pen, Place, Reading, Side, State, SurveyId};

fn boat(payloads: Vec<Payload>) -> State {
    let survey = SurveyId::from_bits(1);
    let mut pen = Pen::new(survey, "A. Surveyor", "test");
    let entries =
        payloads.into_iter().zip(1..).map(|(payload, n)| pen.write(EntryId::from_bits(n), 1_780_000_000_000, &payload));
    State::fold(survey, entries.collect::<Vec<_>>())
}

fn at(strake: u32, frame: u32) -> Place {
    Place { side: Some(Side::Port), strake: Some(strake), frame_from: Some(frame), ..Place::default() }
}

#[test]
fn every_tap_records_what_the_record_accepts() {
    let state = boat(vec![
        Vessel { name: "Test".into(), plank_fastening: Some("8 gauge bronze screws".into()), ..Vessel::default() }
            .into(),
    ]);
    let spot = Spot { member: "garboard".into(), place: at(1, 4) };
    let mut taps = 0;
    for method in Method::ALL {
        for one in at_once(method, &state) {
            assert_eq!(one.reading.method(), method);
            let payload = Payload::from(spot.observed(one.reading, one.note));
            assert_eq!(payload.fault(), None, "{method}: {}", one.words);
            taps += 1;
        }
    }
    assert!(taps >= 4 + 5 + 5 + 3, "{taps}");
    let drawn = &at_once(Method::Draw, &state)[0].reading;
    assert!(drawn.to_string().starts_with("8 gauge bronze screws drawn: good"), "{drawn}");
    assert!(at_once(Method::Draw, &boat(Vec::new()))[0].reading.to_string().starts_with("plank fastening drawn"));
}

#[test]
fn figures_are_read_with_their_fractions() {
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    let gap = Figure::Measured("seam gap");
    for (typed, system, mm, written) in [
        ("12", System::Metric, 12.0, None),
        ("12.5", System::Metric, 12.5, None),
        ("5/8", System::Metric, 15.875, Some("5/8\"")),
        ("1 5/8", System::Metric, 41.275, Some("1 5/8\"")),
        ("5/8", System::Customary, 15.875, Some("5/8\"")),
        ("2", System::Customary, 50.8, Some("2\"")),
        ("1/64", System::Customary, 0.397, Some("1/64\"")),
        ("3 mm", System::Customary, 3.0, None),
        ("1.2 cm", System::Metric, 12.0, Some("1.2 cm")),
    ] {
        let Ok(Reading::Measure { value, unit, as_written, .. }) = gap.read(typed, system) else { panic!("{typed}") };
        assert_eq!((value, unit.as_str(), as_written.as_deref()), (mm, "mm", written), "{typed}");
    }
    assert!(matches!(
        Figure::Moisture.read("18,5 %", System::Metric),
        Ok(Reading::Moisture { reading_percent: 18.5, .. })
    ));
    let bored = Figure::of(Method::Bore)[0].read("1/2", System::Metric);
    assert!(matches!(bored, Ok(Reading::Bore { depth_mm: 12.7, .. })), "{bored:?}");
    assert!(matches!(Figure::KnifeDepth.read("6", System::Metric), Ok(Reading::Probe { depth_mm: Some(6.0), .. })));
    for (figure, typed) in [
        (gap, ""),
        (gap, "x"),
        (gap, "5/"),
        (gap, "5//8"),
        (gap, "-3"),
        (Figure::Moisture, "12/"),
        (Figure::Moisture, "301"),
        (gap, "1 1 1"),
    ] {
        let why = figure.read(typed, System::Metric).expect_err(typed);
        assert!(why.ends_with('.'), "{why}");
    }
}

#[test]
fn steps_keep_to_the_boat() {
    let state = boat(vec![HullForm { strakes: Some(12), frames: Some(30), ..HullForm::default() }.into()]);
    let reach = Reach::of(&state);
    assert_eq!(reach, Reach { strakes: Some(12), frames: Some(30) });
    let mut spot = Spot { member: "garboard".into(), place: at(1, 29) };
    spot.step_frames(1, reach);
    spot.step_frames(1, reach);
    assert_eq!(spot.place.frame_from, Some(30), "there is no frame behind the last");
    spot.step_strakes(1, reach, |_| true);
    assert_eq!((spot.member.as_str(), spot.place.strake), ("broad-strake", Some(2)));
    spot.step_strakes(1, reach, |_| true);
    assert_eq!((spot.member.as_str(), spot.place.strake), ("bottom-plank", Some(3)));
    spot.choose("topside-plank");
    spot.step_strakes(1, reach, |_| true);
    assert_eq!(
        (spot.member.as_str(), spot.place.strake),
        ("topside-plank", Some(4)),
        "the surveyor's own choice stays"
    );
    spot.step_strakes(-3, reach, |_| true);
    assert_eq!((spot.member.as_str(), spot.place.strake), ("garboard", Some(1)));
    spot.step_strakes(1, reach, |member| member != "broad-strake");
    assert_eq!(spot.member, "bottom-plank", "she has no broad strake");
    spot.choose("seam");
    spot.step_strakes(-1, reach, |_| true);
    assert_eq!((spot.member.as_str(), spot.place.strake), ("seam", Some(1)), "a seam stays a seam");
    spot.step_strakes(-1, reach, |_| true);
    assert_eq!(spot.place.strake, None, "before the first strake there is none");
    let mut long =
        Spot { member: "keel".into(), place: Place { frame_from: Some(4), frame_to: Some(8), ..Place::default() } };
    long.step_frames(5, reach);
    assert_eq!((long.place.frame_from, long.place.frame_to), (Some(9), Some(13)));
}

#[test]
fn one_begins_where_one_last_recorded() {
    let reading = Reading::Sound { answer: survey::SoundAnswer::Rings, blows: None };
    let spot = Spot { member: "garboard".into(), place: at(1, 7) };
    let state = boat(vec![spot.observed(reading, "").into()]);
    assert_eq!(Spot::last(&state), Some(spot));
    assert_eq!(Spot::last(&boat(Vec::new())), None);
}

proptest! {
    /// However one steps, the place stays one that the record accepts.
    #[test]
    fn no_step_leads_off_the_boat(steps in prop::collection::vec((any::<bool>(), -40_i32..40), 0..40), strakes in prop::option::of(0_u32..20), frames in prop::option::of(0_u32..60)) {
        let reach = Reach { strakes, frames };
        let mut spot = Spot { member: "garboard".into(), place: at(1, 1) };
        for (along, by) in steps {
            if along { spot.step_frames(by, reach) } else { spot.step_strakes(by, reach, |_| true) }
            prop_assert_eq!(spot.place.fault(), None);
            prop_assert!(spot.place.frame_from.is_none_or(|n| frames.is_none_or(|all| n <= all.max(1))));
        }
    }

    /// Whatever is keyed in is a figure or is refused in a sentence.
    #[test]
    fn whatever_is_keyed_in(typed in "[0-9 ./'\"m]{0,12}") {
        for figure in [Figure::Moisture, Figure::Measured("seam gap")] {
            if let Err(why) = figure.read(&typed, System::Metric) {
                prop_assert!(why.ends_with('.'));
            }
        }
    }
}
