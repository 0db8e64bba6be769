//! Reading SubRip, which has no standard: any line with two times and an arrow starts a cue.

use super::vtt::{lines, untimed};
use super::{Caution, Cue, Layout, Oddity, Raw, RawCue, markup, stamp, tidy};

pub(super) fn read(text: &str) -> Raw {
    let lines = lines(text);
    let mut raw = Raw { layout: Layout::SubRip, cues: Vec::new(), untimed: Vec::new(), cautions: Vec::new() };
    let starts: Vec<usize> = (0..lines.len()).filter(|&i| stamp::span(&lines[i]).is_some()).collect();
    let first = starts.first().copied().unwrap_or(lines.len());
    let head = text_between(&lines, 0, first, !starts.is_empty());
    untimed(&mut raw, 1, head, "There is text before the first time line");
    for (n, &at) in starts.iter().enumerate() {
        let next = starts.get(n + 1).copied();
        let Some(span) = stamp::span(&lines[at]) else { continue };
        if !lines[at].contains(',') {
            let words = "A time line has a point where SubRip has a comma; it was read all the same.";
            raw.cautions.push(Caution::new(Oddity::Timing, Some(at + 1), Some(span.start_s), words));
        }
        let payload = text_between(&lines, at + 1, next.unwrap_or(lines.len()), next.is_some());
        let plain = markup::subrip(&payload);
        let words = tidy::share_out(&plain.text, span.start_s, span.end_s, &[]);
        let id = at.checked_sub(1).map(|i| lines[i].trim()).filter(|line| is_counter(line)).map(str::to_owned);
        let cue = Cue { start_s: span.start_s, end_s: span.end_s, id, speaker: None, text: plain.text, words };
        raw.cues.push(RawCue { line: Some(at + 1), cue });
    }
    raw
}

/// Joins the lines of a cue. The number that belongs to the next cue, and empty lines at either end, are left out.
fn text_between(lines: &[String], from: usize, to: usize, before_a_cue: bool) -> String {
    let mut taken: Vec<&str> = lines[from..to].iter().map(String::as_str).collect();
    let counter = taken.last().is_some_and(|line| is_counter(line.trim()));
    let apart = taken.len() < 2 || taken[taken.len() - 2].trim().is_empty();
    if before_a_cue && counter && apart {
        taken.pop();
    }
    let start = taken.iter().position(|line| !line.trim().is_empty()).unwrap_or(taken.len());
    let end = taken.iter().rposition(|line| !line.trim().is_empty()).map_or(start, |at| at + 1);
    taken[start..end].join("\n")
}

fn is_counter(line: &str) -> bool {
    !line.is_empty() && line.len() <= 9 && line.bytes().all(|b| b.is_ascii_digit())
}
