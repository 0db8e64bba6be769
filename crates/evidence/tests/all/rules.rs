//! The rules of weighing: one witness a group, contradictions named, hearsay, neighbours, overrides, leave, the prior.

use crate::{question, weigh};
use evidence::{Book, Context, Fault, Leave, Neighbour, Observation, Override, PlankState, Question};

fn refused(question: &Question) -> Fault {
    Book::elicited().expect("the data files").weigh(question).expect_err("a bad question")
}

#[test]
fn of_one_group_the_strongest_counts_and_the_other_is_named() {
    let w = weigh(&question(&["visual/let_in_edges_or_odd_bungs", "visual/shell_lined_tunnel"]));
    assert_eq!(w.weights.len(), 1);
    assert_eq!(w.weights[0].observation.reading, "shell_lined_tunnel");
    assert_eq!(w.set_aside[0].reading, "let_in_edges_or_odd_bungs");
    assert!(w.set_aside[0].why.contains("one witness"));
}

#[test]
fn a_contradiction_is_named_with_the_answer_either_way() {
    let w = weigh(&question(&["knife/firm", "knife/sliver_breaks_short"]));
    let c = &w.contradictions[0];
    assert_eq!((c.first.as_str(), c.second.as_str()), ("firm", "sliver_breaks_short"));
    assert_eq!(c.leading_if_first.0, PlankState::Sound);
    assert_eq!(c.leading_if_second.0, PlankState::Decayed);
    assert!(w.statement.contains("contradict"), "{}", w.statement);
    let w = weigh(&question(&["hammer/dull_or_hollow", "hammer/not_dull_or_hollow", "hammer/dull_or_hollow"]));
    assert_eq!(w.contradictions.len(), 1);
    assert!(weigh(&question(&["knife/firm", "hammer/dull_or_hollow"])).contradictions.is_empty());
}

#[test]
fn readings_that_fight_or_that_the_prior_rules_out_are_named() {
    let w = weigh(&question(&["bore/not_soft_or_void", "open/decay_seen_when_opened"]));
    assert!(w.conflicts[0].db.is_some_and(|db| db > 3.0), "{:?}", w.conflicts);
    let only_sound =
        Question { prior: Some([("sound".to_owned(), 1.0)].into()), ..question(&["visual/shell_lined_tunnel"]) };
    let w = weigh(&only_sound);
    assert!(w.conflicts[0].sentence.contains("all but impossible"), "{:?}", w.conflicts);
    assert!((w.plank[0] - 1.0).abs() < 1e-12);
    assert_eq!(w.weights[0].decibans[0], None);
}

#[test]
fn a_narrow_lead_is_called_close() {
    let w = weigh(&question(&["hammer/dull_or_hollow"]));
    assert!(w.close && w.statement.contains("close"), "{}", w.statement);
    let w = weigh(&question(&["hammer/dull_or_hollow", "knife/firm", "movement/moves_under_pry"]));
    assert!(!w.close && !w.statement.contains("close"), "{}", w.statement);
}

#[test]
fn what_was_found_beats_what_was_said_of_the_same_group() {
    let mut asked = question(&["knife/sliver_breaks_short", "knife/firm"]);
    asked.observations[0].hearsay = true;
    let w = weigh(&asked);
    assert_eq!(w.weights.len(), 1);
    assert_eq!(w.weights[0].observation.reading, "firm");
    asked.observations.remove(1);
    assert!(weigh(&asked).statement.contains("only on what was said"));
}

#[test]
fn neighbours_shift_the_prior_a_little_and_never_more_than_three_decibans() {
    let rotten = Neighbour {
        place: "next strake (invented)".to_owned(),
        observations: vec![
            Observation::new("knife", "sliver_breaks_short"),
            Observation::new("bore", "soft_or_void"),
            Observation::new("hammer", "dull_or_hollow"),
        ],
    };
    let alone = weigh(&Question::default());
    let one = weigh(&Question { neighbours: vec![rotten.clone()], ..Question::default() });
    let many = weigh(&Question { neighbours: vec![rotten; 9], ..Question::default() });
    let decayed = PlankState::Decayed as usize;
    assert!(one.plank[decayed] > alone.plank[decayed]);
    let spread = |m: [f64; 7]| {
        10.0 * (m.iter().copied().fold(0.0, f64::max) / m.iter().copied().fold(f64::INFINITY, f64::min)).log10()
    };
    assert!(spread(one.neighbour_multipliers) < 3.0 + 1e-9);
    assert!((spread(many.neighbour_multipliers) - 3.0).abs() < 1e-9);
    // A neighbour tells something of the same kind, but not so much that rot next door outweighs a firm knife here.
    let firm = Question { neighbours: one_neighbour(), ..question(&["knife/firm", "hammer/not_dull_or_hollow"]) };
    assert_eq!(weigh(&firm).leading, PlankState::Sound);
}

