//! How much do the answers on one whole boat hang on the elicited figures? Every place of the invented boat *Marram* is
//! weighed 200 times, each likelihood changed at random by up to 30 % either way. Run with
//! `cargo run -p app --example marram_shaken --profile dev`.

use app::weighed::weigh_all;
use evidence::{Book, Question, Row};
use std::error::Error;
use survey::State;

const TIMES: u32 = 200;
const SEED: u64 = 20_240_502;

fn main() -> Result<(), Box<dyn Error>> {
    let marram = demo::marram()?;
    let survey = marram.entries.first().ok_or("the boat has no entries")?.survey;
    let state = State::fold(survey, marram.entries);
    let places = weigh_all(&state, None);
    let book = Book::elicited()?;
    let mut draw = SEED;
    let (mut changed, mut changed_settled, mut settled) = (0_u32, 0_u32, 0_u32);
    let mut by_place = vec![0_u32; places.len()];
    for _ in 0..TIMES {
        let shaken = Book::from_rows(book.rows().iter().map(|row| shaken(row, &mut draw)).collect())?;
        for (place, count) in places.iter().zip(&mut by_place) {
            let question: Question = serde_json::from_value(place.asked.clone())?;
            let other = shaken.weigh(&question)?.leading != place.weighing.leading;
            *count += u32::from(other);
            changed += u32::from(other);
            settled += u32::from(!place.weighing.close);
            changed_settled += u32::from(other && !place.weighing.close);
        }
    }
    let all = TIMES * u32::try_from(places.len())?;
    let percent = |part: u32, whole: u32| 100.0 * f64::from(part) / f64::from(whole.max(1));
    let close = places.iter().filter(|place| place.weighing.close).count();
    println!("{} places of Marram, {close} of them said to be close; {TIMES} times, seed {SEED}.", places.len());
    println!("Leading state changed in {:.2} % of {all} weighings.", percent(changed, all));
    println!("Where it was not said to be close: in {:.2} % of {settled}.", percent(changed_settled, settled));
    let steady = by_place.iter().filter(|count| **count == 0).count();
    println!("Never changed at {steady} of {} places. Most often:", places.len());
    let mut most: Vec<_> = places.iter().zip(&by_place).filter(|(_, count)| **count > 0).collect();
    most.sort_by_key(|(_, count)| std::cmp::Reverse(**count));
    for (place, count) in most.into_iter().take(8) {
        let close = if place.weighing.close { ", close" } else { "" };
        println!("  {:.0} %: {} ({}{close})", percent(*count, TIMES), place.key(), place.weighing.leading);
    }
    Ok(())
}

fn shaken(row: &Row, draw: &mut u64) -> Row {
    let mut row = row.clone();
    row.p_observation_given_hypothesis = (row.p_observation_given_hypothesis * (0.7 + 0.6 * share(draw))).min(0.995);
    row
}

/// The next share from 0 to 1 of a linear congruential generator (Knuth's MMIX constants, from memory).
fn share(draw: &mut u64) -> f64 {
    *draw = draw.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*draw >> 11) as f64 / (1_u64 << 53) as f64
}
