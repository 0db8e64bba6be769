//! Holds the engine to its targets on invented walks of seeds never used for choosing weights, and prints the tables of
//! `docs/sounding.md`. These are figures of a model, not of boats.
//!
//! Run: `cargo run -p sounding --profile dev --example targets -- WALKS SECONDS [FOLDER_OF_VOICES …]`

use rehearsal::{Mechanism, Noise, Setting, Sound, TrueBlow, Voice, Walk};
use sounding::{Blow, Listener, judge::Judge, listen::CUE_NAMES};
use std::path::Path;

#[derive(Default, Clone)]
struct Count {
    hits: usize,
    found: usize,
    truths: usize,
    late_ms: Vec<f64>,
}

impl Count {
    fn add(&mut self, found: &[f64], truths: &[f64]) {
        self.found += found.len();
        self.truths += truths.len();
        // One-to-one matching of most pairs within 50 ms: on a line, first come first served is the greatest.
        let (mut i, mut j) = (0, 0);
        while i < found.len() && j < truths.len() {
            let late = found[i] - truths[j];
            if late.abs() <= 0.05 {
                self.hits += 1;
                self.late_ms.push(late * 1000.0);
                i += 1;
                j += 1;
            } else if late < 0.0 {
                i += 1;
            } else {
                j += 1;
            }
        }
    }

    fn words(&self) -> String {
        let (p, r) = (self.hits as f64 / self.found.max(1) as f64, self.hits as f64 / self.truths.max(1) as f64);
        format!("{p:.3} / {r:.3} / **{:.3}**", 2.0 * p * r / (p + r).max(1e-9))
    }

    fn timing(&self) -> String {
        let mut late = self.late_ms.clone();
        late.sort_by(f64::total_cmp);
        let mut away: Vec<f64> = late.iter().map(|l| l.abs()).collect();
        away.sort_by(f64::total_cmp);
        let at = |v: &[f64], q: f64| v.get(((v.len() as f64 - 1.0) * q) as usize).copied().unwrap_or(f64::NAN);
        format!("{:+.2} ms, {:.2} ms", at(&late, 0.5), at(&away, 0.95))
    }
}

fn strawman(samples: &[f32]) -> Vec<f64> {
    let cue = |c: &[f64], name: &str| c[CUE_NAMES.iter().position(|n| *n == name).expect("a cue")];
    let mut listener = Listener::new();
    let mut out: Vec<f64> = Vec::new();
    for c in listener.push_for_candidates(samples) {
        let good = cue(&c.cues, "rise_db") > 10.0
            && cue(&c.cues, "over_floor_db") > 10.0
            && cue(&c.cues, "fall_115ms_db") > 14.0;
        let time = c.onset as f64 / 48_000.0;
        if good && out.last().is_none_or(|l| time - l > 0.09) {
            out.push(time);
        }
    }
    out
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let walks: u64 = words[0].parse().expect("WALKS");
    let seconds: f64 = words[1].parse().expect("SECONDS");
    let mut sets = vec![("speech-like noise".to_owned(), vec![Voice::SpeechLike])];
    for folder in &words[2..] {
        sets.push((
            Path::new(folder).file_name().expect("a name").to_string_lossy().into_owned(),
            voices(Path::new(folder)),
        ));
    }
    println!(
        "| voice | noise | engine P / R / F | strawman's rule P / R / F | timing: median, 95 % within | false per minute of talk |"
    );
    println!("|---|---|---|---|---|---|");
    let mut judged = [const { Vec::new() }; 3];
    for (name, voices) in &sets {
        for noise in Noise::ALL {
            let (mut engine, mut straw) = (Count::default(), Count::default());
            let (mut false_alarms, mut minutes) = (0, 0.0);
            for k in 0..walks {
                let mut setting = Setting {
                    seed: 900 + k + 100 * noise as u64,
                    seconds,
                    rate_hz: 48_000.0,
                    noise,
                    voice: voices[k as usize % voices.len()].clone(),
                    ..Default::default()
                };
                let walk = Walk::new(&setting);
                let mut listener = Listener::new();
                let mut found = listener.push(&walk.samples);
                found.extend(listener.finish());
                let truths: Vec<f64> = walk.blows.iter().map(|b| b.time_s).collect();
                engine.add(&found.iter().map(|b| b.time_s).collect::<Vec<_>>(), &truths);
                straw.add(&strawman(&walk.samples), &truths);
                if name == "speech-like noise" {
                    judge(&walk.blows, &found, &mut judged[noise as usize]);
                }
                if k % 2 == 0 {
                    // The same talk with a quiet yard and no blows.
                    setting.blows = false;
                    setting.noise = Noise::Light;
                    let talk = Walk::new(&setting);
                    false_alarms += Listener::new().push(&talk.samples).len();
                    minutes += talk.talk.iter().map(|t| t.to_s - t.from_s).sum::<f64>() / 60.0;
                }
            }
            println!(
                "| {name} | {} | {} | {} | {} | {:.2} ({false_alarms} in {minutes:.1} min) |",
                noise.word(),
                engine.words(),
                straw.words(),
                engine.timing(),
                f64::from(false_alarms as u32) / minutes
            );
        }
    }
    println!(
        "\n| noise | blows right | places right | dead called solid | Brier | calibration error | dull found | judged |"
    );
    println!("|---|---|---|---|---|---|---|---|");
    for noise in Noise::ALL {
        table(noise.word(), &judged[noise as usize]);
    }
    table("all", &judged.concat());
}

