//! The loose plank, worked by hand (`tests/data/loose_plank.csv`).

use crate::{question, weigh};
use evidence::{Book, PLANK_STATES, PlankState, Question, decibans};

#[test]
fn the_loose_plank_step_by_step() {
    let readings = ["hammer/dull_or_hollow", "knife/firm", "movement/moves_under_pry"];
    for line in include_str!("../data/loose_plank.csv").lines().skip(2) {
        let cells: Vec<&str> = line.split(',').collect();
        let state = PlankState::named(cells[0]).expect("a state");
        for (taken, cell) in cells[1..].iter().enumerate() {
            let asked = Question { plank_only: true, ..question(&readings[..taken]) };
            let p = weigh(&asked).plank[state as usize];
            let by_hand: f64 = cell.parse().expect("a figure");
            assert!((p - by_hand).abs() <= 0.5001e-4, "{state} after {taken}: {p} by hand {by_hand}");
        }
    }
}

#[test]
fn loose_against_decayed_is_12_86_decibans_and_the_hammer_tells_nothing() {
    // (.78/.78)(.945/.215)(.945/.215) = 19.319 = 12.86 dB.
    let asked =
        Question { plank_only: true, ..question(&["hammer/dull_or_hollow", "knife/firm", "movement/moves_under_pry"]) };
    let weighing = weigh(&asked);
    let between = |w: &evidence::Weight| {
        decibans(w.likelihoods[PlankState::Loose as usize] / w.likelihoods[PlankState::Decayed as usize])
    };
    let each: Vec<f64> = weighing.weights.iter().map(between).collect();
    assert!((each.iter().sum::<f64>() - 12.86).abs() < 0.005, "{each:?}");
    assert!(each[0].abs() < 1e-9, "the hammer alone separates nothing: {}", each[0]);
    // Equal priors between the two give 0.9508; halved, odds of 4.395.
    let halves = [("loose".to_owned(), 0.5), ("decayed".to_owned(), 0.5)];
    let mut asked = Question { prior: Some(halves.into()), ..asked };
    let p = weigh(&asked).plank[PlankState::Loose as usize];
    assert!((p - 0.9508).abs() < 0.5e-4, "{p}");
    for observation in &mut asked.observations {
        observation.doubtful = true;
    }
    let p = weigh(&asked).plank[PlankState::Loose as usize];
    assert!((p / (1.0 - p) - 4.395).abs() < 0.5e-3, "{p}");
}

#[test]
fn weighed_by_the_plank_alone_it_is_bayes_on_the_table() {
    // Bayes' rule written out here from the rows of the book, for every reading and every pair of groups.
    let book = Book::elicited().expect("the data files");
    let start = [0.60, 0.10, 0.12, 0.10, 0.03, 0.02, 0.03];
    let row = |group: &str, reading: &str, state: PlankState| {
        let found = book.rows().iter().find(|r| {
            r.group == group && r.observation == reading && r.hypothesis == state.name() && r.node == "plank"
        });
        found.expect("a row").p_observation_given_hypothesis
    };
    let names: Vec<_> = book.readings().filter(|(group, _)| *group != "frame").collect();
    for (i, (g1, r1)) in names.iter().enumerate() {
        for (g2, r2) in names.iter().skip(i + 1).filter(|(g2, _)| g2 != g1) {
            let mut by_hand: Vec<f64> =
                PLANK_STATES.iter().map(|s| start[*s as usize] * row(g1, r1, *s) * (1.0 - row(g2, r2, *s))).collect();
            let total: f64 = by_hand.iter().sum();
            by_hand.iter_mut().for_each(|p| *p /= total);
            let asked = Question { plank_only: true, ..question(&[&format!("{g1}/{r1}"), &format!("{g2}/not_{r2}")]) };
            for (a, b) in weigh(&asked).plank.iter().zip(&by_hand) {
                assert!((a - b).abs() < 1e-12, "{g1}/{r1} and not {g2}/{r2}: {a} {b}");
            }
        }
    }
}

#[test]
fn one_reading_alone_moves_the_plank_the_same_in_the_network() {
    let book = Book::elicited().expect("the data files");
    for (group, reading) in book.readings().filter(|(group, _)| *group != "frame") {
        for not in ["", "not_"] {
            let asked = question(&[&format!("{group}/{not}{reading}")]);
            let weighing = weigh(&asked);
            for (a, b) in weighing.plank.iter().zip(&weighing.plank_alone) {
                assert!((a - b).abs() < 1e-12, "{group}/{not}{reading}");
            }
            assert!(weighing.differs_because.is_empty());
        }
    }
}