fn one_neighbour() -> Vec<Neighbour> {
    let observations = vec![Observation::new("knife", "sliver_breaks_short")];
    vec![Neighbour { place: "beside (invented)".to_owned(), observations }]
}

#[test]
fn the_callers_own_likelihood_is_used_and_reported() {
    let own = Override {
        group: "hammer".to_owned(),
        reading: "dull_or_hollow".to_owned(),
        hypothesis: "decayed".to_owned(),
        p: 0.4,
        source: "invented for this test".to_owned(),
    };
    let asked = Question { overrides: vec![own.clone()], plank_only: true, ..question(&["hammer/dull_or_hollow"]) };
    let w = weigh(&asked);
    let by_hand = 0.10 * 0.4
        / (0.60 * 0.055 + 0.10 * 0.215 + 0.12 * 0.78 + 0.10 * 0.4 + 0.03 * 0.495 + 0.02 * 0.78 + 0.03 * 0.215);
    assert!((w.plank[PlankState::Decayed as usize] - by_hand).abs() < 1e-12);
    assert_eq!(w.overrides, vec![own.clone()]);
    let certain = Question { overrides: vec![Override { p: 1.0, ..own }], ..asked };
    assert!(matches!(refused(&certain), Fault::Override { .. }));
}

#[test]
fn tests_stay_within_what_may_be_opened() {
    let w = weigh(&Question { may_open: Some(Leave::Marks), ..question(&["hammer/dull_or_hollow"]) });
    assert!(w.next.iter().all(|next| next.test.leave <= Leave::Marks) && !w.next.is_empty());
    assert!(w.needs_leave.iter().any(|next| next.test.test == "bore_a_small_hole"));
    assert!(w.rivals.iter().all(|r| r.told_apart_by.iter().all(|s| s.leave <= Leave::Marks)));
    // The group that has been read is one witness already.
    assert!(w.next.iter().all(|next| next.test.group != "hammer"));
}

#[test]
fn the_two_best_rivals_are_told_apart() {
    let w = weigh(&question(&["hammer/dull_or_hollow"]));
    assert_eq!((w.leading, w.rivals[0].state), (PlankState::Loose, PlankState::Decayed));
    let best = &w.rivals[0].told_apart_by[0];
    assert!(best.expected_db > 5.0, "{best:?}");
    assert_eq!(w.rivals.len(), 2);
}

#[test]
fn the_context_shifts_the_prior_the_way_the_trade_expects_and_is_shown_as_elicited() {
    let wet = Context {
        water: Some("fresh".to_owned()),
        ventilation: Some("poor".to_owned()),
        deck_leaks_above: Some("many".to_owned()),
        age_years: Some(70.0),
        ..Context::default()
    };
    let (plain, wet) = (weigh(&Question::default()), weigh(&Question { context: Some(wet), ..Question::default() }));
    assert!(wet.plank[PlankState::Decayed as usize] > 2.0 * plain.plank[PlankState::Decayed as usize]);
    assert!(wet.plank[PlankState::Borer as usize] < plain.plank[PlankState::Borer as usize]);
    assert_eq!(wet.prior_steps.len(), 5);
    assert!(wet.prior_steps.iter().all(|step| step.status.contains("not measured")));
}

#[test]
fn bad_questions_are_refused_in_a_sentence() {
    let sum = Question { prior: Some([("sound".to_owned(), 0.6)].into()), ..Question::default() };
    assert!(refused(&sum).to_string().contains("adds up to 0.6"));
    let state = Question { prior: Some([("rotten".to_owned(), 1.0)].into()), ..Question::default() };
    assert!(refused(&state).to_string().contains("surface_checks"));
    assert!(refused(&question(&["hammer/rings"])).to_string().contains("hammer/dull_or_hollow"));
    let context = Context { water: Some("deep".to_owned()), ..Context::default() };
    let context = Question { context: Some(context), ..Question::default() };
    assert!(refused(&context).to_string().contains("salt, brackish, fresh"));
}
