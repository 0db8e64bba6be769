//! From bytes to text: UTF-8, UTF-16 and, failing both, Windows-1252, which holds Latin-1.

use super::{Caution, Oddity};

/// What bytes 0x80 to 0x9f stand for in Windows-1252 (WHATWG Encoding Standard, index windows-1252; bytes without a
/// character stand for the control of that number).
const HIGH: [char; 32] = [
    '\u{20ac}', '\u{81}', '\u{201a}', '\u{192}', '\u{201e}', '\u{2026}', '\u{2020}', '\u{2021}', '\u{2c6}', '\u{2030}',
    '\u{160}', '\u{2039}', '\u{152}', '\u{8d}', '\u{17d}', '\u{8f}', '\u{90}', '\u{2018}', '\u{2019}', '\u{201c}',
    '\u{201d}', '\u{2022}', '\u{2013}', '\u{2014}', '\u{2dc}', '\u{2122}', '\u{161}', '\u{203a}', '\u{153}', '\u{9d}',
    '\u{17e}', '\u{178}',
];

/// Returns the text, and a caution when the bytes are not UTF-8.
pub(super) fn decode(bytes: &[u8]) -> (String, Option<Caution>) {
    if let Some(rest) = bytes.strip_prefix(&[0xef, 0xbb, 0xbf]) {
        return utf8_or_latin(rest);
    }
    match bytes {
        [0xff, 0xfe, rest @ ..] => utf16(rest, u16::from_le_bytes, "little-endian"),
        [0xfe, 0xff, rest @ ..] => utf16(rest, u16::from_be_bytes, "big-endian"),
        // UTF-16 without its mark: every text begins with two characters of ASCII.
        [a, 0, b, 0, ..] if *a != 0 && *b != 0 => utf16(bytes, u16::from_le_bytes, "little-endian, without its mark"),
        [0, a, 0, b, ..] if *a != 0 && *b != 0 => utf16(bytes, u16::from_be_bytes, "big-endian, without its mark"),
        _ => utf8_or_latin(bytes),
    }
}

fn utf8_or_latin(bytes: &[u8]) -> (String, Option<Caution>) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        return (text.to_owned(), None);
    }
    let text = bytes
        .iter()
        .map(|&byte| match byte {
            0x80..=0x9f => HIGH[usize::from(byte - 0x80)],
            _ => char::from(byte),
        })
        .collect();
    (
        text,
        Some(caution(
            "The text is not UTF-8; it was read as Windows-1252 (Latin-1). Look at accents and quotation marks.",
        )),
    )
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16, order: &str) -> (String, Option<Caution>) {
    let units = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]]));
    let mut text: String = char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect();
    let mut words = format!("The text is UTF-16 ({order}), not UTF-8; it was read as such.");
    if bytes.len() % 2 == 1 {
        text.push(char::REPLACEMENT_CHARACTER);
        words.push_str(" Its last byte has no partner.");
    }
    (text, Some(caution(&words)))
}

fn caution(words: &str) -> Caution {
    Caution::new(Oddity::Encoding, None, None, words)
}
