//! Patterns every surveyor knows. All common practice, no source with figures.

use crate::{question, weigh};
use evidence::{Context, FasteningState, Observation, PLANK_STATES, PlankState, Question};

/// The pattern must hold from the elicited start and from an even prior, in the network and by the table alone.
fn every_way(readings: &[&str]) -> Vec<evidence::Weighing> {
    let even = PLANK_STATES.iter().map(|s| (s.name().to_owned(), 1.0 / 7.0)).collect();
    let asked = question(readings);
    let of_even = Question { prior: Some(even), ..asked.clone() };
    let ways = [asked.clone(), of_even.clone()];
    ways.into_iter().flat_map(|q| [Question { plank_only: true, ..q.clone() }, q]).map(|q| weigh(&q)).collect()
}

#[test]
fn hollow_firm_and_moving_is_loose_ahead_of_decayed() {
    for w in every_way(&["hammer/dull_or_hollow", "knife/firm", "movement/moves_under_pry"]) {
        assert_eq!(w.leading, PlankState::Loose);
        assert!(w.plank[PlankState::Loose as usize] > 5.0 * w.plank[PlankState::Decayed as usize]);
    }
}

#[test]
fn dull_soft_and_wet_is_decayed() {
    let wet = "moisture/above_fibre_saturation_when_it_should_be_dry";
    for w in every_way(&["hammer/dull_or_hollow", "knife/sliver_breaks_short", wet]) {
        assert_eq!(w.leading, PlankState::Decayed);
    }
}

#[test]
fn hollow_firm_tight_with_checks_in_a_heart_centred_timber_is_checks() {
    let checks = "visual/checks_in_heart_centred_timber";
    for w in every_way(&["hammer/dull_or_hollow", "knife/firm", "movement/not_moves_under_pry", checks]) {
        assert_eq!(w.leading, PlankState::SurfaceChecks);
    }
}

#[test]
fn dull_over_a_frame_only_with_rust_weeping_is_fastening_and_iron_sick_wood() {
    let readings = ["hammer/dull_over_frame_only", "visual/rust_weep_and_dark_halo_at_fastenings"];
    for w in every_way(&readings) {
        let both = w.plank[PlankState::IronSick as usize] + w.plank[PlankState::Loose as usize];
        assert!(matches!(w.leading, PlankState::IronSick | PlankState::Loose));
        match w.fastening {
            // The network may also say: the plank is whole and only its fastening has gone.
            Some(fastening) => {
                assert!(both > 0.6, "failed fastening or iron-sick wood: {both}");
                assert!(fastening[FasteningState::Wasted as usize] > 0.8, "{fastening:?}");
            }
            None => assert!(both > 0.75, "failed fastening or iron-sick wood: {both}"),
        }
    }
    // In a boat said to be iron fastened it is iron-sickness before anything else.
    let iron = Context { fastening_metal: Some("iron".to_owned()), ..Context::default() };
    let w = weigh(&Question { context: Some(iron), ..question(&readings) });
    assert_eq!(w.leading, PlankState::IronSick);
}

#[test]
fn ringing_firm_and_still_leads_by_eight_decibans_and_is_worded_with_care() {
    let readings = ["hammer/not_dull_or_hollow", "knife/firm", "movement/not_moves_under_pry"];
    let w = weigh(&question(&readings));
    assert_eq!(w.leading, PlankState::Sound);
    assert!(w.lead_db.expect("a rival") >= 8.0, "{:?}", w.lead_db);
    assert!(w.statement.contains("Rings like the places taken as sound"), "{}", w.statement);
    for never in ["free of decay", "free from decay", "no decay", "is sound"] {
        assert!(!w.statement.contains(never), "{}", w.statement);
    }
}

#[test]
fn nothing_observed_keeps_the_prior_and_says_so() {
    for plank_only in [false, true] {
        let w = weigh(&Question { plank_only, ..Question::default() });
        for (p, prior) in w.plank.iter().zip([0.60, 0.10, 0.12, 0.10, 0.03, 0.02, 0.03]) {
            assert!((p - prior).abs() < 1e-12);
        }
        assert!(w.statement.starts_with("Nothing was observed here"), "{}", w.statement);
    }
}

#[test]
fn a_loose_plank_is_followed_up_at_its_fastenings_and_the_frame_behind() {
    let w = weigh(&question(&["hammer/dull_or_hollow", "knife/firm", "movement/moves_under_pry"]));
    let by_bits = |name: &str| {
        let mut tests: Vec<_> = w.next.iter().collect();
        tests.sort_by(|a, b| b.information_bits.total_cmp(&a.information_bits));
        tests.iter().position(|next| next.test.test == name).expect("ranked")
    };
    assert!(by_bits("draw_a_fastening") < 4, "{}", by_bits("draw_a_fastening"));
    assert!(w.next[..6].iter().any(|next| next.test.group == "frame"));
}

#[test]
fn a_soft_frame_behind_makes_looseness_likelier_and_the_answer_says_why_it_differs() {
    let mut asked = question(&["hammer/chatters"]);
    let before = weigh(&asked);
    asked.observations.push(Observation::new("frame", "soft_behind"));
    let after = weigh(&asked);
    assert!(after.frame.expect("the network")[1] > before.frame.expect("the network")[1]);
    assert_ne!(after.plank, after.plank_alone);
    assert!(after.differs_because[0].contains("frame behind"), "{:?}", after.differs_because);
}

#[test]
fn two_signs_of_a_failed_fastening_are_not_two_witnesses_to_the_plank() {
    let w = weigh(&question(&["movement/moves_under_pry", "fastening/drawn_and_wasted"]));
    assert!(w.differs_because.iter().any(|why| why.contains("come about through the fastening")), "{w:?}");
}
