//! Draw plans kept in the record, and how far they are drawn.

use crate::story::{Desk, SURVEY, pen};
use serde_json::json;
use survey::payload::{Observation, Payload, Reckoning};
use survey::{DrawnCondition, EntryId, Picked, Place, Reading, State, Verdict, draw_plans};

fn plan() -> Reckoning {
    Reckoning {
        topic: "draw-plan".into(),
        version: 2,
        inputs: json!({"confidence_percent": 90.0, "seed": 7}),
        results: json!({
            "population": 500,
            "allocation": [{"zone": "garboards", "population": 100}, {"zone": "bottom", "population": 400}],
            "picks": [
                {"zone": "garboards", "draw": [12, 5], "substitutes": [40],
                 "places": [{"side": "port", "strake": 1, "frame": 4, "row": 2}, {"side": "starboard", "strake": 1, "frame": 9, "row": 1}],
                 "substitute_places": [{"side": "port", "strake": 1, "frame": 20, "row": 1}]},
                {"zone": "bottom", "draw": [301], "substitutes": [7],
                 "places": [{"side": "port", "strake": 3, "frame": 11, "row": 1}], "substitute_places": []},
            ],
            "accept_at": [{"bad": 0, "drawn": 3}],
            "reject_up_to": [{"bad": 2, "drawn": 3}],
        }),
        equation: String::new(),
        sources: vec![],
        cautions: vec![],
        member: None,
        note: String::new(),
    }
}

fn drawn(plan: EntryId, zone: &str, number: u64, condition: DrawnCondition) -> Payload {
    let reading = Reading::Draw {
        fastening: "bronze screw".into(),
        condition,
        original_mm: None,
        measured_mm: None,
        picked: Some(Picked { plan, zone: Some(zone.into()), number }),
    };
    Observation::new("plank-fastening", Place::default(), reading).into()
}

#[test]
fn a_plan_is_drawn_in_order_and_one_that_will_not_draw_gives_way_to_the_substitute() {
    let (mut desk, mut pen) = (Desk::new(), pen("office"));
    let mut state = State::new(SURVEY);
    let kept = desk.write(&mut pen, plan());
    let id = kept.id;
    state.take(kept);
    let one = |state: &State| draw_plans(state).pop().expect("a plan was kept");
    let first = one(&state);
    assert_eq!((first.to_draw(), first.population, first.confidence_percent), (3, 500, 90.0));
    assert_eq!(first.zones[0].population, 100);
    let next = first.zones[0].next().unwrap();
    assert_eq!((next.number, next.place.as_ref().unwrap().frame_from), (12, Some(4)));
    assert_eq!(first.verdict(), Verdict::DrawAnother);

    let draw = |state: &mut State, desk: &mut Desk, pen: &mut survey::Pen, zone: &str, number, condition| {
        let payload = drawn(id, zone, number, condition);
        state.admits(&payload).unwrap();
        state.take(desk.write(pen, payload));
    };
    draw(&mut state, &mut desk, &mut pen, "garboards", 12, DrawnCondition::WouldNotDraw);
    draw(&mut state, &mut desk, &mut pen, "garboards", 5, DrawnCondition::Good);
    let after = one(&state);
    assert_eq!(after.zones[0].counted(), (1, 0));
    let next = after.zones[0].next().unwrap();
    assert!(next.substitute && next.number == 40);
    draw(&mut state, &mut desk, &mut pen, "garboards", 40, DrawnCondition::Good);
    assert!(one(&state).zones[0].next().is_none());
    draw(&mut state, &mut desk, &mut pen, "bottom", 301, DrawnCondition::Good);
    let done = one(&state);
    assert_eq!((done.counted(), done.verdict()), ((3, 0), Verdict::Acceptable));
}

#[test]
fn two_bad_in_three_stop_the_draw_and_a_plan_that_is_not_there_is_refused() {
    let (mut desk, mut pen) = (Desk::new(), pen("office"));
    let mut state = State::new(SURVEY);
    let kept = desk.write(&mut pen, plan());
    let id = kept.id;
    state.take(kept);
    for number in [12, 5] {
        state.take(desk.write(&mut pen, drawn(id, "garboards", number, DrawnCondition::Wasted)));
    }
    let plan = draw_plans(&state).pop().unwrap();
    assert_eq!((plan.counted(), plan.verdict()), ((2, 2), Verdict::NotAcceptable));
    let nowhere = drawn(EntryId::from_bits(999), "garboards", 12, DrawnCondition::Good);
    assert!(state.admits(&nowhere).unwrap_err().to_string().contains("not in this survey"));
}
