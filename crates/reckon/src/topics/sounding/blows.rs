//! Hammer blows in a recording, described and judged.

use super::{
    ranges::ranges,
    read::{listen, unpacked},
};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use serde_json::{Value, json};
use sounding::{
    Blow,
    judge::{Basis, Judge, Judgement},
};
use walk::{MemberNames, Passage, TimedText};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "blows",
    title: "Hammer blows in a recording",
    question: "Where in this recording was she struck, how did each blow sound, and which sound unlike her sound places?",
    version: 1,
    flags: &[
        Flag::required("audio", "the recording: WAV, FLAC, MP3, OGG Vorbis, M4A, MP4 or MOV", FlagKind::BinaryFile),
        Flag::optional("text", "its timed words (VTT, SRT or JSON), which tell the members", FlagKind::TextFile),
        Flag::optional(
            "reference",
            "stretches with blows on places known to be sound, in seconds or minutes: 0:10-0:55, 70-90",
            FlagKind::Words,
        ),
        Flag::optional(
            "channel",
            "channel to listen to, from 1; else all together",
            FlagKind::Count { least: 1, greatest: 32 },
        ),
    ],
    figures: &[
        Figure { key: "blows", label: "blows", unit: "", decimals: 2 },
        Figure { key: "count", label: "number of blows", unit: "", decimals: 0 },
        Figure { key: "reference_count", label: "clean reference blows", unit: "", decimals: 0 },
        Figure { key: "seconds", label: "length listened to", unit: "s", decimals: 1 },
    ],
    equation: "sudden sounds weighed by 43 cues; five normal distributions over differences from the same boat's reference blows",
    sources: &[
        "weights chosen on invented walks (a model of hammer, plank, talk and yard; no boat): docs/sounding.md",
        "backward integration of decay: M. R. Schroeder 1965, J. Acoust. Soc. Am. 37, 409",
    ],
    not_covered: &[
        "What a dull blow means: loose, checked, wet, hollow and decayed wood are told by knife, moisture, boring and opening up.",
        "Sound wood: a clear ring is no proof of it; sounding finds the worst places.",
        "Frozen timber, which rings though decayed: do not sound it below 0 °C.",
        "How often it is right on boats: nobody has measured that yet.",
    ],
    example: &[("audio", include_str!("example.b64"))],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let accepted = || TOPIC.flags[0].label.trim_start_matches("the recording: ").to_owned();
    let bytes =
        inputs.bytes("audio").ok_or_else(|| Refusal::Missing { flag: "audio".to_owned(), accepted: accepted() })?;
    let session = listen(&unpacked(bytes), inputs.count("channel")).map_err(Refusal::Meaningless)?;
    let mut cautions = session.cautions;
    let passages = match inputs.words("text") {
        Some(text) => passages(text, session.seconds, &mut cautions)?,
        None => Vec::new(),
    };
    let stretches = match inputs.words("reference") {
        Some(words) => ranges(words).map_err(|why| {
            Refusal::value(
                "reference",
                words,
                why,
                "stretches like 0:10-0:55, 70-90, in seconds or minutes and seconds",
            )
        })?,
        None => Vec::new(),
    };
    let members: Vec<Option<String>> = session.blows.iter().map(|b| member(&passages, b.time_s)).collect();
    // Blows without a member are compared with each other; that is what a recording without words can give.
    let kinds: Vec<&str> = members.iter().map(|m| m.as_deref().unwrap_or("planking")).collect();
    let is_reference: Vec<bool> =
        session.blows.iter().map(|b| stretches.iter().any(|(from, to)| (*from..=*to).contains(&b.time_s))).collect();
    let paired: Vec<(&str, &Blow)> = kinds.iter().copied().zip(&session.blows).collect();
    let judge = Judge::new(paired.iter().zip(&is_reference).filter(|(_, r)| **r).map(|(p, _)| *p));
    let judgements = judge.judge_session(&paired);
    if judge.references() == 0 {
        cautions.push(
            "No reference blows: name stretches on places known to be sound (--reference); until then blows are only ranked."
                .to_owned(),
        );
    } else if judgements.iter().any(|j| matches!(j.basis, Basis::Session { .. })) {
        cautions.push(format!(
            "{} clean reference blows are too few for probabilities; blows are ranked instead.",
            judge.references()
        ));
    }
    if judge.left_out() > 0 {
        cautions.push(format!(
            "{} blows in the reference stretches were left out: clipped, double, or with another sound under them.",
            judge.left_out()
        ));
    }
    if !passages.is_empty() {
        let unplaced = members.iter().filter(|m| m.is_none()).count();
        if unplaced > 0 {
            cautions.push(format!("{unplaced} blows could not be tied to a member by what was said."));
        }
    }
    let rows: Vec<Value> = (0..session.blows.len())
        .map(|i| row(&session.blows[i], &judgements[i], members[i].as_deref(), is_reference[i]))
        .collect();
    let mut answer = Answer::new()
        .with("count", session.blows.len())
        .with("reference_count", judge.references())
        .with("seconds", session.seconds)
        .with("blows", rows);
    for caution in cautions {
        answer = answer.caution(caution);
    }
    Ok(answer.caution(
        "Probabilities come from a model of blows tried on invented sounds, not on boats; they say where to look next, not what is there.",
    ))
}

