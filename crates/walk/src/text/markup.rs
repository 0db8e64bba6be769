//! Markup inside cues: tags, time stamps between words, and character references.

use super::stamp;

/// A cue's text without markup.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Plain {
    pub text: String,
    pub speaker: Option<String>,
    /// Times inside the text: byte of `text` from which the time holds, and the time.
    pub stamps: Vec<(usize, f64)>,
}

/// Reads a WebVTT cue's text (W3C, "WebVTT cue text parsing rules"): tags are taken off, voices and times are kept.
pub(super) fn webvtt(payload: &str) -> Plain {
    let mut plain = Plain::default();
    let mut rest = payload;
    while let Some(at) = rest.find(['<', '&']) {
        plain.text.push_str(&rest[..at]);
        rest = &rest[at..];
        if rest.starts_with('&') {
            let (text, after) = reference(rest);
            plain.text.push_str(&text);
            rest = after;
            continue;
        }
        // A tag that never closes is no tag: what it holds is kept.
        let Some(close) = rest.find('>') else { break };
        tag(&rest[1..close], &mut plain);
        rest = &rest[close + 1..];
    }
    plain.text.push_str(rest);
    plain
}

fn tag(inside: &str, plain: &mut Plain) {
    if inside.starts_with(|c: char| c.is_ascii_digit()) {
        match stamp::strict(inside) {
            Some(time_s) => plain.stamps.push((plain.text.len(), time_s)),
            // `<5 mm>` is what somebody wrote, not a tag.
            None => plain.text.push_str(&format!("<{inside}>")),
        }
    } else if let Some(name) = inside.strip_prefix('v').filter(|rest| rest.starts_with(['.', ' ', '\t', '\n'])) {
        let name = name.find([' ', '\t', '\n']).map_or("", |at| name[at..].trim());
        if !name.is_empty() && plain.speaker.is_none() {
            plain.speaker = Some(webvtt(name).text);
        }
    }
}

/// Reads a SubRip cue's text: the few tags in use are taken off, and `{\an8}` with its like.
pub(super) fn subrip(payload: &str) -> Plain {
    let mut text = String::new();
    let mut rest = payload;
    while let Some(at) = rest.find(['<', '{']) {
        text.push_str(&rest[..at]);
        rest = &rest[at..];
        let close = if rest.starts_with('<') { rest.find('>') } else { rest.find('}') };
        match close {
            Some(close) if is_subrip_tag(&rest[..=close]) => rest = &rest[close + 1..],
            _ => {
                text.push_str(&rest[..1]);
                rest = &rest[1..];
            }
        }
    }
    text.push_str(rest);
    Plain { text, ..Plain::default() }
}

fn is_subrip_tag(tag: &str) -> bool {
    if tag.starts_with("{\\") {
        return true;
    }
    let inside = tag.trim_start_matches(['<', '/']).trim_end_matches('>');
    let name = inside.split([' ', '=']).next().unwrap_or("");
    ["i", "b", "u", "s", "font"].iter().any(|known| name.eq_ignore_ascii_case(known))
}

/// Reads a character reference at the start of the text; what is none stays as it stands.
fn reference(text: &str) -> (String, &str) {
    const KNOWN: [(&str, &str); 8] = [
        ("&amp;", "&"),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&nbsp;", "\u{a0}"),
        ("&lrm;", "\u{200e}"),
        ("&rlm;", "\u{200f}"),
        ("&quot;", "\""),
        ("&apos;", "'"),
    ];
    if let Some((written, meant)) = KNOWN.iter().find(|(written, _)| text.starts_with(written)) {
        return ((*meant).to_owned(), &text[written.len()..]);
    }
    if let Some(number) = text.strip_prefix("&#")
        && let Some(end) = number.find(';').filter(|end| *end <= 8)
    {
        let code = match number[..end].strip_prefix(['x', 'X']) {
            Some(hex) => u32::from_str_radix(hex, 16).ok(),
            None => number[..end].parse().ok(),
        };
        if let Some(c) = code.and_then(char::from_u32).filter(|c| *c != '\0') {
            return (c.to_string(), &number[end + 1..]);
        }
    }
    ("&".to_owned(), &text[1..])
}
