//! How words sound: phones, the words of common English, and how far one run of phones is from another.
//!
//! Phones are those of the CMU Pronouncing Dictionary without stress, one byte each: `b C d D f g h j k l m n N p r s S t T v
//! w J z Z` for B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH, and `A a u O W Y e E i I o y U x` for AA AE AH AO AW
//! AY EH EY IH IY OW OY UH UW. ER is written as `ur`, so that an `r` dropped in British speech costs little.

mod cost;
mod english;
mod spelling;

pub use cost::distance;
pub(crate) use english::own_ways;
pub use english::{Band, band, bring_words, words_are_here};

/// Returns the phones of an ARPAbet transcription (`G AA R B AO R D`).
pub fn from_arpabet(text: &str) -> Vec<u8> {
    text.split_whitespace().flat_map(|phone| letters(phone).iter().copied()).collect()
}

fn letters(phone: &str) -> &'static [u8] {
    match phone {
        "AA" => b"A",
        "AE" => b"a",
        "AH" => b"u",
        "AO" => b"O",
        "AW" => b"W",
        "AY" => b"Y",
        "EH" => b"e",
        "ER" => b"ur",
        "EY" => b"E",
        "IH" => b"i",
        "IY" => b"I",
        "OW" => b"o",
        "OY" => b"y",
        "UH" => b"U",
        "UW" => b"x",
        "B" => b"b",
        "CH" => b"C",
        "D" => b"d",
        "DH" => b"D",
        "F" => b"f",
        "G" => b"g",
        "HH" => b"h",
        "JH" => b"j",
        "K" => b"k",
        "L" => b"l",
        "M" => b"m",
        "N" => b"n",
        "NG" => b"N",
        "P" => b"p",
        "R" => b"r",
        "S" => b"s",
        "SH" => b"S",
        "T" => b"t",
        "TH" => b"T",
        "V" => b"v",
        "W" => b"w",
        "Y" => b"J",
        "Z" => b"z",
        "ZH" => b"Z",
        _ => b"",
    }
}

/// Returns how a word sounds: by the list of common English, else by rules of spelling.
pub fn of_word(word: &str) -> Vec<u8> {
    english::phones(word).unwrap_or_else(|| spelling::phones(word))
}

/// Returns how a word sounds by the rules of spelling alone.
pub fn by_spelling(word: &str) -> Vec<u8> {
    spelling::phones(word)
}

/// Returns every word of the list with its band and phones, in the order of the alphabet.
pub fn common_words() -> impl Iterator<Item = (&'static str, Band, &'static [u8])> {
    english::all()
}
