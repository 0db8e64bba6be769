//! How a recogniser that does not know the words of the trade might write them. A model of our own: it is a test of the code,
//! not evidence of how any recogniser hears.
//!
//! A phrase's phones are disturbed one by one (other phone 12 %, unstressed vowel lost 10 %, stop at the end lost 15 %, `h`
//! lost 25 %, `r` after a vowel lost 35 %, all by lists of its own, not by the costs that mending uses). Three times in four the
//! result is then written in common English words: the one to three that come nearest by plain counting of phones, commoner
//! words preferred. Once in four it is spelled out by sound, as a recogniser that writes in pieces does. Everything follows from
//! a seed.

use walk::phones::{Band, common_words};

/// A small generator: splitmix64 (Steele, Lea and Flood 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn chance(&mut self, of: f64) -> bool {
        ((self.next() >> 11) as f64) < of * (1u64 << 53) as f64
    }

    fn one_of<'a>(&mut self, list: &'a [u8]) -> &'a u8 {
        &list[(self.next() % list.len() as u64) as usize]
    }
}

/// FNV-1a, to split the words and to give each its own seed.
pub fn hash(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |h, b| (h ^ u64::from(b)).wrapping_mul(0x0000_0100_0000_01b3))
}

/// Tells whether a term belongs to the half on which weights were tuned.
pub fn is_tuned(term: &str) -> bool {
    (hash(term) >> 7).is_multiple_of(2)
}

/// What is taken for what.
const TAKEN_FOR: &[(u8, &[u8])] = &[
    (b'p', b"btk"),
    (b'b', b"pdv"),
    (b't', b"dkp"),
    (b'd', b"tgb"),
    (b'k', b"gtp"),
    (b'g', b"kdb"),
    (b'f', b"vTs"),
    (b'v', b"fbD"),
    (b'T', b"fst"),
    (b'D', b"dvz"),
    (b's', b"zSf"),
    (b'z', b"sZ"),
    (b'S', b"sC"),
    (b'C', b"Sjt"),
    (b'j', b"Czd"),
    (b'h', b"f"),
    (b'm', b"nN"),
    (b'n', b"mN"),
    (b'N', b"nm"),
    (b'l', b"wr"),
    (b'r', b"wl"),
    (b'w', b"vr"),
    (b'J', b"I"),
    (b'I', b"iE"),
    (b'i', b"Ieu"),
    (b'e', b"iau"),
    (b'a', b"euA"),
    (b'u', b"Uia"),
    (b'A', b"Oua"),
    (b'O', b"AoU"),
    (b'U', b"uxo"),
    (b'x', b"Uo"),
    (b'E', b"eY"),
    (b'Y', b"EA"),
    (b'W', b"oA"),
    (b'o', b"OW"),
    (b'y', b"OY"),
];

fn is_vowel(phone: u8) -> bool {
    b"AauOWYeEiIoyUx".contains(&phone)
}

fn disturb(phones: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut out: Vec<u8> = Vec::new();
    for (n, &phone) in phones.iter().enumerate() {
        let last = n + 1 == phones.len();
        let lost = match phone {
            b'u' | b'i' if n > 0 && !last => dice.chance(0.10),
            b'p' | b't' | b'k' | b'b' | b'd' | b'g' if last => dice.chance(0.15),
            b'h' => dice.chance(0.25),
            b'r' if n > 0 && is_vowel(phones[n - 1]) && phones.get(n + 1).is_none_or(|next| !is_vowel(*next)) => {
                dice.chance(0.35)
            }
            _ => false,
        };
        if lost {
            continue;
        }
        let list = TAKEN_FOR.iter().find(|(from, _)| *from == phone).map(|(_, to)| *to);
        match list {
            Some(list) if dice.chance(0.12) => out.push(*dice.one_of(list)),
            _ => out.push(phone),
        }
    }
    out
}

