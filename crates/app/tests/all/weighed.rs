//! Readings as they are recorded, weighed. What the patterns mean is common practice, no source.

use app::weighed::{still_worth, table_readings, weigh_all};
use evidence::{Book, Leave, PlankState};
use survey::payload::{Observation, Payload};
use survey::{EntryId, Knife, Method, Pen, Place, Reading, Side, SoundAnswer, State, SurveyId};

fn at(frame: u32) -> Place {
    Place { side: Some(Side::Port), strake: Some(4), frame_from: Some(frame), ..Place::default() }
}

fn sound(answer: SoundAnswer) -> Reading {
    Reading::Sound { answer, blows: None }
}

fn probe(knife: Knife, moves: bool) -> Reading {
    Reading::Probe { knife: Some(knife), depth_mm: None, moves_under_pry: Some(moves) }
}

/// An invented survey with these readings on one strake.
fn read(readings: &[(u32, Reading)]) -> State {
    let survey: SurveyId = "01900000-0000-7000-8000-000000000002".parse().unwrap();
    let mut pen = Pen::new(survey, "Invented", "test");
    let entries: Vec<_> = readings
        .iter()
        .enumerate()
        .map(|(n, (frame, reading))| {
            let id: EntryId = format!("01900000-0000-7000-8000-0000000002{n:02}").parse().unwrap();
            let payload: Payload = Observation::new("topside-plank", at(*frame), reading.clone()).into();
            pen.write(id, 1_780_000_000_000 + n as u64, &payload)
        })
        .collect();
    State::fold(survey, entries)
}

#[test]
fn hollow_firm_and_moving_is_loose_rather_than_decayed() {
    let state = read(&[(11, sound(SoundAnswer::DullOrHollow)), (11, probe(Knife::Firm, true))]);
    let all = weigh_all(&state, None);
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].weighing.leading, PlankState::Loose);
    assert_eq!(all[0].basis.len(), 2);
    let p = all[0].weighing.plank;
    assert!(p[PlankState::Loose as usize] > p[PlankState::Decayed as usize]);
}

#[test]
fn a_place_that_rings_and_is_firm_and_still_comes_after_one_that_is_not() {
    let state = read(&[
        (5, sound(SoundAnswer::Rings)),
        (5, probe(Knife::Firm, false)),
        (20, sound(SoundAnswer::DullOrHollow)),
        (20, probe(Knife::SliverBreaksShort, false)),
    ]);
    let all = weigh_all(&state, None);
    assert_eq!(all[0].place, at(20));
    assert_eq!(all[0].weighing.leading, PlankState::Decayed);
    assert_eq!(all[1].weighing.leading, PlankState::Sound);
}

#[test]
fn the_next_frame_is_a_neighbour_and_a_far_one_is_not() {
    let dull = || sound(SoundAnswer::DullOrHollow);
    let alone = weigh_all(&read(&[(11, dull()), (30, dull())]), None);
    let beside = weigh_all(&read(&[(11, dull()), (12, dull())]), None);
    let of = |all: &[app::weighed::PlaceWeighed]| all.iter().find(|one| one.place == at(11)).unwrap().weighing.clone();
    assert!(of(&alone).neighbour_multipliers.iter().all(|m| (m - 1.0).abs() < 1e-12));
    assert!(of(&beside).plank[PlankState::Sound as usize] < of(&alone).plank[PlankState::Sound as usize]);
}

#[test]
fn what_the_table_does_not_know_is_left_out_and_named() {
    let cannot = sound(SoundAnswer::CannotBeTold);
    let state = read(&[(11, sound(SoundAnswer::DullOrHollow)), (11, cannot)]);
    let all = weigh_all(&state, None);
    assert_eq!((all[0].basis.len(), all[0].left_out.len()), (1, 1));
    assert!(weigh_all(&read(&[(3, sound(SoundAnswer::CannotBeTold))]), None).is_empty());
}

