//! Time to weigh a whole boat: 300 members, 3,000 observations. Prints figures; tests nothing.

use evidence::{Book, Observation, Question};
use std::time::Instant;

fn main() -> Result<(), evidence::Fault> {
    let book = Book::elicited()?;
    let names: Vec<(String, String)> = book.readings().map(|(g, r)| (g.to_owned(), r.to_owned())).collect();
    let mut seed = 1u64;
    let mut draw = |n: usize| {
        seed = seed.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (seed >> 33) as usize % n
    };
    let boat: Vec<Question> = (0..300)
        .map(|_| {
            let mut question = Question::default();
            for _ in 0..10 {
                let (group, reading) = &names[draw(names.len())];
                let reading = if draw(2) == 0 { format!("not_{reading}") } else { reading.clone() };
                question.observations.push(Observation::new(group, &reading));
            }
            question
        })
        .collect();
    for (what, plank_only) in [("network", false), ("plank alone", true)] {
        let mut times = Vec::new();
        for _ in 0..20 {
            let start = Instant::now();
            let mut decayed = 0.0;
            for question in &boat {
                let question = Question { plank_only, ..question.clone() };
                decayed += book.weigh(&question)?.plank[3];
            }
            times.push(start.elapsed().as_secs_f64() * 1000.0);
            std::hint::black_box(decayed);
        }
        times.sort_by(f64::total_cmp);
        println!(
            "300 members, 3,000 observations, {what}: median {:.1} ms, worst of 20 {:.1} ms",
            times[10], times[19]
        );
    }
    Ok(())
}
