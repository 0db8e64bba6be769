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
    Observation::new("clinker-strake", place, reading).into()
}

#[test]
fn a_finding_is_hatched_and_an_observation_marked_on_its_own_side_only() {
    let port = survey::Side::Port;
    let state = state(vec![vessel(), finding(at(port, 4, 12)), sounded(at(port, 6, 20))]);
    let (conditions, marks) = (recorded(&state), plans::marks(&state));
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
    assert_eq!(recorded(&state).len(), 1);
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
    // The garboard on the shell, the keel on the backbone.
    let places: Vec<_> = recorded(&state).into_iter().map(|condition| condition.place).collect();
    assert_eq!(places.len(), 2);
    assert_eq!(places.iter().filter(|place| matches!(place, hull::Place::Shell(_))).count(), 1);
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
    let words: Vec<_> = recorded(&state).into_iter().map(|condition| condition.word).collect();
    assert_eq!(words, ["2", "1"]);
}

/// What is drawn because something is recorded.
fn recorded(state: &State) -> Vec<hull::sheets::Condition> {
    plans::conditions(state).into_iter().filter(|condition| !condition.is_not_recorded()).collect()
}

fn plan(state: &State, name: &str) -> plans::Plan {
    let found = plans::sheets(state).into_iter().find(|(n, _)| n.to_string() == name);
    found.map(|(_, plan)| plan).unwrap_or_else(|| panic!("no sheet {name}"))
}

#[test]
fn every_sheet_for_which_enough_is_known_is_offered_under_a_name_of_its_own() {
    let names = |state: &State| plans::sheets(state).into_iter().map(|(n, _)| n.to_string()).collect::<Vec<_>>();
    let all = ["shell-port", "shell-starboard", "shell-both", "transom", "backbone", "framing", "deck"];
    assert_eq!(names(&state(vec![vessel()])), all);
    let Payload::Vessel(hers) = vessel() else { panic!("a vessel") };
    let double = Vessel { stern: Some("double-ended".into()), ..(*hers).clone() };
    assert_eq!(
        names(&state(vec![double.into()])),
        ["shell-port", "shell-starboard", "shell-both", "backbone", "framing", "deck"]
    );
    // With her length alone there are diagrams of what does not need a count.
    let length = Vessel { counts: Default::default(), ..(*hers).clone() };
    let bare = state(vec![length.into()]);
    assert_eq!(names(&bare), ["transom", "backbone", "deck"]);
    assert!(plan(&bare, "deck").caption.contains("a diagram for finding places, not her shape"));
}

#[test]
fn what_nothing_is_recorded_of_is_told_from_what_was_not_seen_and_from_what_is_sound() {
    let port = survey::Side::Port;
    let whole = Place { side: Some(port), ..Place::default() };
    let looked = Observation {
        note: "fair".into(),
        ..Observation::new("clinker-strake", whole, Reading::Sight { signs: vec![] })
    };
    let unseen =
        NotSeen { member: "garboard".into(), place: at(port, 1, 9), why: "shored".into(), needs: String::new() };
    let svg = |state: &State, name: &str| plan(state, name).sheet.to_svg();
    let untouched = state(vec![vessel()]);
    // 11 strakes a side, nothing recorded of any.
    assert_eq!(svg(&untouched, "shell-port").matches("data-state=\"nothing recorded yet\"").count(), 11);
    assert!(svg(&untouched, "shell-port").contains(">nothing recorded yet</text>"));
    let state = state(vec![vessel(), looked.into(), unseen.into()]);
    let drawn = svg(&state, "shell-port");
    assert_eq!(drawn.matches("data-state=\"nothing recorded yet\"").count(), 0);
    assert_eq!(drawn.matches("data-state=\"not seen\"").count(), 1);
    // The other side is as it was.
    assert_eq!(svg(&state, "shell-starboard").matches("data-state=\"nothing recorded yet\"").count(), 11);
    // Between two places looked at, one gap: strake 4 forward of frame 12, and abaft it.
    let spot = crate::state(vec![vessel(), sounded(at(port, 4, 12))]);
    let gaps: Vec<_> = plans::conditions(&spot)
        .into_iter()
        .filter(|c| matches!(&c.place, hull::Place::Shell(p) if p.side == Side::Port && p.strake == 4))
        .collect();
    assert_eq!(gaps.len(), 2);
}

