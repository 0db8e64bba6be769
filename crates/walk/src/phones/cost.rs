//! What it costs to hear one phone for another. The figures are our own judgement, by manner, place and voice of consonants and
//! by the place of vowels in the mouth; they are not measured on any recogniser.

use std::sync::OnceLock;

/// Place of articulation from lips (0) to throat (7), manner, voice.
fn consonant(phone: u8) -> Option<(u8, Manner, bool)> {
    use Manner::{Affricate, Fricative, Glide, Liquid, Nasal, Stop};
    Some(match phone {
        b'p' => (0, Stop, false),
        b'b' => (0, Stop, true),
        b't' => (3, Stop, false),
        b'd' => (3, Stop, true),
        b'k' => (6, Stop, false),
        b'g' => (6, Stop, true),
        b'C' => (4, Affricate, false),
        b'j' => (4, Affricate, true),
        b'f' => (1, Fricative, false),
        b'v' => (1, Fricative, true),
        b'T' => (2, Fricative, false),
        b'D' => (2, Fricative, true),
        b's' => (3, Fricative, false),
        b'z' => (3, Fricative, true),
        b'S' => (4, Fricative, false),
        b'Z' => (4, Fricative, true),
        b'h' => (7, Fricative, false),
        b'm' => (0, Nasal, true),
        b'n' => (3, Nasal, true),
        b'N' => (6, Nasal, true),
        b'l' => (3, Liquid, true),
        b'r' => (4, Liquid, true),
        b'w' => (0, Glide, true),
        b'J' => (5, Glide, true),
        _ => return None,
    })
}

#[derive(Clone, Copy, PartialEq)]
enum Manner {
    Stop,
    Affricate,
    Fricative,
    Nasal,
    Liquid,
    Glide,
}

/// Height (0 close, 1 open) and backness (0 front, 1 back) at the start and at the end of a vowel.
fn vowel(phone: u8) -> Option<[(f64, f64); 2]> {
    let still = |height, back| [(height, back); 2];
    Some(match phone {
        b'I' => still(0.0, 0.0),
        b'i' => still(0.2, 0.15),
        b'e' => still(0.55, 0.1),
        b'a' => still(0.9, 0.2),
        b'u' => still(0.6, 0.55),
        b'A' => still(1.0, 0.85),
        b'O' => still(0.7, 0.95),
        b'U' => still(0.25, 0.8),
        b'x' => still(0.05, 0.9),
        b'E' => [(0.5, 0.1), (0.2, 0.1)],
        b'Y' => [(0.95, 0.5), (0.2, 0.15)],
        b'W' => [(0.95, 0.5), (0.25, 0.8)],
        b'o' => [(0.5, 0.75), (0.25, 0.85)],
        b'y' => [(0.65, 0.95), (0.2, 0.15)],
        _ => return None,
    })
}

fn substitution(a: u8, b: u8) -> f64 {
    if a == b {
        return 0.0;
    }
    match (consonant(a), consonant(b), vowel(a), vowel(b)) {
        (Some((pa, ma, va)), Some((pb, mb, vb)), ..) => {
            let stopped = |m| matches!(m, Manner::Stop | Manner::Affricate);
            let manner = match (ma == mb, stopped(ma) && stopped(mb)) {
                (true, _) => 0.0,
                (_, true) => 0.2,
                _ => 0.55,
            };
            let place = if pa == pb { 0.0 } else { 0.3 + 0.03 * f64::from(pa.abs_diff(pb)) };
            let place = if ma == Manner::Nasal && mb == Manner::Nasal { place * 0.7 } else { place };
            (manner + place + if va == vb { 0.0 } else { 0.25 }).min(1.0)
        }
        (None, None, Some(from), Some(to)) => {
            let apart = |a: (f64, f64), b: (f64, f64)| ((a.0 - b.0).powi(2) + (a.1 - b.1).powi(2)).sqrt();
            (0.12 + 0.3 * (apart(from[0], to[0]) + apart(from[1], to[1]))).min(0.6)
        }
        // A glide and its vowel, as in `w` and `oo`.
        _ => match (a.min(b), a.max(b)) {
            (b'w', b'x') | (b'U', b'w') | (b'o', b'w') | (b'I', b'J') | (b'J', b'i') => 0.5,
            _ => 1.1,
        },
    }
}

/// What it costs to drop a phone or hear one that was not said.
fn gap(phone: u8, last: bool) -> f64 {
    match phone {
        b'u' | b'i' => 0.35,
        b'r' => 0.25,
        b'h' => 0.3,
        b't' | b'd' if last => 0.45,
        b's' | b'z' if last => 0.5,
        _ if vowel(phone).is_some() => 0.5,
        _ => 0.7,
    }
}

/// Costs by phone, reckoned once.
struct Costs {
    substitution: Vec<[f64; 128]>,
    gap: [f64; 128],
    last_gap: [f64; 128],
}

fn costs() -> &'static Costs {
    static COSTS: OnceLock<Costs> = OnceLock::new();
    COSTS.get_or_init(|| {
        let each = |cost: &dyn Fn(u8) -> f64| {
            let mut row = [0.0; 128];
            (0u8..).zip(&mut row).for_each(|(phone, cell)| *cell = cost(phone));
            row
        };
        Costs {
            substitution: (0u8..128).map(|a| each(&|b| substitution(a, b))).collect(),
            gap: each(&|phone| gap(phone, false)),
            last_gap: each(&|phone| gap(phone, true)),
        }
    })
}

/// Returns what it costs to hear `heard` where `meant` was said: the cheapest alignment, substitutions by manner, place, voice
/// and vowel, dropped and added phones by kind. Zero for the same phones; the same both ways.
pub fn distance(heard: &[u8], meant: &[u8]) -> f64 {
    let costs = costs();
    // Phones are letters of ASCII; anything else is taken for the letter of its lower seven bits.
    let gap = |phone: u8, last: bool| {
        if last { costs.last_gap[usize::from(phone & 127)] } else { costs.gap[usize::from(phone & 127)] }
    };
    let (n, m) = (heard.len(), meant.len());
    let mut row: Vec<f64> = vec![0.0; m + 1];
    for j in 0..m {
        row[j + 1] = row[j] + gap(meant[j], j + 1 == m);
    }
    for (i, &phone) in heard.iter().enumerate() {
        let swaps = &costs.substitution[usize::from(phone & 127)];
        let dropped = gap(phone, i + 1 == n);
        let mut diagonal = row[0];
        row[0] += dropped;
        for (j, &wanted) in meant.iter().enumerate() {
            let best = (diagonal + swaps[usize::from(wanted & 127)])
                .min(row[j + 1] + dropped)
                .min(row[j] + gap(wanted, j + 1 == m));
            diagonal = row[j + 1];
            row[j + 1] = best;
        }
    }
    row[m]
}
