//! Putting times right: every oddity is said, nothing is dropped.

use super::{Caution, Cue, Oddity, Raw, TimedText, Word};

/// Shares a cue's time out over its words by their length; times that stand between the words hold from there on.
pub(super) fn share_out(text: &str, start_s: f64, end_s: f64, stamps: &[(usize, f64)]) -> Vec<Word> {
    let mut words: Vec<(usize, &str)> = Vec::new();
    for piece in text.split(|c: char| c.is_whitespace()).filter(|piece| !piece.is_empty()) {
        // `piece` is a part of `text`, so that its place is the distance between the two.
        words.push((piece.as_ptr() as usize - text.as_ptr() as usize, piece));
    }
    let end_s = end_s.max(start_s);
    let mut knots: Vec<(usize, f64)> = vec![(0, start_s)];
    for &(at, time_s) in stamps {
        if time_s >= knots[knots.len() - 1].1 && time_s <= end_s {
            knots.push((at, time_s));
        }
    }
    let told: Vec<usize> = knots.iter().skip(1).map(|knot| knot.0).collect();
    knots.push((text.len(), end_s));
    let time_at = |byte: usize| {
        let next = knots.iter().skip(1).position(|knot| knot.0 > byte).map_or(knots.len() - 1, |n| n + 1);
        let (from, to) = (knots[next - 1], knots[next]);
        if to.0 <= from.0 {
            return to.1;
        }
        from.1 + (to.1 - from.1) * (byte.saturating_sub(from.0)) as f64 / (to.0 - from.0) as f64
    };
    let starts: Vec<f64> = words.iter().map(|(at, _)| time_at(*at)).collect();
    words
        .iter()
        .enumerate()
        .map(|(n, (at, word))| {
            let previous_end = n.checked_sub(1).map_or(0, |p| words[p].0 + words[p].1.len());
            let timed = told.iter().any(|&byte| byte <= *at && byte >= previous_end);
            let end = starts.get(n + 1).copied().unwrap_or(end_s);
            Word { start_s: starts[n], end_s: end.max(starts[n]), word: (*word).to_owned(), confidence: None, timed }
        })
        .collect()
}

/// Sorts cues by time, puts impossible times right and says so.
pub(super) fn tidy(raw: Raw, recording_s: Option<f64>) -> TimedText {
    let mut cautions = raw.cautions;
    let recording_s = recording_s.filter(|length| length.is_finite() && *length >= 0.0);
    if raw.cues.windows(2).any(|pair| pair[1].cue.start_s < pair[0].cue.start_s) {
        let words = "The cues are not in the order of time; they were put in order.";
        cautions.push(Caution::new(Oddity::Order, None, None, words));
    }
    let mut cues: Vec<(Option<usize>, Cue)> = raw.cues.into_iter().map(|raw| (raw.line, raw.cue)).collect();
    for (line, cue) in &mut cues {
        straighten(cue, *line, recording_s, &mut cautions);
    }
    cues.sort_by(|(_, a), (_, b)| {
        a.start_s.total_cmp(&b.start_s).then(a.end_s.total_cmp(&b.end_s)).then_with(|| a.text.cmp(&b.text))
    });
    overlaps(&cues, &mut cautions);
    let mut cues: Vec<Cue> = cues.into_iter().map(|(_, cue)| cue).collect();
    drop_repeated(&mut cues, &mut cautions);
    TimedText { layout: raw.layout, cues, untimed: raw.untimed, cautions }
}

fn straighten(cue: &mut Cue, line: Option<usize>, recording_s: Option<f64>, cautions: &mut Vec<Caution>) {
    let (start, end) = (cue.start_s, cue.end_s);
    if end < start {
        let words = format!("A cue ends at {end:.3} s, before it starts at {start:.3} s; the start was kept for both.");
        cautions.push(Caution::new(Oddity::Backwards, line, Some(start), words));
        cue.end_s = start;
    }
    let latest = recording_s.unwrap_or(f64::INFINITY);
    if start < 0.0 || cue.end_s > latest {
        let words = if start < 0.0 {
            format!("A cue starts at {start:.3} s, before the recording; it was moved to its start.")
        } else {
            format!(
                "A cue runs from {start:.3} s to {:.3} s and the recording lasts {latest:.3} s; it was moved to its end.",
                cue.end_s
            )
        };
        cautions.push(Caution::new(Oddity::PastTheEnd, line, Some(start), words));
    }
    cue.start_s = cue.start_s.clamp(0.0, latest);
    cue.end_s = cue.end_s.clamp(cue.start_s, latest);
    let mut odd = 0;
    for word in &mut cue.words {
        let told = (word.start_s, word.end_s);
        word.start_s = word.start_s.clamp(cue.start_s, cue.end_s);
        word.end_s = word.end_s.clamp(word.start_s, cue.end_s);
        odd += usize::from(word.timed && told.1 < told.0);
    }
    if odd > 0 && end >= start {
        let words = format!("{odd} words end before they start; the start was kept for both.");
        cautions.push(Caution::new(Oddity::WordTime, line, Some(cue.start_s), words));
    }
}

fn overlaps(cues: &[(Option<usize>, Cue)], cautions: &mut Vec<Caution>) {
    let mut reached = f64::NEG_INFINITY;
    for (line, cue) in cues {
        if cue.start_s < reached - 1e-9 {
            let words =
                format!("A cue starts at {:.3} s while another lasts to {reached:.3} s; both are kept.", cue.start_s);
            cautions.push(Caution::new(Oddity::Overlap, *line, Some(cue.start_s), words));
        }
        reached = reached.max(cue.end_s);
    }
}

/// Rolling captions show the last line again above the new one: the words count once.
fn drop_repeated(cues: &mut [Cue], cautions: &mut Vec<Caution>) {
    let mut dropped = 0;
    for n in 1..cues.len() {
        let (before, rest) = cues.split_at_mut(n);
        let (last, cue) = (&before[n - 1], &mut rest[0]);
        let lines: Vec<&str> = cue.text.lines().filter(|line| !line.trim().is_empty()).collect();
        let last_line = last.text.lines().rfind(|line| !line.trim().is_empty());
        let close = cue.start_s <= last.end_s + 0.25;
        let Some(repeated) = lines.first().filter(|first| lines.len() > 1 && close && last_line == Some(**first))
        else {
            continue;
        };
        let count = repeated.split_whitespace().count();
        cue.words.drain(..count.min(cue.words.len()));
        dropped += count;
    }
    if dropped > 0 {
        let words = format!("{dropped} words stand twice, as captions roll; they count once.");
        cautions.push(Caution::new(Oddity::Repeated, None, None, words));
    }
}