#[test]
fn tests_that_would_open_her_are_not_proposed_without_leave() {
    let state = read(&[(11, sound(SoundAnswer::DullOrHollow))]);
    let tests = still_worth(&weigh_all(&state, Some(Leave::Nothing)));
    assert!(!tests.is_empty() && tests.iter().all(|test| test.leave == Leave::Nothing), "{tests:?}");
    assert!(tests.iter().all(|test| test.minutes > 0.0 && test.information_bits > 0.0));
}

#[test]
fn every_reading_of_the_invented_boat_is_one_that_the_table_has() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.entries[0].survey, marram.entries.clone());
    let book = Book::elicited().unwrap();
    let known: Vec<(&str, &str)> = book.readings().collect();
    let mut read = 0;
    for o in state.observations() {
        for (group, reading) in table_readings(o.payload) {
            let plain = reading.strip_prefix("not_").unwrap_or(&reading);
            assert!(known.contains(&(group, plain)), "{group} {reading}");
            read += 1;
        }
        if o.payload.reading.method() == Method::Measure {
            assert!(table_readings(o.payload).is_empty());
        }
    }
    assert!(read > 20, "only {read}");
    assert!(weigh_all(&state, None).len() > 5);
}

#[test]
fn a_bolt_of_the_keel_is_not_weighed_as_a_plank_is() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.entries[0].survey, marram.entries.clone());
    assert!(state.observations().any(|o| o.payload.member == "keel-bolt"), "she has readings of keel bolts");
    assert!(weigh_all(&state, None).iter().all(|one| one.member != "keel-bolt"));
}

#[test]
fn what_is_known_beforehand_and_the_surveyors_own_likelihoods_shift_the_weighing() {
    use survey::payload::{Beforehand, OwnLikelihood};
    let survey: SurveyId = "01900000-0000-7000-8000-000000000002".parse().unwrap();
    let with = |known: Beforehand| {
        let mut pen = Pen::new(survey, "Invented", "test");
        let mut n = 0_u64;
        let mut write = |payload: Payload| {
            n += 1;
            pen.write(EntryId::from_bits(u128::from(n)), 1_780_000_000_000 + n, &payload)
        };
        let entries = vec![
            write(known.into()),
            write(Observation::new("topside-plank", at(11), sound(SoundAnswer::DullOrHollow)).into()),
        ];
        State::fold(survey, entries)
    };
    let plain = weigh_all(&with(Beforehand::default()), None).remove(0).weighing.plank;
    let damp =
        Beforehand { ventilation: Some("poor".into()), deck_leaks_above: Some("many".into()), ..Beforehand::default() };
    let in_damp = weigh_all(&with(damp), None).remove(0).weighing.plank;
    assert!(in_damp[PlankState::Decayed as usize] > plain[PlankState::Decayed as usize]);

    let own = |percent: f64, reading: &str| Beforehand {
        likelihoods: vec![OwnLikelihood {
            reading: reading.into(),
            state: "loose".into(),
            percent,
            source: "own notes".into(),
        }],
        ..Beforehand::default()
    };
    let mine = weigh_all(&with(own(99.0, "hammer/dull_or_hollow")), None).remove(0);
    assert!(mine.weighing.plank[PlankState::Loose as usize] > plain[PlankState::Loose as usize]);
    assert_eq!(mine.asked["overrides"][0]["source"], "own notes", "what is kept says whose likelihood it is");
    // Weighed again from what is kept, it comes to the same.
    let question = serde_json::from_value(mine.asked.clone()).unwrap();
    let again = Book::elicited().unwrap().weigh(&question).unwrap();
    for (a, b) in again.plank.iter().zip(mine.weighing.plank) {
        assert!((a - b).abs() < 1e-12);
    }
    let wrong = with(own(50.0, "hammer/sings"));
    assert!(weigh_all(&wrong, None).is_empty() && app::weighed::refused(&wrong).unwrap().contains("sings"));
}