/// Plain counting: a vowel for another vowel a half, anything else one.
fn count_apart(a: &[u8], b: &[u8]) -> f64 {
    let mut row: Vec<f64> = (0..=b.len()).map(|n| n as f64).collect();
    for &x in a {
        let mut diagonal = row[0];
        row[0] += 1.0;
        for (j, &y) in b.iter().enumerate() {
            let swap = if x == y {
                0.0
            } else if is_vowel(x) && is_vowel(y) {
                0.5
            } else {
                1.0
            };
            let best = (diagonal + swap).min(row[j] + 1.0).min(row[j + 1] + 1.0);
            diagonal = row[j + 1];
            row[j + 1] = best;
        }
    }
    row[b.len()]
}

/// Writes phones in common words. `shunned` are the words of the trade, which this recogniser does not know.
fn in_words(phones: &[u8], shunned: &dyn Fn(&str) -> bool, dice: &mut Dice) -> String {
    let n = phones.len();
    let mut best: Vec<Option<(f64, Vec<&'static str>)>> = vec![None; n + 1];
    best[0] = Some((0.0, Vec::new()));
    // Ties between words of the same sound fall as the dice say.
    let turn = dice.next();
    for from in 0..n {
        let Some((so_far, words)) = best[from].clone() else { continue };
        if words.len() == 3 {
            continue;
        }
        for to in (from + 1).max((from + 2).min(n))..=n {
            let piece = &phones[from..to];
            let mut nearest: Option<(f64, u64, &'static str)> = None;
            for (word, band, sound) in common_words() {
                if sound.len().abs_diff(piece.len()) > 2 || (word.len() < 2 && word != "a") || shunned(word) {
                    continue;
                }
                let rank = match band {
                    Band::Everyday => 0.0,
                    Band::Common => 0.25,
                    _ => 0.5,
                };
                let cost = count_apart(piece, sound) + rank;
                let tie = hash(word) ^ turn;
                if nearest.is_none_or(|(least, first, _)| (cost, tie) < (least, first)) {
                    nearest = Some((cost, tie, word));
                }
            }
            let Some((cost, _, word)) = nearest else { continue };
            let total = so_far + cost + 0.6;
            if best[to].as_ref().is_none_or(|(least, _)| total < *least) {
                best[to] = Some((total, [words.as_slice(), &[word]].concat()));
            }
        }
    }
    best[n].take().map(|(_, words)| words.join(" ")).unwrap_or_default()
}

fn spelled(phones: &[u8]) -> String {
    phones
        .iter()
        .map(|phone| match phone {
            b'A' | b'O' => "o",
            b'a' => "a",
            b'u' | b'U' => "u",
            b'W' => "ow",
            b'Y' => "y",
            b'e' => "e",
            b'E' => "ai",
            b'i' => "i",
            b'I' => "ee",
            b'o' => "oa",
            b'y' => "oi",
            b'x' => "oo",
            b'C' => "ch",
            b'D' | b'T' => "th",
            b'N' => "ng",
            b'S' => "sh",
            b'Z' => "s",
            b'J' => "y",
            b'b' => "b",
            b'd' => "d",
            b'f' => "f",
            b'g' => "g",
            b'h' => "h",
            b'j' => "j",
            b'k' => "k",
            b'l' => "l",
            b'm' => "m",
            b'n' => "n",
            b'p' => "p",
            b'r' => "r",
            b's' => "s",
            b't' => "t",
            b'v' => "v",
            b'w' => "w",
            _ => "z",
        })
        .collect()
}

/// Returns what the recogniser writes for a phrase of the trade, or nothing when it happens to write it aright.
pub fn mishear(said: &str, phones: &[u8], round: u64, shunned: &dyn Fn(&str) -> bool) -> Option<String> {
    let mut dice = Dice(hash(said) ^ round.wrapping_mul(0x5851_f42d_4c95_7f2d));
    for _ in 0..8 {
        let heard = disturb(phones, &mut dice);
        let written = if dice.chance(0.75) { in_words(&heard, shunned, &mut dice) } else { spelled(&heard) };
        let known = written.split(' ').any(shunned);
        if !written.is_empty() && written != said && !known {
            return Some(written);
        }
    }
    None
}
