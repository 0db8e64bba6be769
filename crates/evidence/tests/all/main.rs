//! Tests of the room `evidence`, in one binary.

mod hand_worked;
mod laws;
mod puzzles;
mod reference;
mod rules;
mod trade;
mod worth;

use evidence::{Book, Observation, Question, Weighing};

/// A question of first-hand readings written `group/reading`.
fn question(readings: &[&str]) -> Question {
    let observation = |text: &&str| {
        let (group, reading) = text.split_once('/').expect("group/reading");
        Observation::new(group, reading)
    };
    Question { observations: readings.iter().map(observation).collect(), ..Question::default() }
}

fn weigh(question: &Question) -> Weighing {
    Book::elicited().expect("the data files").weigh(question).expect("a good question")
}