#[test]
fn a_dull_blow_a_ringing_blow_and_a_chattering_one_are_marked_differently() {
    let port = survey::Side::Port;
    let blow = |answer| {
        let reading = Reading::Sound { answer, blows: None };
        let state = state(vec![vessel(), Observation::new("clinker-strake", at(port, 4, 12), reading).into()]);
        (plans::marks(&state)[0].kind, plan(&state, "shell-port").sheet.to_svg())
    };
    let all =
        [SoundAnswer::Rings, SoundAnswer::DullOrHollow, SoundAnswer::Chatters, SoundAnswer::CannotBeTold].map(blow);
    for (i, one) in all.iter().enumerate() {
        for other in &all[i + 1..] {
            assert!(one.0 != other.0 && one.1 != other.1);
        }
    }
}

#[test]
fn a_region_and_a_mark_tell_the_page_what_they_are() {
    let port = survey::Side::Port;
    let stretch = Place { frame_to: Some(15), ..at(port, 4, 12) };
    let state = state(vec![vessel(), finding(stretch), sounded(at(port, 6, 20))]);
    let svg = plan(&state, "shell-port").sheet.to_svg();
    let group = |entry: u128| {
        let entry = EntryId::from_bits(entry).to_string();
        svg.split("<g").find(|g| g.contains(&format!("data-entry=\"{entry}\""))).map(str::to_owned)
    };
    let region = group(1).expect("the finding's region");
    for told in [
        "data-name=\"condition\"",
        "data-side=\"port\"",
        "data-strake=\"4\"",
        "data-frame=\"12\"",
        "data-to-frame=\"15\"",
    ] {
        assert!(region.contains(told), "{told} in {region}");
    }
    let mark = group(2).expect("the blow's mark");
    assert!(
        mark.contains("data-name=\"mark\"") && mark.contains("data-strake=\"6\"") && mark.contains("data-frame=\"20\"")
    );
    // Every strake can be pointed at, whether anything is recorded of it or not.
    assert_eq!(svg.matches("data-name=\"strake-port-").count(), 11);
    // A member on a sheet of parts is told by its name.
    assert!(plan(&state, "backbone").sheet.to_svg().contains("data-member=\"sternpost\""));
    assert!(plan(&state, "framing").sheet.to_svg().contains("data-side=\"starboard\" data-frame=\"34\""));
}

#[test]
fn a_point_of_the_paper_is_found_again_on_the_planking() {
    let state = state(vec![vessel()]);
    let layout = plans::layout(&state).unwrap();
    for name in ["shell-port", "shell-starboard", "shell-both"] {
        let plan = plan(&state, name);
        for side in plan.name.shell_sides() {
            for (strake, frame) in [(1u32, 12u32), (4, 2), (7, 20), (11, 33)] {
                let spot = hull::Patch::spot(*side, strake as usize, hull::Along::Frame(f64::from(frame)));
                let (x, y) = plans::point_of(&plan, &hull::Place::Shell(spot)).unwrap();
                let found = plans::place_at(&plan, x, y).unwrap();
                assert_eq!((found.strake, found.frame_from), (Some(strake), Some(frame)), "{name} {side}");
                assert_eq!(found.side.map(|s| s.to_string()), Some(side.to_string()));
                // A diagram's distances are invented and are not handed on.
                assert_eq!(found.from_stem_mm, None);
            }
        }
        assert_eq!(plans::place_at(&plan, 0.5, 0.5), None);
    }
    assert_eq!(layout.basis, hull::Basis::Schematic);
    assert_eq!(plans::place_at(&plan(&state, "deck"), 90.0, 50.0), None);
}

