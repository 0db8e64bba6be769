//! `mend`: words of the trade that a recogniser misheard.

use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use serde_json::{Value, json};
use walk::TimedText;
use walk::text::TextFault;

const ACCEPTED: &str = "WebVTT, SubRip, or JSON word times ([{\"start_s\", \"end_s\", \"word\"}, …])";

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "mend",
    title: "Misheard words of the trade",
    question: "Which words of the talk were probably misheard, and what was meant?",
    version: 1,
    flags: &[
        Flag::required("text", "what was said, with times: WebVTT, SubRip or JSON word times", FlagKind::TextFile),
        Flag::optional(
            "recording-s",
            "length of the recording",
            FlagKind::Number { unit: "s", least: 0.0, greatest: 1e6 },
        ),
    ],
    figures: &[
        Figure { key: "corrections", label: "proposed, each with what was heard", unit: "", decimals: 2 },
        Figure { key: "words", label: "words read", unit: "", decimals: 0 },
        Figure { key: "untimed", label: "text without a time, by line", unit: "", decimals: 0 },
    ],
    equation: "weighted alignment of phones with the words of the trade, cues of the trade round them, logistic regression; \
               the weights are fitted on invented sentences",
    sources: &[
        "Pronunciations: CMU Pronouncing Dictionary, Carnegie Mellon University, and our own for words it lacks",
        "Common words: SCOWL (Spell Checker Oriented Word Lists), sizes 10, 20 and 35",
        "Words of the trade: our own lexicon after US Army TB 55-1900-201-45/1 ch. 2, public glossaries and common practice",
        "W3C, WebVTT: The Web Video Text Tracks Format",
    ],
    not_covered: &[
        "Words so far from what was said that nothing can be told: they are left as heard. Listen to the recording.",
        "Words a recogniser is taken to hear aright (floor, soft, dead), numbers, sides and negations: they are never changed.",
    ],
    example: &[("text", "WEBVTT\n\n00:01.000 --> 00:04.000\nport side gar board is soft by frame nine\n")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let text = inputs.need_words("text")?;
    let read = TimedText::read_text(text, inputs.number("recording-s")).map_err(|fault| refusal(text, &fault))?;
    let words: Vec<_> = read.words().cloned().collect();
    super::common_words_are_here("text", text)?;
    let corrections: Vec<Value> = walk::mend(&words)
        .into_iter()
        .map(|one| json!({"time_s": one.time_s, "heard": one.heard, "meant": one.meant, "confidence": one.confidence}))
        .collect();
    let none = corrections.is_empty();
    let mut answer = Answer::new().with("corrections", corrections).with("words", words.len());
    if !read.untimed.is_empty() {
        let lines: Vec<Value> = read.untimed.iter().map(|one| json!({"line": one.line, "text": one.text})).collect();
        answer = answer.with("untimed", lines);
    }
    if !none {
        answer = answer.caution("These are proposals: listen to each before you take it. Nothing was changed.");
    }
    answer = answer.caution(
        "The confidence was fitted on invented sentences and a confusion model of our own, not on any recogniser's mistakes.",
    );
    for caution in read.cautions {
        answer = answer.caution(caution.words);
    }
    Ok(answer)
}

fn refusal(text: &str, fault: &TextFault) -> Refusal {
    let why = fault.to_string();
    let why = why.split("; accepted is").next().unwrap_or(&why).to_owned();
    Refusal::value("text", text.trim(), why, ACCEPTED)
}
