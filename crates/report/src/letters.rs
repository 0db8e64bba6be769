//! Making any text safe to set: characters that no font has are replaced by their number, visibly; what could hide
//! or turn round the text about it is shown; runs too long for a line get places to break.

use crate::fonts::fonts;
use serde_json::Value;
use std::sync::OnceLock;
use unicode_segmentation::UnicodeSegmentation as _;

/// Longer runs without a space get places to break.
const LONGEST_RUN: usize = 20;
/// Letters between places to break.
const BETWEEN_BREAKS: usize = 10;
/// More marks than this on one letter would run into the lines above and below.
const MARKS_ON_A_LETTER: usize = 4;
const PLACE_TO_BREAK: char = '\u{200b}';

/// How much is let through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Range {
    /// Whatever some font has.
    Wide,
    /// Only letters that the text fonts have by themselves: used again when a wide setting failed.
    Plain,
}

/// Mends every text in a JSON value, and returns how many characters were replaced.
pub(crate) fn mend_all(value: &mut Value, range: Range) -> usize {
    match value {
        Value::String(text) => {
            let (mended, replaced) = mend(text, range, true);
            *text = mended;
            replaced
        }
        Value::Array(items) => items.iter_mut().map(|item| mend_all(item, range)).sum(),
        // A digest or a key is copied to be checked, so nothing may be put into it; it is known to fit its line.
        Value::Object(map) => map
            .iter_mut()
            .map(|(key, item)| match item {
                Value::String(text) if key == "sha256" || key == "public_key" => {
                    let (mended, replaced) = mend(text, range, text.len() > 64);
                    *text = mended;
                    replaced
                }
                item => mend_all(item, range),
            })
            .sum(),
        _ => 0,
    }
}

/// Mends one text, and returns how many characters were replaced.
pub(crate) fn mend(text: &str, range: Range, breaks: bool) -> (String, usize) {
    if is_simple(text) {
        return (hold_units(text), 0);
    }
    let mut out = String::with_capacity(text.len() + text.len() / 8);
    let mut replaced = 0;
    let mut run: Vec<String> = Vec::new();
    for cluster in text.graphemes(true) {
        match cluster {
            "\n" | "\r\n" | "\r" | "\u{85}" | "\u{2028}" | "\u{2029}" | "\u{b}" | "\u{c}" => {
                close_run(&mut out, &mut run, breaks);
                out.push('\n');
            }
            _ if cluster.chars().all(char::is_whitespace) => {
                close_run(&mut out, &mut run, breaks);
                // Plain or no-break space; other spaces are not in every font, and look no different to a reader.
                out.push(if cluster == "\u{a0}" { '\u{a0}' } else { ' ' });
            }
            _ => {
                let (shown, count) = mend_cluster(cluster, range);
                replaced += count;
                run.push(shown);
            }
        }
    }
    close_run(&mut out, &mut run, breaks);
    (hold_units(&out), replaced)
}

