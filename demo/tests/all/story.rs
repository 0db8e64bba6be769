//! The story holds: what is concluded has a basis, what is grave has an answer, what is hearsay is marked.

use crate::{demo, state};
use std::collections::BTreeSet;
use survey::payload::{Condition, Finding, LikelyState, Observation, Payload, Urgency};
use survey::{Cover, catalogue_member, coverage};

#[test]
fn boat_people_and_money_say_that_they_are_invented() {
    let state = state();
    assert!(state.brief().and_then(|b| b.payload.invented.clone()).is_some_and(|text| text.contains("invented")));
    assert!(state.attachments().all(|a| a.payload.caption.ends_with("invented.")));
    assert!(state.estimate_lines().all(|line| line.payload.rates_from == "invented for this example"));
    assert!(state.comparables().all(|c| c.payload.source == "invented for this example"));
    assert!(state.opinion_of_value().is_some_and(|v| v.payload.reasoning.contains("invented")));
    assert!(demo::LETTER.contains("invented for this example"));
}

#[test]
fn every_recommendation_has_a_finding_and_every_serious_finding_a_recommendation() {
    let state = state();
    let answered: BTreeSet<_> = state.recommendations().flat_map(|r| r.payload.findings.clone()).collect();
    for recommendation in state.recommendations() {
        assert!(!recommendation.payload.findings.is_empty(), "{}", recommendation.payload.title);
        for id in &recommendation.payload.findings {
            assert!(
                state.find::<Finding>(*id).is_some(),
                "{} answers a finding that stands",
                recommendation.payload.title
            );
        }
    }
    for finding in state.findings() {
        let grave =
            finding.payload.serious || matches!(finding.payload.condition, Condition::WorkNeeded | Condition::Failed);
        assert!(!grave || answered.contains(&finding.id()), "{}", finding.payload.title);
    }
    assert!(state.findings().filter(|f| f.payload.serious).count() >= 4);
}

#[test]
fn recommendations_of_every_urgency_occur() {
    let urgencies: BTreeSet<Urgency> = state().recommendations().map(|r| r.payload.urgency).collect();
    assert_eq!(urgencies.len(), Urgency::ALL.len());
}

#[test]
fn every_finding_has_a_basis_that_stands() {
    let state = state();
    for finding in state.findings() {
        assert!(!finding.payload.basis.is_empty(), "{}", finding.payload.title);
        for id in &finding.payload.basis {
            let record = state.record(*id).expect("admitted");
            assert!(!record.is_withdrawn(), "{} rests on a withdrawn entry", finding.payload.title);
            let rests_on = record.payload();
            assert!(matches!(rests_on, Payload::Observation(_) | Payload::Reckoning(_)), "{}", finding.payload.title);
        }
    }
}

#[test]
fn a_finding_that_leans_on_hearsay_says_so_and_never_leans_on_it_alone() {
    let state = state();
    let mut leaning = 0;
    for finding in state.findings() {
        let basis: Vec<_> = finding.payload.basis.iter().filter_map(|id| state.find::<Observation>(*id)).collect();
        if basis.iter().any(|o| o.payload.is_hearsay()) {
            leaning += 1;
            let said = [&finding.payload.text, &finding.payload.cause, &finding.payload.meaning];
            assert!(said.iter().any(|text| text.contains("hearsay")), "{}", finding.payload.title);
            assert!(basis.iter().any(|o| !o.payload.is_hearsay()), "{}", finding.payload.title);
        }
    }
    assert!(leaning >= 3);
}

#[test]
fn serious_conclusions_weigh_other_explanations() {
    let state = state();
    let weighed = state.findings().filter(|f| !f.payload.alternatives.is_empty()).count();
    assert!(weighed >= 6, "{weighed}");
    for state_wanted in
        [LikelyState::Loose, LikelyState::Decayed, LikelyState::SurfaceChecks, LikelyState::RepairedBefore]
    {
        assert!(state.findings().any(|f| f.payload.likely_state == Some(state_wanted)), "{state_wanted}");
    }
    assert!(state.findings().filter(|f| f.payload.condition == Condition::Sound).count() >= 4);
}

#[test]
fn the_change_of_mind_keeps_what_was_first_thought() {
    let state = state();
    let changed = state.findings().find(|f| f.payload.title.contains("loose, not rotten")).expect("it stands");
    let first = changed.record.payload_at(changed.record.first()).expect("it was a finding");
    let Payload::Finding(first) = first else { panic!("not a finding") };
    assert_eq!(first.likely_state, Some(LikelyState::Decayed));
    assert_eq!(changed.payload.likely_state, Some(LikelyState::Loose));
    assert_eq!(changed.record.amendments().len(), 1);
}

#[test]
fn coverage_is_that_of_a_walk_almost_done() {
    let covers = coverage(&state());
    let owed: BTreeSet<_> = covers.iter().filter(|c| c.cover == Cover::Owed).map(|c| c.member.id.as_str()).collect();
    assert_eq!(owed, BTreeSet::from(["beam-half", "boom-gaff", "cleat-backing", "exhaust-outlet", "tiller-gear"]));
    let of = |cover: Cover| covers.iter().filter(|c| c.cover == cover).count();
    assert!(of(Cover::Seen) >= 50 && of(Cover::PartlySeen) >= 5 && of(Cover::NotSeen) >= 3, "{covers:?}");
    assert_eq!(of(Cover::HearsayOnly), 1);
    assert!(covers.iter().all(|c| c.cover != Cover::Owed || c.findings.is_empty()));
}

#[test]
fn members_are_those_of_the_catalogue() {
    let state = state();
    let members = state.observations().map(|o| o.payload.member.clone());
    for member in members
        .chain(state.not_seen().map(|n| n.payload.member.clone()))
        .chain(state.findings().map(|f| f.payload.member.clone()))
    {
        assert!(catalogue_member(&member).is_some(), "{member}");
    }
}

#[test]
fn places_lie_on_the_boat() {
    let state = state();
    let vessel = state.vessel().expect("particulars");
    let (strakes, timbers) = (vessel.payload.counts["strakes"], vessel.payload.counts["frame-steamed"]);
    for observation in state.observations() {
        let place = &observation.payload.place;
        assert!(place.strake.is_none_or(|s| s <= strakes), "{place}");
        assert!(
            place.frame_from.is_none_or(|f| f <= timbers) && place.frame_to.is_none_or(|f| f <= timbers),
            "{place}"
        );
        if observation.payload.member == "keel-bolt" {
            assert!(place.number.is_none_or(|n| n <= vessel.payload.counts["keel-bolt"]), "{place}");
        }
    }
}

#[test]
fn nothing_is_promised() {
    for word in ["guarantee", "perfect", "completely sound", "good throughout", "100 %", "no defects", "certainly"] {
        for entry in &demo().entries {
            if entry.kind() != "reckoning" {
                assert!(!entry.line().to_lowercase().contains(word), "`{word}` in {}", entry.line());
            }
        }
        assert!(!demo::LETTER.to_lowercase().contains(word), "`{word}` in the letter");
    }
}

#[test]
fn the_boat_is_told_in_a_fair_number_of_entries() {
    let state = state();
    assert!((150..=300).contains(&state.len()), "{}", state.len());
    assert!(state.observations().count() >= 80);
    assert!(state.not_seen().count() >= 10);
    assert!(state.attachments().count() >= 24);
    assert!(state.reckonings().count() >= 5);
    assert_eq!(state.conditions().count(), 2);
}
