//! Judgements against references of the same boat: figures of a model, not of boats.

use rehearsal::{Mechanism, Setting, Voice, Walk};
use sounding::{
    Blow, Listener,
    judge::{Basis, Judge},
};

fn pairs(seed: u64) -> Vec<(rehearsal::TrueBlow, Blow)> {
    let walk =
        Walk::new(&Setting { seed, seconds: 150.0, rate_hz: 48_000.0, voice: Voice::Silent, ..Default::default() });
    let mut listener = Listener::new();
    let mut blows = listener.push(&walk.samples);
    blows.extend(listener.finish());
    walk.blows
        .iter()
        .filter_map(|t| Some((t.clone(), blows.iter().find(|b| (b.time_s - t.time_s).abs() < 0.02)?.clone())))
        .collect()
}

fn judge(pairs: &[(rehearsal::TrueBlow, Blow)], most: usize) -> Judge {
    Judge::new(pairs.iter().filter(|p| p.0.reference).take(most).map(|(_, b)| ("plank", b)))
}

#[test]
fn decayed_places_are_told_from_sound_ones() {
    let (mut dead, mut dead_missed, mut solid, mut solid_wronged) = (0, 0, 0, 0);
    for seed in [961, 962, 963] {
        let pairs = pairs(seed);
        let judge = judge(&pairs, usize::MAX);
        for (t, b) in pairs.iter().filter(|p| !p.0.reference) {
            let p = judge.judge("plank", b).probabilities.expect("probabilities");
            assert!((p.solid + p.dull + p.dead - 1.0).abs() < 1e-9);
            match t.mechanism {
                Mechanism::Decay => {
                    dead += 1;
                    dead_missed += usize::from(p.solid > 0.5);
                }
                Mechanism::Solid => {
                    solid += 1;
                    solid_wronged += usize::from(p.solid < 0.5);
                }
                _ => {}
            }
        }
    }
    assert!(dead > 15 && solid > 60, "{dead} {solid}");
    assert!(dead_missed * 20 <= dead, "{dead_missed} of {dead} dead blows called solid");
    assert!(solid_wronged * 5 <= solid, "{solid_wronged} of {solid} solid blows called unsound");
}

#[test]
fn without_references_there_are_ranks_and_no_probabilities() {
    let pairs = pairs(964);
    let judge = judge(&pairs, 2);
    let blows: Vec<(&str, &Blow)> = pairs.iter().map(|(_, b)| ("plank", b)).collect();
    let all = judge.judge_session(&blows);
    assert!(all.iter().all(|j| j.probabilities.is_none() && j.basis == Basis::Session { of_boat: 2 }));
    assert!(all.iter().all(|j| j.rank_in_session.is_some_and(|r| (0.0..=1.0).contains(&r))));
    assert!(all.iter().all(|j| j.words.contains("too few") && j.cautions[0].contains("2 clean reference blows")));
}

#[test]
fn references_alone_never_give_more_certainty_than_their_number() {
    let pairs = pairs(965);
    let judge = judge(&pairs, 10);
    let n = judge.references() as f64;
    for (_, b) in &pairs {
        let rank = judge.judge("plank", b).rank_among_references.expect("a rank");
        assert!(rank >= 1.0 / (n + 1.0) - 1e-12);
    }
}

#[test]
fn another_kind_of_member_is_judged_less_surely_and_says_so() {
    let pairs = pairs(966);
    let judge = judge(&pairs, usize::MAX);
    let sure = |kind: &str| {
        let all = pairs.iter().map(|(_, b)| judge.judge(kind, b));
        all.map(|j| j.probabilities.map_or(0.0, |p| p.solid.max(p.dull).max(p.dead))).sum::<f64>()
    };
    assert!(sure("stem") < sure("plank"));
    assert!(judge.judge("stem", &pairs[0].1).cautions.iter().any(|c| c.contains("other members")));
}

#[test]
fn every_judgement_says_what_it_rests_on() {
    let pairs = pairs(967);
    let judge = judge(&pairs, usize::MAX);
    let decayed = pairs.iter().filter(|p| p.0.mechanism == Mechanism::Decay).map(|(_, b)| judge.judge("plank", b));
    let mut any = false;
    for judgement in decayed {
        any = true;
        assert!(matches!(judgement.basis, Basis::Kind { of_kind, .. } if of_kind >= 3));
        assert!(!judgement.reasons.is_empty() && judgement.distance.is_some());
    }
    assert!(any);
}

#[test]
fn an_unclean_blow_is_no_reference() {
    let mut pairs = pairs(968);
    let clean = judge(&pairs, usize::MAX).references();
    let first = pairs.iter_mut().find(|p| p.0.reference && p.1.is_clean()).expect("a clean reference");
    first.1.description.clipped = true;
    let judge = judge(&pairs, usize::MAX);
    assert_eq!(judge.references(), clean - 1);
    assert!(judge.left_out() >= 1);
}
