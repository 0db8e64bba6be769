//! `history`: why was this done? Patterns of old repairs with rival explanations.

use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use evidence::puzzles::{self, Explanation};
use serde_json::{Value, json};

const PATTERNS: &[&str] = &[
    "larger_bungs",
    "newer_plank",
    "sister_frames",
    "filler_over_joint",
    "fresh_bilge_paint",
    "new_bolts_old_keel",
    "sheathed_bottom",
    "renewed_transom",
];

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "history",
    title: "Why was this done?",
    question: "What may an old repair tell of the trouble it was made for, and what would settle it?",
    version: 1,
    flags: &[Flag::required("pattern", "what is seen", FlagKind::Choice(PATTERNS))],
    figures: &[
        Figure { key: "seen", label: "seen", unit: "", decimals: 0 },
        Figure { key: "explanations", label: "may be", unit: "", decimals: 0 },
    ],
    equation: "none: patterns of the trade, side by side, unweighed",
    sources: &[
        "Common practice of the trade, row by row in the file puzzles.csv",
        "US Army TB 55-1900-201-45/1 s.2-7e and 2-10, where a row names it",
    ],
    not_covered: &["A pattern asks a question; it never answers one. Nothing here is a finding."],
    example: &[("pattern", "larger_bungs")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let pattern = inputs.need_words("pattern")?;
    let found = puzzles::about(pattern).map_err(|fault| Refusal::Meaningless(fault.to_string()))?;
    let split = |text: &str| text.split(';').map(str::trim).map(str::to_owned).collect::<Vec<_>>();
    let one = |e: &Explanation| {
        json!({
            "explanation": e.explanation,
            "signs_for": split(&e.signs_for),
            "signs_against": split(&e.signs_against),
            "reckoner": e.reckoner,
            "look_next": e.look_next,
            "if_so": e.if_so,
            "source": e.source,
        })
    };
    let seen = found.first().map(|e| e.seen.clone()).unwrap_or_default();
    let explanations: Vec<Value> = found.iter().map(one).collect();
    let mut answer = Answer::new().with("seen", seen).with("explanations", explanations);
    for e in &found {
        if !answer.sources.contains(&e.source) {
            answer.sources.push(e.source.clone());
        }
    }
    Ok(answer.caution(
        "Common practice of the trade where no other source is named; no figures stand behind these patterns.",
    ))
}
