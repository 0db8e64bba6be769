//! Makes `tests/data/mishearings.csv`: how the phrases of the invented sentences are misheard, three times each.
//!
//! Run with `cargo run -p walk --example mishear > crates/walk/tests/data/mishearings.csv`.

#[path = "../tests/all/confusion.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod confusion;
#[path = "../tests/all/corpus.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod corpus;

use std::collections::BTreeMap;

fn main() {
    let mut phrases = BTreeMap::new();
    for part in corpus::sentences().into_iter().flatten() {
        if let corpus::Part::Trade(target) = part {
            phrases.entry(target.said.clone()).or_insert(target);
        }
    }
    println!("said,heard");
    for (said, target) in phrases {
        for round in 0..corpus::ROUNDS as u64 {
            if let Some(heard) = confusion::mishear(&said, &target.phones, round, &corpus::is_trade_word) {
                println!("{said},{heard}");
            }
        }
    }
}
