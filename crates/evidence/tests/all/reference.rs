//! Posteriors against a general-purpose library (`tests/reference/network.py`, pyAgrum; versions in its output).

use evidence::{Book, FasteningState, FrameState, Observation, PLANK_STATES, Question};

#[test]
fn a_thousand_random_sets_agree_with_a_general_network_library() {
    let book = Book::elicited().expect("the data files");
    let names: Vec<(&str, &str)> = book.readings().collect();
    let mut sets = 0;
    let mut worst = 0.0f64;
    for line in include_str!("../reference/network.csv").lines().skip(2) {
        let (set, figures) = line.split_once(',').expect("set,figures");
        let (head, codes) = set.split_once('|').expect("weights|readings");
        let (mode, weights) = head.split_once(' ').expect("mode weights");
        let weights: Vec<f64> = weights.split(' ').map(|w| w.parse().expect("a weight")).collect();
        let total: f64 = weights.iter().sum();
        let prior = PLANK_STATES.iter().zip(&weights).map(|(s, w)| (s.name().to_owned(), w / total)).collect();
        let observations = codes.split(' ').map(|code| {
            let (group, name) = names[code.trim_start_matches('-').parse::<usize>().expect("a reading")];
            let not = if code.starts_with('-') { "not_" } else { "" };
            Observation::new(group, &format!("{not}{name}"))
        });
        let question = Question {
            prior: Some(prior),
            plank_only: mode == "t",
            observations: observations.collect(),
            ..Question::default()
        };
        let weighing = book.weigh(&question).expect("a good question");
        let mut ours = weighing.plank.to_vec();
        ours.extend(weighing.fastening.map(|p| p[FasteningState::Holding as usize]));
        ours.extend(weighing.frame.map(|p| p[FrameState::Sound as usize]));
        let theirs: Vec<f64> = figures.split(' ').map(|p| p.parse().expect("a figure")).collect();
        assert_eq!(ours.len(), theirs.len(), "{line}");
        for (a, b) in ours.iter().zip(&theirs) {
            worst = worst.max((a - b).abs());
        }
        sets += 1;
    }
    assert_eq!(sets, 1000);
    assert!(worst < 1e-9, "largest difference {worst:e}");
}