#[test]
fn a_finding_that_has_no_place_is_named_on_the_sheet() {
    let port = survey::Side::Port;
    let nowhere = Place { side: Some(port), ..Place::default() };
    let mut rig = plain_finding(Place::default());
    (rig.member, rig.title) = ("mast".into(), "Shake at the hounds".into());
    let state = state(vec![vessel(), finding(nowhere), rig.into()]);
    let lettering = |name: &str| {
        let svg = plan(&state, name).sheet.to_svg();
        let words: Vec<_> = svg.split("</text>").filter_map(|t| t.rsplit('>').next()).map(str::to_owned).collect();
        words.join(" ")
    };
    let port = lettering("shell-port");
    assert!(
        port.contains("Findings without a place that can be drawn here: 1 Loose (clinker strake, port)."),
        "{port}"
    );
    assert!(port.contains("Findings that no drawing shows: 2 Shake at the hounds (mast)."), "{port}");
    assert!(!lettering("shell-starboard").contains("Loose"));
}

#[test]
fn no_mark_lies_over_a_findings_number() {
    let port = survey::Side::Port;
    // Twelve blows at one frame and one finding there.
    let mut payloads = vec![vessel(), finding(at(port, 4, 12))];
    payloads.extend((0..12).map(|_| sounded(at(port, 4, 12))));
    let state = state(payloads);
    let svg = plan(&state, "shell-port").sheet.to_svg();
    // What is written last lies on top.
    let (words, marks) = (svg.find("data-name=\"words-port\"").unwrap(), svg.find("data-name=\"marks-port\"").unwrap());
    assert!(words > marks);
    let number = svg[words..].split("<text ").nth(1).unwrap();
    let figure = |name: &str| {
        let tail = number.split(&format!(" {name}=\"")).nth(1).or_else(|| number.strip_prefix(&format!("{name}=\"")));
        tail.unwrap().split('"').next().unwrap().parse::<f64>().unwrap()
    };
    let (x, y) = (figure("x"), figure("y"));
    // Every triangle of a blow is at least a letter's half height away from the number's middle.
    let marks = &svg[marks..words];
    for path in marks.split("<path d=\"M").skip(1) {
        let first: Vec<f64> = path.split(['L', ' ', 'Z']).take(2).filter_map(|n| n.parse().ok()).collect();
        assert!((first[0] - x).abs().max((first[1] - (y - 0.8)).abs()) > 1.0, "{first:?} at {x}, {y}");
    }
}

#[test]
fn moisture_and_soundness_are_drawn_as_contours_where_three_readings_are() {
    let port = survey::Side::Port;
    let wet = |strake, frame, percent| {
        let reading = Reading::Moisture {
            reading_percent: percent,
            depth_mm: None,
            temp_c: None,
            species_setting: None,
            instrument: None,
        };
        Payload::from(Observation::new("clinker-strake", at(port, strake, frame), reading))
    };
    let mut payloads = vec![vessel(), wet(3, 10, 18.0), wet(4, 12, 26.0)];
    assert!(plans::sheets(&state(payloads.clone())).iter().all(|(n, _)| n.to_string() != "moisture-port"));
    payloads.push(wet(5, 14, 31.0));
    payloads.push(wet(3, 14, 22.0));
    let state = state(payloads);
    let svg = plan(&state, "moisture-port").sheet.to_svg();
    assert!(svg.contains("4 readings") && svg.contains("data-name=\"contours\""));
    assert!(svg.contains(&format!("data-entry=\"{}\"", EntryId::from_bits(1))), "a reading can be pointed at");
    assert!(plans::sheets(&state).iter().all(|(n, _)| n.to_string() != "moisture-starboard"));
}

#[test]
fn a_hull_is_fitted_to_girths_and_freeboards_and_to_offsets_when_they_are_known() {
    use survey::payload::HullForm;
    let Payload::Vessel(hers) = vessel() else { panic!("a vessel") };
    let known = Vessel { beam_mm: Some(2_750.0), draft_mm: Some(1_300.0), length_mm: Some(9_200.0), ..(*hers).clone() };
    let form = HullForm {
        girths_mm: vec![(2_400.0, 1_900.0), (4_800.0, 2_300.0), (7_000.0, 1_980.0)],
        freeboards_mm: Some((1_350.0, 820.0, 950.0)),
        ..HullForm::default()
    };
    let fitted = state(vec![known.clone().into(), form.into()]);
    let layout = plans::layout(&fitted).unwrap();
    assert_eq!(layout.basis, hull::Basis::Measured);
    assert!((layout.length_m - 9.2).abs() < 1e-6);
    let caption = plan(&fitted, "shell-port").caption;
    assert!(caption.contains("fitted to a few measurements") && caption.contains("Assumed for want of measurements"));
    // A table that cannot be read falls back, and says why.
    let bad = HullForm { offsets: Some("not a table".into()), ..HullForm::default() };
    let fallen = state(vec![known.into(), bad.into()]);
    assert_eq!(plans::layout(&fallen).unwrap().basis, hull::Basis::Schematic);
    assert!(plan(&fallen, "shell-port").caption.contains("table of offsets could not be used"));
}

