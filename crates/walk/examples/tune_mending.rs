//! Fits the weights of mending on the tuned half of the trade's words, and shows what each threshold gives on that half.
//!
//! Run with `cargo run -p walk --example tune_mending`; put what it prints into `src/mend/weights.rs`.

#[path = "../tests/all/confusion.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod confusion;
#[path = "../tests/all/corpus.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod corpus;
#[path = "../tests/all/tally.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod tally;

use walk::mend::{MEASURES, weigh};

const STEPS: usize = 60;

/// How much great weights are held back.
const RIDGE: f64 = 1e-3;

fn main() {
    if std::env::args().any(|word| word == "dump") {
        return dump();
    }
    let mut rows: Vec<([f64; MEASURES], f64)> = Vec::new();
    for sentence in corpus::misheard(true) {
        for candidate in weigh(&sentence.words) {
            let range = candidate.first..candidate.first + candidate.count;
            let right =
                sentence.misheard.iter().any(|(at, target)| *at == range && target.term == candidate.target.term);
            rows.push((candidate.measures, f64::from(u8::from(right))));
        }
    }
    for line in corpus::chatter() {
        let words: Vec<String> = line.split(' ').map(str::to_owned).collect();
        rows.extend(weigh(&corpus::timed(&words)).into_iter().map(|candidate| (candidate.measures, 0.0)));
    }
    let n = rows.len() as f64;
    let mean: Vec<f64> = (0..MEASURES).map(|k| rows.iter().map(|r| r.0[k]).sum::<f64>() / n).collect();
    let spread: Vec<f64> = (0..MEASURES)
        .map(|k| (rows.iter().map(|r| (r.0[k] - mean[k]).powi(2)).sum::<f64>() / n).sqrt().max(1e-6))
        .collect();
    let mut weights = [0.0; MEASURES + 1];
    for _ in 0..STEPS {
        newton(&rows, &mean, &spread, &mut weights);
    }
    let plain: Vec<f64> = (0..MEASURES).map(|k| weights[k + 1] / spread[k]).collect();
    let shift: f64 = (0..MEASURES).map(|k| plain[k] * mean[k]).sum();
    let start = weights[0];
    println!("{} candidates, {} of them right", rows.len(), rows.iter().filter(|r| r.1 > 0.5).count());
    println!("const START: f64 = {:.3};", start - shift);
    println!("const WEIGHTS: [f64; MEASURES] = {:.3?};", plain);
    println!("With the weights now in the code:");
    for threshold in [0.3, 0.4, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9] {
        println!("{threshold:.2}  {}", tally::tally(&corpus::misheard(true), threshold));
    }
}

/// One step of Newton's method for the logistic regression on standardised measures.
fn newton(rows: &[([f64; MEASURES], f64)], mean: &[f64], spread: &[f64], weights: &mut [f64; MEASURES + 1]) {
    const N: usize = MEASURES + 1;
    let mut system = vec![[0.0; N + 1]; N];
    let share = 1.0 / rows.len() as f64;
    for (measures, right) in rows {
        let mut x = [1.0; N];
        for k in 0..MEASURES {
            x[k + 1] = (measures[k] - mean[k]) / spread[k];
        }
        let sum: f64 = x.iter().zip(weights.iter()).map(|(x, w)| x * w).sum();
        let p = 1.0 / (1.0 + (-sum).exp());
        for (i, row) in system.iter_mut().enumerate() {
            row[N] += share * (p - right) * x[i];
            for (j, cell) in row[..N].iter_mut().enumerate() {
                *cell += share * p * (1.0 - p) * x[i] * x[j];
            }
        }
    }
    for k in 1..N {
        system[k][N] += RIDGE * weights[k];
        system[k][k] += RIDGE;
    }
    for k in 0..N {
        let pivot = system[k];
        for (_, row) in system.iter_mut().enumerate().filter(|(i, _)| *i != k) {
            let factor = row[k] / pivot[k];
            for j in k..=N {
                row[j] -= factor * pivot[j];
            }
        }
    }
    for k in 0..N {
        weights[k] -= system[k][N] / system[k][k];
    }
}

/// Prints every run of words with the targets nearest to it, for a look at what another measure would do.
fn dump() {
    for tuned in [true, false] {
        for (n, sentence) in corpus::misheard(tuned).iter().enumerate() {
            print_one(if tuned { "tuned" } else { "held_out" }, n, sentence);
        }
    }
    for (n, line) in corpus::chatter().iter().enumerate() {
        let words: Vec<String> = line.split(' ').map(str::to_owned).collect();
        print_one("chatter", n, &corpus::Heard { words: corpus::timed(&words), misheard: Vec::new() });
    }
}

fn print_one(part: &str, n: usize, sentence: &corpus::Heard) {
    let words: Vec<&str> = sentence.words.iter().map(|word| word.word.as_str()).collect();
    println!("S\t{part}\t{n}\t{}", words.join(" "));
    for (range, target) in &sentence.misheard {
        println!("M\t{}\t{}\t{}\t{}", range.start, range.len(), target.said, target.term);
    }
    for c in weigh(&sentence.words) {
        let heard: Vec<u8> =
            words[c.first..c.first + c.count].iter().flat_map(|word| walk::phones::of_word(word)).collect();
        let mut near: Vec<(f64, &walk::lexicon::Target)> =
            walk::lexicon::targets().iter().map(|t| (walk::phones::distance(&heard, &t.phones), t)).collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        let near: Vec<String> = near
            .iter()
            .take(4)
            .map(|(d, t)| format!("{d:.3}|{}|{}|{}|{}", t.said, t.term, t.kind, String::from_utf8_lossy(&t.phones)))
            .collect();
        let measures: Vec<String> = c.measures.iter().map(|m| format!("{m:.3}")).collect();
        println!(
            "C\t{}\t{}\t{}\t{}\t{}",
            c.first,
            c.count,
            String::from_utf8_lossy(&heard),
            measures.join(","),
            near.join("\t")
        );
    }
}
