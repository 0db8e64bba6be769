//! The next survey: what is carried over, and two surveys side by side.

use crate::story::{Desk, SURVEY, finding, pen};
use survey::payload::{
    Condition, Conditions, FollowUp, FollowUpStanding, Observation, Payload, Recommendation, Urgency, Vessel,
};
use survey::{Cover, DrawnCondition, Place, Reading, State, Trend, carried_over, members_then_and_now, trends};

fn at(frame: u32) -> Place {
    Place { frame_from: Some(frame), ..Place::default() }
}

fn moisture(place: Place, percent: f64) -> Payload {
    let reading = Reading::Moisture {
        reading_percent: percent,
        depth_mm: None,
        temp_c: None,
        species_setting: None,
        instrument: None,
    };
    Observation::new("shelf", place, reading).into()
}

fn bolt(left_mm: f64) -> Payload {
    let reading = Reading::Draw {
        fastening: "keel bolt".into(),
        condition: DrawnCondition::Wasted,
        original_mm: Some(20.0),
        measured_mm: Some(left_mm),
        picked: None,
    };
    Observation::new("keel-bolt", Place::default(), reading).into()
}

fn survey_of(day: jiff::civil::Date, payloads: Vec<Payload>) -> State {
    let (mut desk, mut pen) = (Desk::new(), pen("office"));
    let mut state = State::new(SURVEY);
    state.take(desk.write(&mut pen, Conditions { date: Some(day), place: "here".into(), ..Conditions::default() }));
    for payload in payloads {
        state.take(desk.write(&mut pen, payload));
    }
    state
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 5e-4 * b.abs().max(1.0)
}

fn one(trends: Vec<Trend>) -> Trend {
    assert_eq!(trends.len(), 1);
    trends.into_iter().next().expect("there is one")
}

/// Checked against scipy 1.17.1 (`tests/reference/trends.py`): `ttest_rel(now, then).confidence_interval(0.95)` gives
/// -3.5467 to 1.0467 for these pairs, half of it 2.29673.
#[test]
fn readings_at_the_same_places_are_compared_place_by_place() {
    let then = [18.0, 22.0, 25.0, 19.5];
    let now = [17.0, 20.5, 25.5, 16.5];
    let reads = |values: [f64; 4]| values.iter().zip(4..).map(|(v, f)| moisture(at(f), *v)).collect::<Vec<_>>();
    let a = survey_of(jiff::civil::date(2026, 5, 11), reads(then));
    let b = survey_of(jiff::civil::date(2028, 5, 10), reads(now));
    let trend = one(trends(&a, &b));
    assert_eq!((trend.pairs, trend.then.count, trend.now.count), (4, 4, 4));
    assert!(close(trend.change, -1.25), "{}", trend.change);
    assert!(close(trend.within.expect("four pairs have one"), 2.296_73), "{:?}", trend.within);
    assert_eq!(trend.stands_out(), Some(false));
    let (per_year, _) = trend.per_year.expect("both days are known");
    assert!(close(per_year, -1.25 / (730.0 / 365.25)), "{per_year}");
}

/// Checked against scipy 1.17.1 (`tests/reference/trends.py`): `ttest_ind(now, then, equal_var=False)` has 3.797 degrees
/// of freedom and 3.2304 to 12.5196 there; ours are rounded down to 3, so the interval holds scipy's and is that of
/// t(3) = 3.182 on the same standard error.
#[test]
fn readings_at_other_places_are_compared_by_their_means() {
    let a = survey_of(
        jiff::civil::date(2026, 5, 11),
        [18.0, 22.0, 25.0, 19.5].map(|v| moisture(Place::default(), v)).into(),
    );
    let b = survey_of(jiff::civil::date(2026, 5, 12), [28.0, 30.0, 29.0].map(|v| moisture(Place::default(), v)).into());
    let trend = one(trends(&a, &b));
    assert_eq!(trend.pairs, 0);
    assert!(close(trend.change, 7.875), "{}", trend.change);
    let within = trend.within.expect("both have several");
    assert!(7.875 - within < 3.2304 && within < 6.0, "{within}");
    // The variance of 18, 22, 25 and 19.5 is 28.1875 over 3 by hand; that of 28, 30 and 29 is 1.
    let standard_error = (28.1875_f64 / 3.0 / 4.0 + 1.0 / 3.0).sqrt();
    assert!(close(within, 3.182 * standard_error), "{within}");
    assert_eq!(trend.stands_out(), Some(true));
    assert_eq!(trend.per_year, None, "a day apart tells nothing of a year");
}

