//! Time stamps and time lines, as the standard has them and as people write them.

/// A time line as read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Span {
    pub start_s: f64,
    pub end_s: f64,
    /// Whether it is as the WebVTT standard has it.
    pub strict: bool,
}

/// Reads a time line: strictly by the WebVTT standard (W3C, *WebVTT: The Web Video Text Tracks Format*, section "WebVTT
/// cue timings and settings parsing"), else leniently.
pub(super) fn span(line: &str) -> Option<Span> {
    let (left, right) = line.split_once("-->")?;
    let strict = |text: &str| strict(text.trim_matches(is_space));
    let after = right.trim_start_matches(is_space);
    let end = after.find(is_space).map_or(after, |at| &after[..at]);
    if let (Some(start_s), Some(end_s)) = (strict(left), strict(end)) {
        return Some(Span { start_s, end_s, strict: true });
    }
    let (start_s, _) = lenient(left.trim())?;
    let (end_s, _) = lenient(right.trim())?;
    Some(Span { start_s, end_s, strict: false })
}

fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\u{c}' | '\n' | '\r')
}

/// Reads a WebVTT time stamp, `[hh+:]mm:ss.ttt`, in seconds (same standard, "collect a WebVTT timestamp").
pub(super) fn strict(text: &str) -> Option<f64> {
    let (clock, thousandths) = text.split_once('.')?;
    let thousandths = exactly(thousandths, 3)?;
    let parts: Vec<&str> = clock.split(':').collect();
    let (hours, minutes, seconds) = match parts[..] {
        [minutes, seconds] => (0.0, minutes, seconds),
        [hours, minutes, seconds] if hours.len() >= 2 => (digits(hours)?, minutes, seconds),
        _ => return None,
    };
    let (minutes, seconds) = (exactly(minutes, 2)?, exactly(seconds, 2)?);
    (minutes <= 59.0 && seconds <= 59.0)
        .then(|| (((hours * 60.0 + minutes) * 60.0 + seconds) * 1000.0 + thousandths) / 1000.0)
}

/// Reads a time stamp as people and programs write it: comma or point, one to four figures after it or none, hours or
/// none, seconds above 59. Returns what follows it.
pub(super) fn lenient(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, ':' | '.' | ','))).unwrap_or(text.len());
    let (stamp, rest) = text.split_at(end);
    let stamp = stamp.trim_end_matches([',', '.']);
    let parts: Vec<&str> = stamp.split(':').collect();
    let (last, before) = parts.split_last()?;
    if before.is_empty() || before.len() > 2 {
        return None;
    }
    let seconds = match last.split_once([',', '.']) {
        Some((whole, part)) if part.len() <= 9 => {
            let size = [1.0, 10.0, 100.0, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9][part.len()];
            digits(whole)? + digits(part)? / size
        }
        Some(_) => return None,
        None => digits(last)?,
    };
    let greater = before.iter().try_fold(0.0, |sum, part| digits(part).map(|n| sum * 60.0 + n))?;
    Some((greater * 60.0 + seconds, rest))
}

/// Writes a time as a WebVTT time stamp with hours.
pub(super) fn write(time_s: f64) -> String {
    let ms = (time_s.max(0.0) * 1000.0).round();
    // Beyond nine figures of hours no recording lasts; `as` saturates.
    let ms = ms as u64;
    format!("{:02}:{:02}:{:02}.{:03}", ms / 3_600_000, ms / 60_000 % 60, ms / 1000 % 60, ms % 1000)
}

fn exactly(text: &str, figures: usize) -> Option<f64> {
    if text.len() == figures { digits(text) } else { None }
}

fn digits(text: &str) -> Option<f64> {
    let good = !text.is_empty() && text.len() <= 9 && text.bytes().all(|b| b.is_ascii_digit());
    if good { text.parse().ok() } else { None }
}
