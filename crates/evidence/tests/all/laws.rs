//! Laws that hold for every question.

use evidence::{Book, Observation, PLANK_STATES, Question, Weighing};
use proptest::prelude::*;

fn book() -> &'static Book {
    Book::elicited().expect("the data files")
}

fn observations() -> impl Strategy<Value = Vec<Observation>> {
    let one = (0usize..64, any::<bool>(), prop::bool::weighted(0.2), prop::bool::weighted(0.2)).prop_map(
        |(index, not, hearsay, doubtful)| {
            let names: Vec<_> = book().readings().collect();
            let (group, name) = names[index % names.len()];
            let reading = if not { format!("not_{name}") } else { name.to_owned() };
            Observation { group: group.to_owned(), reading, hearsay, doubtful }
        },
    );
    prop::collection::vec(one, 0..8)
}

fn asked() -> impl Strategy<Value = Question> {
    (observations(), any::<bool>(), prop::array::uniform7(1u32..50)).prop_map(|(observations, plank_only, weights)| {
        let total: f64 = weights.iter().map(|w| f64::from(*w)).sum();
        let prior = PLANK_STATES.iter().zip(weights).map(|(s, w)| (s.name().to_owned(), f64::from(w) / total));
        Question { prior: Some(prior.collect()), observations, plank_only, ..Question::default() }
    })
}

fn weigh(question: &Question) -> Weighing {
    book().weigh(question).expect("a good question")
}

fn entropy_bits(p: &[f64]) -> f64 {
    p.iter().filter(|p| **p > 0.0).map(|p| -p * p.log2()).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn weights_add_up_to_the_log_odds(question in asked()) {
        let weighing = weigh(&question);
        for state in 0..7 {
            let prior = weighing.prior_db[state].expect("no state is ruled out");
            let weights: f64 = weighing.weights.iter().map(|w| w.decibans[state].expect("finite")).sum();
            let p = weighing.plank[state];
            let others: f64 = (0..7).filter(|s| *s != state).map(|s| weighing.plank[s]).sum();
            let posterior = 10.0 * (p / others).log10();
            prop_assert!((prior + weights - posterior).abs() < 1e-9, "{} {} {}", prior, weights, posterior);
            prop_assert!((posterior - weighing.posterior_db[state].expect("finite")).abs() < 1e-9);
        }
    }

    #[test]
    fn probabilities_add_up_to_one_and_the_order_of_readings_plays_no_part(question in asked()) {
        let weighing = weigh(&question);
        prop_assert!((weighing.plank.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        for node in [weighing.fastening.map(|p| p.to_vec()), weighing.frame.map(|p| p.to_vec())].into_iter().flatten() {
            prop_assert!((node.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        }
        let mut turned = question.clone();
        turned.observations.reverse();
        let again = weigh(&turned);
        prop_assert_eq!(weighing.plank, again.plank);
        prop_assert_eq!(&weighing.weights, &again.weights);
    }

    #[test]
    fn three_blows_are_one_witness(question in asked()) {
        let mut thrice = question.clone();
        thrice.observations.extend(question.observations.clone());
        thrice.observations.extend(question.observations.clone());
        prop_assert_eq!(weigh(&question).plank, weigh(&thrice).plank);
    }

    /// Expected information is checked by making each test both ways and weighing again, not by its own formula.
    #[test]
    fn expected_information_is_what_the_answers_teach_on_average_and_never_negative(question in asked()) {
        // Hearsay of a group is replaced by the test, so the law is stated for first-hand readings.
        let mut question = question;
        question.observations.iter_mut().for_each(|o| o.hearsay = false);
        let weighing = weigh(&question);
        let before = entropy_bits(&weighing.plank);
        for next in &weighing.next {
            let after = |not: &str| {
                let mut more = question.clone();
                more.observations.push(Observation::new(&next.test.group, &format!("{not}{}", next.test.observation)));
                entropy_bits(&weigh(&more).plank)
            };
            let mean = next.chance_yes * after("") + (1.0 - next.chance_yes) * after("not_");
            prop_assert!((before - mean - next.plank_information_bits).abs() < 1e-9, "{}", next.test.test);
            prop_assert!(before - mean > -1e-9);
            prop_assert!(next.plank_information_bits >= 0.0);
            prop_assert!(next.information_bits >= next.plank_information_bits - 1e-12);
        }
        prop_assert!(weighing.next.windows(2).all(|w| w[0].bits_per_minute >= w[1].bits_per_minute));
    }

    #[test]
    fn hearsay_moves_less_than_the_same_reading_found(index in 0usize..12, not in any::<bool>()) {
        let (group, name) = book().readings().nth(index).expect("a reading");
        let reading = if not { format!("not_{name}") } else { name.to_owned() };
        let found = Question { observations: vec![Observation::new(group, &reading)], ..Question::default() };
        let mut said = found.clone();
        said.observations[0].hearsay = true;
        let (found, said) = (weigh(&found), weigh(&said));
        let moved = |w: &Weighing| w.plank.iter().zip(w.prior).map(|(a, b)| (a / b).ln().abs()).fold(0.0, f64::max);
        prop_assert!(moved(&said) < moved(&found));
        prop_assert_eq!(said.weights[0].share, 0.5);
    }
}