/// Keeps a figure and its unit on one line: the space between them becomes one that does not break.
fn hold_units(text: &str) -> String {
    const UNITS: [&str; 18] =
        ["%", "mm", "m", "cm", "in", "ft", "kg", "lb", "°C", "N", "MPa", "kPa", "psu", "µs", "Hz", "dB", "m²", "m³"];
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(space) = rest.find(' ') {
        let (before, after) = (&rest[..space], &rest[space + 1..]);
        let word = after.split([' ', '\n', ',', ';', '.', ':', ')', '(']).next().unwrap_or("");
        let holds = before.ends_with(|c: char| c.is_ascii_digit()) && UNITS.contains(&word);
        out.push_str(before);
        out.push(if holds { '\u{a0}' } else { ' ' });
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Tells whether the text is plain ASCII in words of ordinary length, as nearly all is.
fn is_simple(text: &str) -> bool {
    text.bytes().all(|b| b == b'\n' || (b' '..=b'~').contains(&b))
        && text.split([' ', '\n']).all(|word| word.len() <= LONGEST_RUN)
}

fn close_run(out: &mut String, run: &mut Vec<String>, breaks: bool) {
    let long = breaks && run.len() > LONGEST_RUN;
    for (i, cluster) in run.iter().enumerate() {
        if long && i > 0 && i % BETWEEN_BREAKS == 0 {
            out.push(PLACE_TO_BREAK);
        }
        out.push_str(cluster);
    }
    run.clear();
}

fn mend_cluster(cluster: &str, range: Range) -> (String, usize) {
    let letters = letters();
    let fits = match range {
        Range::Wide => {
            cluster.chars().filter(|c| is_mark(*c)).count() <= MARKS_ON_A_LETTER
                && !cluster.chars().any(is_hidden)
                && letters.in_one_font(cluster)
        }
        Range::Plain => {
            let mut chars = cluster.chars();
            matches!((chars.next(), chars.next()), (Some(c), None) if !is_hidden(c) && letters.in_text_fonts(c))
        }
    };
    if fits {
        return (cluster.to_owned(), 0);
    }
    let mut shown = String::new();
    let mut replaced = 0;
    for (i, c) in cluster.chars().enumerate() {
        let alone = !is_hidden(c)
            && !joins(c)
            && match range {
                Range::Wide => letters.in_one_font(c.encode_utf8(&mut [0; 4])),
                Range::Plain => letters.in_text_fonts(c),
            }
            && (i == 0 || !is_mark(c));
        if alone {
            shown.push(c);
        } else {
            shown.push_str(&format!("\u{27e8}U+{:04X}\u{27e9}", c as u32));
            replaced += 1;
        }
    }
    (shown, replaced)
}

/// Tells whether a character could hide something, turn the text round, or has no meaning that a reader shares.
fn is_hidden(c: char) -> bool {
    let code = c as u32;
    c.is_control()
        || matches!(code,
            0x00ad | 0x061c | 0x200e | 0x200f | 0x202a..=0x202e | 0x2060..=0x206f | 0xfeff | 0xfff9..=0xffff
            | 0xe000..=0xf8ff | 0xfdd0..=0xfdef | 0xe0000..=0x10ffff)
        || code & 0xfffe == 0xfffe
}

/// Characters that join or vary their neighbours and need no glyph of their own.
fn joins(c: char) -> bool {
    matches!(c as u32, 0x200b..=0x200d | 0xfe00..=0xfe0f)
}

fn is_mark(c: char) -> bool {
    matches!(c as u32, 0x0300..=0x036f | 0x0483..=0x0489 | 0x0591..=0x05c7 | 0x0610..=0x061a | 0x064b..=0x065f | 0x0670
        | 0x06d6..=0x06dc | 0x06df..=0x06e4 | 0x1ab0..=0x1aff | 0x1dc0..=0x1dff | 0x20d0..=0x20ff | 0xfe20..=0xfe2f)
}

/// Which characters each font has.
struct Letters {
    fonts: Vec<Vec<u64>>,
    text_fonts: Vec<usize>,
}

fn letters() -> &'static Letters {
    static LETTERS: OnceLock<Letters> = OnceLock::new();
    LETTERS.get_or_init(|| {
        let list = &fonts().list;
        let bits = |font: &typst::text::Font| {
            let mut set = vec![0_u64; 0x11_0000 / 64];
            for code in font.info().coverage.iter() {
                if let Some(word) = set.get_mut(code as usize / 64) {
                    *word |= 1 << (code % 64);
                }
            }
            set
        };
        let text_fonts = (0..list.len()).filter(|i| list[*i].info().family.starts_with("Source S")).collect();
        Letters { fonts: list.iter().map(bits).collect(), text_fonts }
    })
}

impl Letters {
    fn has(&self, font: usize, c: char) -> bool {
        let code = c as usize;
        self.fonts[font][code / 64] & (1 << (code % 64)) != 0
    }

    fn in_one_font(&self, cluster: &str) -> bool {
        (0..self.fonts.len()).any(|font| cluster.chars().all(|c| joins(c) || self.has(font, c)))
    }

    fn in_text_fonts(&self, c: char) -> bool {
        self.text_fonts.iter().all(|font| self.has(*font, c))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ordinary_words_stay_as_they_are() {
        for text in ["Dull, frames 6 to 9.", "Størrelse 12½″ × 3′ – naïve «garboard» ± 2°", "שלום", "قارب", "⚠ ✓ ⛵"]
        {
            assert_eq!(mend(text, Range::Wide, true), (text.to_owned(), 0));
        }
    }

    #[test]
    fn a_figure_keeps_its_unit() {
        let held = "900\u{a0}mm of 3 planks, 55\u{a0}% (18\u{a0}°C).";
        assert_eq!(mend("900 mm of 3 planks, 55 % (18 °C).", Range::Wide, true), (held.to_owned(), 0));
    }

    #[test]
    fn what_no_font_has_is_shown_by_its_number_and_counted() {
        assert_eq!(mend("a中b", Range::Wide, true), ("a⟨U+4E2D⟩b".to_owned(), 1));
        assert_eq!(mend("bell\u{7}", Range::Wide, true), ("bell⟨U+0007⟩".to_owned(), 1));
        assert_eq!(mend("x\u{202e}txt", Range::Wide, true), ("x⟨U+202E⟩txt".to_owned(), 1));
        assert_eq!(mend("\u{e000}", Range::Wide, true), ("⟨U+E000⟩".to_owned(), 1));
    }

    #[test]
    fn long_runs_get_places_to_break_and_nothing_is_lost() {
        let long = "x".repeat(10_000);
        let (mended, replaced) = mend(&long, Range::Wide, true);
        assert_eq!(replaced, 0);
        assert_eq!(mended.replace(PLACE_TO_BREAK, ""), long);
        assert!(mended.split(PLACE_TO_BREAK).all(|piece| piece.len() <= BETWEEN_BREAKS));
    }

    #[test]
    fn a_tower_of_marks_is_taken_down() {
        let tower = format!("z{}", "\u{301}".repeat(40));
        let (mended, replaced) = mend(&tower, Range::Wide, true);
        assert!(replaced >= 36, "{mended}");
    }
}