/// One judgement: place (unique), truth, probabilities of the blow, and of the place.
type Judged = (bool, usize, [f64; 3]);

fn judge(truths: &[TrueBlow], found: &[Blow], out: &mut Vec<Judged>) {
    let kind = |t: &TrueBlow| format!("{}", t.member);
    let pairs: Vec<(&TrueBlow, &Blow)> =
        truths.iter().filter_map(|t| Some((t, found.iter().find(|b| (b.time_s - t.time_s).abs() < 0.03)?))).collect();
    let references: Vec<(String, &Blow)> =
        pairs.iter().filter(|(t, _)| t.reference).map(|(t, b)| (kind(t), *b)).collect();
    let judge = Judge::new(references.iter().map(|(k, b)| (k.as_str(), *b)));
    let truth = |m: Mechanism| match m.sound() {
        Sound::Solid => 0,
        Sound::Dull => 1,
        Sound::Dead => 2,
    };
    let rest: Vec<&(&TrueBlow, &Blow)> = pairs.iter().filter(|(t, _)| !t.reference).collect();
    for (t, b) in &rest {
        if let Some(p) = judge.judge(&kind(t), b).probabilities {
            out.push((false, truth(t.mechanism), [p.solid, p.dull, p.dead]));
        }
    }
    for group in rest.chunk_by(|a, b| a.0.place == b.0.place) {
        let blows: Vec<&Blow> = group.iter().map(|g| g.1).collect();
        if let Some(p) = judge.judge_group(&kind(group[0].0), &blows).probabilities {
            out.push((true, truth(group[0].0.mechanism), [p.solid, p.dull, p.dead]));
        }
    }
}

fn table(word: &str, all: &[Judged]) {
    let best = |p: &[f64; 3]| (0..3).max_by(|a, b| p[*a].total_cmp(&p[*b])).unwrap_or(0);
    let right = |group: bool| {
        let of: Vec<&Judged> = all.iter().filter(|j| j.0 == group).collect();
        of.iter().filter(|j| best(&j.2) == j.1).count() as f64 / of.len().max(1) as f64
    };
    let blows: Vec<&Judged> = all.iter().filter(|j| !j.0).collect();
    let n = blows.len().max(1) as f64;
    let brier: f64 = blows
        .iter()
        .map(|j| (0..3).map(|c| (j.2[c] - f64::from(u8::from(c == j.1))).powi(2)).sum::<f64>())
        .sum::<f64>()
        / n;
    let mut error = 0.0;
    for bin in 0..10 {
        let inside: Vec<&&Judged> =
            blows.iter().filter(|j| ((j.2[best(&j.2)] * 10.0) as usize).min(9) == bin).collect();
        let sure: f64 = inside.iter().map(|j| j.2[best(&j.2)]).sum();
        let right = inside.iter().filter(|j| best(&j.2) == j.1).count() as f64;
        error += (right - sure).abs() / n;
    }
    let dead: Vec<&Judged> = all.iter().filter(|j| j.0 && j.1 == 2).collect();
    let missed = dead.iter().filter(|j| best(&j.2) == 0).count();
    let dull: Vec<&&Judged> = blows.iter().filter(|j| j.1 == 1).collect();
    let dull_found = dull.iter().filter(|j| best(&j.2) == 1).count();
    println!(
        "| {word} | {:.3} | {:.3} | {missed} of {} places | {brier:.3} | {error:.3} | {:.2} | {} blows |",
        right(false),
        right(true),
        dead.len(),
        dull_found as f64 / dull.len().max(1) as f64,
        blows.len()
    );
}

fn voices(folder: &Path) -> Vec<Voice> {
    let mut folders: Vec<_> =
        std::fs::read_dir(folder).expect("a folder of voices").map(|v| v.expect("a folder").path()).collect();
    folders.sort();
    let read = |voice: &std::path::PathBuf| {
        let mut files: Vec<_> =
            std::fs::read_dir(voice).expect("a folder").map(|f| f.expect("a file").path()).collect();
        files.sort();
        let one = |path: &std::path::PathBuf| {
            let mut wav = hound::WavReader::open(path).expect("a WAV file");
            wav.samples::<i16>().map(|s| f32::from(s.expect("a sample")) / 32768.0).collect::<Vec<f32>>()
        };
        Voice::Utterances(files.iter().map(one).collect())
    };
    folders.iter().map(read).collect()
}
