//! How much do the answers hang on the elicited figures? Every likelihood is changed by up to 30 % either way, at random
//! and each by itself, and 1,000 invented members are weighed again. Run with
//! `cargo run -p evidence --example robustness --profile dev`.

use evidence::{Book, Observation, PLANK_STATES, PlankState, Question, Row};

fn main() -> Result<(), evidence::Fault> {
    let book = Book::elicited()?;
    let mut draw = Draw(20_240_501);
    let members: Vec<Question> = (0..1000).map(|_| member(book, &mut draw)).collect();
    let before: Vec<_> = members.iter().map(|m| book.weigh(m)).collect::<Result<_, _>>()?;
    println!("1,000 invented members, states drawn from the starting odds, two to five groups read on each.");
    println!("Likelihoods each changed by a factor drawn evenly from 0.7 to 1.3 (and kept below 0.995), 50 times.");
    let mut bands: [(f64, f64, u32, u32); 7] = [
        (0.0, 1.0, 0, 0),
        (1.0, 2.0, 0, 0),
        (2.0, 3.0, 0, 0),
        (3.0, 5.0, 0, 0),
        (5.0, 8.0, 0, 0),
        (8.0, 12.0, 0, 0),
        (12.0, f64::INFINITY, 0, 0),
    ];
    let (mut changed, mut close, mut changed_close, mut all) = (0u32, 0u32, 0u32, 0u32);
    for _ in 0..50 {
        let shaken = Book::from_rows(shaken(book.rows(), &mut draw))?;
        for (question, was) in members.iter().zip(&before) {
            let now = shaken.weigh(question)?;
            let other = now.leading != was.leading;
            all += 1;
            changed += u32::from(other);
            close += u32::from(was.close);
            changed_close += u32::from(other && was.close);
            let lead = was.lead_db.unwrap_or(f64::INFINITY);
            if let Some(band) = bands.iter_mut().find(|band| lead >= band.0 && lead < band.1) {
                band.2 += 1;
                band.3 += u32::from(other);
            }
        }
    }
    let percent = |part: u32, whole: u32| 100.0 * f64::from(part) / f64::from(whole.max(1));
    println!("Leading state changed in {:.2} % of {all} weighings.", percent(changed, all));
    println!(
        "Said to be close: {:.1} %; of those the leading state changed in {:.1} %.",
        percent(close, all),
        percent(changed_close, close)
    );
    println!("Not said to be close: changed in {:.2} %.", percent(changed - changed_close, all - close));
    for (low, high, count, changed) in bands {
        println!(
            "  lead {low:>4.0} to {high:>4.0} dB: {count:>6} weighings, changed in {:.2} %",
            percent(changed, count)
        );
    }
    let right = |weighings: &[evidence::Weighing], truth: &[PlankState]| {
        weighings.iter().zip(truth).filter(|(w, t)| w.leading == **t).count()
    };
    let mut again = Draw(20_240_501);
    let truth: Vec<_> = (0..1000).map(|_| drawn_member(book, &mut again).0).collect();
    println!(
        "Leading state was the drawn one in {} of 1,000 (by construction: the members are drawn from the same figures).",
        right(&before, &truth)
    );
    Ok(())
}

fn member(book: &Book, draw: &mut Draw) -> Question {
    drawn_member(book, draw).1
}

/// Draws a state from the starting odds, then two to five groups and their readings in that state.
fn drawn_member(book: &Book, draw: &mut Draw) -> (PlankState, Question) {
    let start = [0.60, 0.10, 0.12, 0.10, 0.03, 0.02, 0.03];
    let mut at = draw.share();
    let mut state = PlankState::Repaired;
    for (candidate, share) in PLANK_STATES.into_iter().zip(start) {
        if at < share {
            state = candidate;
            break;
        }
        at -= share;
    }
    let mut groups = ["hammer", "knife", "movement", "fastening", "moisture", "bore", "visual"];
    for i in 0..groups.len() {
        let other = i + draw.below(7 - i);
        groups.swap(i, other);
    }
    let count = 2 + draw.below(4);
    let mut question = Question::default();
    for group in &groups[..count] {
        let readings: Vec<&Row> =
            book.rows().iter().filter(|row| row.group == *group && row.hypothesis == state.name()).collect();
        let row = readings[draw.below(readings.len())];
        let yes = draw.share() < row.p_observation_given_hypothesis;
        let name = if yes { row.observation.clone() } else { format!("not_{}", row.observation) };
        question.observations.push(Observation::new(group, &name));
    }
    (state, question)
}

fn shaken(rows: &[Row], draw: &mut Draw) -> Vec<Row> {
    let mut rows = rows.to_vec();
    for row in &mut rows {
        let p = row.p_observation_given_hypothesis * (0.7 + 0.6 * draw.share());
        row.p_observation_given_hypothesis = p.min(0.995);
    }
    rows
}

struct Draw(u64);

impl Draw {
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        ((self.share() * n as f64) as usize).min(n - 1)
    }
}