#[test]
fn a_single_bolt_a_survey_gives_a_change_and_no_interval() {
    let a = survey_of(jiff::civil::date(2026, 5, 11), vec![bolt(19.0)]);
    let b = survey_of(jiff::civil::date(2030, 5, 11), vec![bolt(17.0)]);
    let trend = one(trends(&a, &b));
    assert_eq!(trend.quantity, "fastening, share of its diameter left");
    assert!(close(trend.change, -10.0));
    assert_eq!((trend.within, trend.stands_out()), (None, None));
}

#[test]
fn each_member_stands_then_and_now() {
    let (mut desk, mut pen) = (Desk::new(), pen("office"));
    let heard = desk.write(&mut pen, crate::story::sounding("rings"));
    let concluded = desk.write(&mut pen, finding(vec![heard.id]));
    let then = State::fold(SURVEY, [heard, concluded]);
    let now = survey_of(jiff::civil::date(2028, 1, 1), vec![moisture(at(4), 18.0)]);
    let members = members_then_and_now(&then, &now);
    let find = |id: &str| members.iter().find(|m| m.member == id);
    let garboard = find("garboard").expect("seen then");
    assert_eq!(garboard.cover, (Some(Cover::Seen), Some(Cover::Owed)));
    assert_eq!(garboard.condition, (Some(Condition::Sound), None));
    assert_eq!(garboard.findings.0, ["Garboard rings"]);
    assert_eq!(find("shelf").map(|m| m.cover), Some((Some(Cover::Owed), Some(Cover::Seen))));
    assert!(find("stem").is_none(), "what neither survey speaks of is left out");
}

#[test]
fn open_recommendations_go_over_and_closed_ones_stay() {
    let (mut desk, mut pen) = (Desk::new(), pen("office"));
    let heard = desk.write(&mut pen, crate::story::sounding("rings"));
    let concluded = desk.write(&mut pen, finding(vec![heard.id]));
    let advice = |title: &str| -> Recommendation {
        let written = serde_json::json!({"title": title, "findings": [concluded.id], "action": "look again",
            "urgency": Urgency::FindOut});
        serde_json::from_value(written).expect("it is a recommendation")
    };
    let (open, done) = (desk.write(&mut pen, advice("Open")), desk.write(&mut pen, advice("Done")));
    let closed =
        FollowUp { recommendation: done.id, date: None, standing: FollowUpStanding::Closed, text: "seen done".into() };
    let boat = Vessel { name: "Nobody's Boat".into(), ..Vessel::default() };
    let rest = [desk.write(&mut pen, closed), desk.write(&mut pen, boat)];
    let (open_id, concluded_id) = (open.id, concluded.id);
    let state = State::fold(SURVEY, [heard, concluded.clone(), open, done].into_iter().chain(rest));
    let carried = carried_over(&state);
    let kinds: Vec<&str> = carried.iter().map(Payload::kind).collect();
    assert_eq!(kinds, ["vessel", "recommendation"], "nothing seen is carried over");
    let Some(Payload::Recommendation(r)) = carried.last() else { panic!("a recommendation") };
    let from = r.carried_from.as_ref().expect("it says from where");
    assert_eq!((from.survey, from.recommendation), (SURVEY, open_id));
    assert_eq!((from.findings.as_slice(), r.findings.len()), (["Garboard rings".to_owned()].as_slice(), 0));
    // In a new survey the finding is not there; what is carried over is taken all the same.
    let next = State::new(survey::SurveyId::from_bits(8));
    assert!(next.record(concluded_id).is_none());
    assert!(carried.iter().all(|payload| next.admits(payload).is_ok()));
}