#[test]
fn her_fastenings_are_counted_once_each_and_what_is_not_known_is_said() {
    // Two at each crossing of 11 strakes and 34 frames, on two sides.
    let counted = plans::fastenings(&state(vec![vessel()])).unwrap();
    assert_eq!(counted.population(), Some(11 * 34 * 2 * 2));
    assert!(counted.said.concat().contains("not told apart"), "{:?}", counted.said);
    let head = "zone,side,strake_from,strake_to,frame_from,frame_to,per_frame\nhood-ends,both,1,11,1,1,2\n";
    assert!(counted.table().starts_with(head), "{}", counted.table());
    assert!(plans::fastenings(&state(vec![])).is_none());
}

#[test]
fn the_shape_of_the_invented_boat_tells_her_zones_apart() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.survey, marram.entries);
    let counted = plans::fastenings(&state).unwrap();
    let layout = plans::layout(&state).unwrap();
    assert_eq!(counted.population(), Some((layout.strakes() * layout.frames.len() * 4) as u64));
    let has = |zone: &str| counted.table().contains(&format!("\n{zone},"));
    assert!(["garboards", "hood-ends", "topsides"].into_iter().all(has), "{}", counted.table());
}

/// Both sides are alike, so the middle of every corner is on the centreline; the marks lie on the planking.
#[test]
fn in_space_both_sides_mirror_each_other_and_marks_lie_on_the_planking() {
    let marram = demo::marram().unwrap();
    let state = State::fold(marram.survey, marram.entries);
    let solid = plans::solid(&state).unwrap();
    assert_eq!(solid.triangles_m.len(), solid.outward.len());
    assert!(solid.triangles_m.iter().chain(&solid.outward).all(|v| v.is_finite()));
    let across: f64 = solid.triangles_m.chunks_exact(3).map(|p| f64::from(p[1])).sum();
    assert!(across.abs() < 1e-2, "{across}");
    let of_length_one = |n: &[f32]| (n.iter().map(|v| v * v).sum::<f32>().sqrt() - 1.0).abs() < 1e-3;
    assert!(solid.outward.chunks_exact(3).all(of_length_one));
    assert!(solid.marks.len() > 10 && solid.marks.iter().any(|mark| mark.against));
    for mark in &solid.marks {
        let nearest = solid
            .triangles_m
            .chunks_exact(3)
            .map(|p| p.iter().zip(mark.at_m).map(|(a, b)| (a - b) * (a - b)).sum::<f32>().sqrt());
        let nearest = nearest.fold(f32::INFINITY, f32::min);
        assert!(nearest < 0.2, "{} lies {nearest} m off", mark.word);
        assert!(mark.entry.parse::<EntryId>().is_ok());
    }
    assert!(plans::solid(&crate::state(vec![vessel()])).is_none(), "a diagram has no third dimension");
}

#[test]
fn more_readings_than_contours_can_be_drawn_from_are_thinned_and_not_dropped() {
    let reading = |n: u32| {
        let percent = 18.0 + f64::from(n % 9);
        let reading = Reading::Moisture {
            reading_percent: percent,
            depth_mm: None,
            temp_c: None,
            species_setting: None,
            instrument: None,
        };
        Payload::from(Observation::new("clinker-strake", at(survey::Side::Port, 2 + n % 9, 2 + n / 9 % 31), reading))
    };
    let payloads: Vec<Payload> = std::iter::once(vessel()).chain((0..520).map(reading)).collect();
    let svg = plan(&state(payloads), "moisture-port").sheet.to_svg();
    assert!(svg.contains("520 readings"), "what was left out is said");
}
