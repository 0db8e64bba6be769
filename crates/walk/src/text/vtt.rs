//! Reading WebVTT by the blocks of its standard (W3C, *WebVTT: The Web Video Text Tracks Format*, "WebVTT file parsing").

use super::{Caution, Cue, Layout, Oddity, Raw, RawCue, Untimed, markup, stamp, tidy};

/// Tells whether the text starts as a WebVTT file must.
pub(super) fn is_signed(text: &str) -> bool {
    text.strip_prefix("WEBVTT").is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t', '\n', '\r']))
}

/// Splits a text into lines at LF, CR or CR LF.
pub(super) fn lines(text: &str) -> Vec<String> {
    let text = text.replace("\r\n", "\n").replace('\r', "\n").replace('\0', "\u{fffd}");
    text.split('\n').map(str::to_owned).collect()
}

/// A block: lines up to an empty one, or up to a time line that cannot belong to it.
struct Block {
    first: usize,
    timing: Option<(usize, String)>,
    before: Vec<String>,
    after: Vec<String>,
}

pub(super) fn read(text: &str) -> Raw {
    let lines = lines(text);
    let mut raw = Raw { layout: Layout::WebVtt, cues: Vec::new(), untimed: Vec::new(), cautions: Vec::new() };
    let mut at = 1;
    // The header: nothing but a time line or an empty line ends it.
    while at < lines.len() && !lines[at].is_empty() && !lines[at].contains("-->") {
        at += 1;
    }
    while at < lines.len() {
        if lines[at].is_empty() {
            at += 1;
            continue;
        }
        let (block, next) = block(&lines, at);
        at = next;
        enter(block, &mut raw);
    }
    raw
}

/// Collects a block (same standard, "collect a WebVTT block").
fn block(lines: &[String], first: usize) -> (Block, usize) {
    let mut block = Block { first, timing: None, before: Vec::new(), after: Vec::new() };
    let mut at = first;
    while at < lines.len() && !lines[at].is_empty() {
        let line = &lines[at];
        if line.contains("-->") {
            let comment = block.before.first().is_some_and(|head| is_note(head));
            let allowed = block.timing.is_none() && !comment && (at == first || at == first + 1);
            if !allowed {
                if comment && stamp::span(line).is_none_or(|span| !span.strict) {
                    block.before.push(line.clone());
                    at += 1;
                    continue;
                }
                break;
            }
            block.timing = Some((at, line.clone()));
        } else if block.timing.is_some() {
            block.after.push(line.clone());
        } else {
            block.before.push(line.clone());
        }
        at += 1;
    }
    (block, at.max(first + 1))
}

fn is_note(line: &str) -> bool {
    line.strip_prefix("NOTE").is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
}

fn enter(block: Block, raw: &mut Raw) {
    let Some((line, timing)) = block.timing else {
        let head = block.before.first().map_or("", String::as_str);
        let is_style = ["STYLE", "REGION"].contains(&head.trim_end());
        if !is_note(head) && !is_style {
            untimed(raw, block.first + 1, block.before.join("\n"), "There is text without a time line");
        }
        return;
    };
    let payload = block.after.join("\n");
    let Some(span) = stamp::span(&timing) else {
        let text = if payload.is_empty() { timing } else { format!("{timing}\n{payload}") };
        untimed(raw, line + 1, text, "A time line cannot be read");
        return;
    };
    if !span.strict {
        let words = format!("The time line `{}` is not as WebVTT has it; it was read all the same.", timing.trim());
        raw.cautions.push(Caution::new(Oddity::Timing, Some(line + 1), Some(span.start_s), words));
    }
    let plain = markup::webvtt(&payload);
    let words = tidy::share_out(&plain.text, span.start_s, span.end_s, &plain.stamps);
    raw.cues.push(RawCue {
        line: Some(line + 1),
        cue: Cue {
            start_s: span.start_s,
            end_s: span.end_s,
            id: block.before.first().cloned(),
            speaker: plain.speaker,
            text: plain.text,
            words,
        },
    });
}

pub(super) fn untimed(raw: &mut Raw, line: usize, text: String, why: &str) {
    if text.trim().is_empty() {
        return;
    }
    raw.cautions.push(Caution::new(Oddity::Untimed, Some(line), None, format!("{why}; the text is kept apart.")));
    raw.untimed.push(Untimed { line, text });
}
