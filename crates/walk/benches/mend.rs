//! Measures mending and drafting of an hour's talk, some 8,000 words.
//!
//! Run with `cargo bench -p walk --profile dev`.

use std::time::Instant;
use walk::{MemberNames, TimedText, walk};

const SENTENCES: &str = include_str!("../tests/data/sentences.txt");

fn main() {
    let lines: Vec<&str> = SENTENCES.lines().filter(|line| !line.starts_with('#')).collect();
    let mut words = Vec::new();
    for line in lines.iter().cycle() {
        let plain = line.replace(['[', ']'], "").replace("garboard", "gar board").replace("strake", "straik");
        words.extend(plain.split(' ').map(str::to_owned));
        if words.len() >= 8000 {
            break;
        }
    }
    let json: Vec<serde_json::Value> = words
        .iter()
        .enumerate()
        .map(|(n, word)| serde_json::json!({"start_s": n as f64 * 0.45, "end_s": n as f64 * 0.45 + 0.4, "word": word}))
        .collect();
    let json = serde_json::Value::Array(json).to_string();
    let names = MemberNames::catalogue();
    let start = Instant::now();
    let Ok(text) = TimedText::read_text(&json, None) else { return };
    println!("reading {} words: {:.0} ms", words.len(), start.elapsed().as_secs_f64() * 1e3);
    for round in ["first", "second"] {
        let start = Instant::now();
        let found = walk(&text, &names, &[], &[]);
        println!(
            "{round} walk: {:.0} ms, {} corrections, {} passages, {} drafts",
            start.elapsed().as_secs_f64() * 1e3,
            found.corrections.len(),
            found.passages.len(),
            found.drafts.len()
        );
    }
}
