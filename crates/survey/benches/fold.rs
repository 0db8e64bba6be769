//! Measures the fold: 100,000 entries, and one more.
//!
//! Run with `cargo bench -p survey --profile dev`.

use std::time::Instant;
use survey::payload::{Amendment, Observation, Payload};
use survey::{Entry, EntryId, Pen, Place, Reading, Side, SoundAnswer, State, SurveyId};

const ENTRIES: u128 = 100_000;

fn main() {
    let survey = SurveyId::from_bits(1);
    let mut pens: Vec<Pen> = (0..4).map(|d| Pen::new(survey, "A. Surveyor", format!("device {d}"))).collect();
    let mut lines = Vec::new();
    for n in 0..ENTRIES {
        let observation = Observation {
            member: "clinker-strake".into(),
            place: Place {
                side: Some(Side::Port),
                strake: Some((n % 12) as u32 + 1),
                frame_from: Some((n % 34) as u32 + 1),
                ..Place::default()
            },
            reading: Reading::Sound { answer: SoundAnswer::Rings, blows: Some(3) },
            note: format!("Struck between the timbers, note {n}, paint sound, nothing to see."),
            seen_on: None,
        };
        let payload: Payload = if n % 10 == 9 {
            Amendment {
                amends: EntryId::from_bits(n - 4),
                settles: vec![],
                why: "heard again".into(),
                payload: serde_json::to_value(&observation).ok(),
            }
            .into()
        } else {
            observation.into()
        };
        lines.push(
            pens[(n % 4) as usize]
                .write(EntryId::from_bits(n), 1_780_000_000_000 + n as u64, &payload)
                .line()
                .to_owned(),
        );
    }
    let before = resident_kb();
    let start = Instant::now();
    let entries: Vec<Entry> = lines.iter().filter_map(|line| Entry::read(line).ok()).collect();
    println!("read {} entries from their lines: {:.0} ms", entries.len(), ms(start));
    let last = entries.last().cloned();
    let start = Instant::now();
    let mut state = State::fold(survey, entries);
    println!("fold {} entries: {:.0} ms (target 150 ms)", state.len(), ms(start));
    println!("memory of the state and its entries: {:.0} MB (target 200 MB)", (resident_kb() - before) as f64 / 1024.0);
    let Some(last) = last else { return };
    let mut pen = Pen::new(survey, "A. Surveyor", "another").after(None, last.time);
    let more: Vec<Entry> = (0..1000u128)
        .map(|n| {
            pen.write(
                EntryId::from_bits(ENTRIES + n),
                0,
                &Payload::from(Amendment {
                    amends: EntryId::from_bits(n * 10),
                    settles: vec![],
                    why: "x".into(),
                    payload: None,
                }),
            )
        })
        .collect();
    let start = Instant::now();
    for entry in more {
        state.take(entry);
    }
    println!("fold one entry more: {:.4} ms (target 1 ms)", ms(start) / 1000.0);
}

fn ms(since: Instant) -> f64 {
    since.elapsed().as_secs_f64() * 1000.0
}

/// Resident memory as the kernel tells it; 0 where it does not.
fn resident_kb() -> i64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS:")).unwrap_or_default();
    line.split_whitespace().nth(1).and_then(|kb| kb.parse().ok()).unwrap_or(0)
}