fn row(blow: &Blow, judgement: &Judgement, member: Option<&str>, reference: bool) -> Value {
    let d = &blow.description;
    let words = if reference { format!("reference; {}", judgement.words) } else { judgement.words.clone() };
    json!({
        "time_s": blow.time_s,
        "loudness_db": d.level_db,
        "centroid_hz": d.centroid_hz,
        "dominant_hz": d.dominant_hz(),
        "decay_ms": d.decay_ms,
        "judgement": words,
        "probability_dull": judgement.probability_dull(),
        "member": member,
        "reference": reference,
        "probability_blow": blow.probability,
        "probabilities": judgement.probabilities,
        "hint": judgement.hint,
        "rests_on": judgement.basis,
        "why": judgement.reasons.iter().map(|r| r.words.clone()).collect::<Vec<_>>(),
        "rank_among_references": judgement.rank_among_references,
        "rank_in_session": judgement.rank_in_session,
        "distance": judgement.distance,
        "clipped": d.clipped,
        "overlapped": blow.overlapped,
        "double": blow.double,
        "cautions": judgement.cautions,
    })
}

fn passages(text: &str, seconds: f64, cautions: &mut Vec<String>) -> Result<Vec<Passage>, Refusal> {
    let timed = TimedText::read(text.as_bytes(), Some(seconds)).map_err(|fault| {
        Refusal::value(
            "text",
            text.lines().next().unwrap_or_default(),
            fault.to_string(),
            "timed text: VTT, SRT or JSON word times",
        )
    })?;
    crate::topics::walk::common_words_are_here("text", text)?;
    let walked = walk::walk(&timed, &MemberNames::catalogue(), &[], &[]);
    if !walked.corrections.is_empty() {
        cautions.push(format!(
            "{} misheard words were mended before members were read; see the topic `mend`.",
            walked.corrections.len()
        ));
    }
    Ok(walked.passages)
}

/// Returns the member that was being spoken of: the last passage that began before the blow and ended no more than 15 s before
/// it, or one that begins within 4 s after it (`tap, then name`). Our own choice.
fn member(passages: &[Passage], time_s: f64) -> Option<String> {
    let before = passages.iter().rev().find(|p| p.start_s <= time_s + 0.3 && time_s - p.end_s <= 15.0);
    let after = || passages.iter().find(|p| p.start_s > time_s && p.start_s - time_s <= 4.0);
    before.or_else(after).and_then(|p| p.member.clone())
}
