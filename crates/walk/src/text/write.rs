//! Writing timed text: WebVTT, and JSON word times in our own shape.

use super::{TimedText, stamp};
use serde_json::{Value, json};
use std::fmt::Write as _;

impl TimedText {
    /// Writes the cues as WebVTT (W3C). Times are kept to the thousandth of a second. Text without a time goes into
    /// comments.
    pub fn to_webvtt(&self) -> String {
        let mut out = String::from("WEBVTT\n");
        for untimed in &self.untimed {
            let _ = write!(
                out,
                "\nNOTE without a time, line {}\n{}\n",
                untimed.line,
                one_block(&untimed.text.replace("-->", "-- >"))
            );
        }
        for cue in &self.cues {
            out.push('\n');
            if let Some(id) = cue.id.as_deref().map(|id| id.replace("-->", "-- >")).filter(|id| is_id(id)) {
                let _ = writeln!(out, "{id}");
            }
            let _ = writeln!(out, "{} --> {}", stamp::write(cue.start_s), stamp::write(cue.end_s));
            let text = one_block(&escaped(&cue.text));
            match cue.speaker.as_deref().map(|name| escaped(&name.replace(['\n', '\r'], " "))) {
                Some(name) if !name.trim().is_empty() => {
                    let _ = writeln!(out, "<v {}>{text}", name.trim());
                }
                _ if text.is_empty() => {}
                _ => {
                    let _ = writeln!(out, "{text}");
                }
            }
        }
        out
    }

    /// Writes all words as JSON word times, a list of `{"start_s", "end_s", "word", "confidence"?}`.
    pub fn to_json_words(&self) -> Value {
        self.words()
            .map(|word| {
                let mut one = json!({"start_s": word.start_s, "end_s": word.end_s, "word": word.word});
                if let Some(confidence) = word.confidence {
                    one["confidence"] = json!(confidence);
                }
                one
            })
            .collect()
    }
}

fn is_id(id: &str) -> bool {
    !id.trim().is_empty()
        && !id.contains(['\n', '\r'])
        && !["NOTE", "STYLE", "REGION"].iter().any(|w| id.starts_with(w))
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// An empty line would end the block.
fn one_block(text: &str) -> String {
    text.replace("\r\n", "\n")
        .replace('\r', "\n")
        .lines()
        .filter(|line| !line.is_empty())
        .collect::<Vec<_>>()
        .join("\n")
}
