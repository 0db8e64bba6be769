//! What stands round a word: cues that the trade is being talked, and words that are never changed.

use crate::lexicon::{Target, phrase_at};
use crate::phones::{self, Band};

/// Words that carry grammar and little else.
const FUNCTION: &[&str] = &[
    "a", "an", "the", "and", "or", "but", "of", "to", "in", "on", "at", "by", "for", "with", "from", "as", "is", "are",
    "was", "were", "be", "been", "it", "its", "that", "this", "these", "those", "there", "here", "he", "she", "her",
    "his", "they", "them", "we", "us", "you", "i", "my", "our", "your", "has", "have", "had", "do", "does", "did",
    "if", "so", "up", "out", "off", "over", "than", "then", "who", "what", "which", "all", "both", "some", "any",
    "just", "will", "would", "can", "could", "should", "may", "might", "about",
];

/// Numbers, sides and negations: changing one of these changes what was found.
const KEPT: &[&str] = &[
    "no",
    "not",
    "nor",
    "none",
    "never",
    "nothing",
    "without",
    "cannot",
    "can't",
    "couldn't",
    "don't",
    "doesn't",
    "didn't",
    "isn't",
    "aren't",
    "wasn't",
    "won't",
    "hasn't",
    "port",
    "starboard",
    "left",
    "right",
    "zero",
    "nought",
    "oh",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
    "thirty",
    "forty",
    "fifty",
    "sixty",
    "seventy",
    "eighty",
    "ninety",
    "hundred",
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "half",
    "quarter",
    "quarters",
    "eighths",
    "sixteenth",
    "sixteenths",
    "percent",
    "inch",
    "inches",
    "foot",
    "feet",
    "metre",
    "metres",
    "mil",
    "millimetres",
    "millimetre",
];

/// Words that go with talk of a hull, beside the words of the lexicon. Our own list.
const CUES: &[&str] = &[
    "side",
    "frame",
    "frames",
    "plank",
    "planks",
    "seam",
    "seams",
    "fastening",
    "fastenings",
    "fastened",
    "screw",
    "screws",
    "bolt",
    "bolts",
    "nail",
    "nails",
    "soft",
    "hard",
    "dull",
    "dead",
    "rings",
    "ring",
    "sound",
    "sounds",
    "rotten",
    "rot",
    "wet",
    "dry",
    "damp",
    "black",
    "split",
    "crack",
    "cracked",
    "loose",
    "weeping",
    "leaking",
    "leaks",
    "worn",
    "wasted",
    "open",
    "opened",
    "tight",
    "firm",
    "proud",
    "sprung",
    "forward",
    "aft",
    "after",
    "outside",
    "inside",
    "lower",
    "upper",
    "stem",
    "stern",
    "hull",
    "deck",
    "paint",
    "painted",
    "timber",
    "timbers",
    "oak",
    "wood",
    "planked",
    "built",
    "knife",
    "hammer",
    "tap",
    "tapped",
    "tapping",
    "probe",
    "spike",
    "draw",
    "drawn",
    "drew",
    "rust",
    "rusty",
    "stain",
    "moves",
    "holes",
    "worm",
    "joint",
    "edge",
    "end",
    "ends",
    "heel",
    "bottom",
    "glued",
    "corner",
    "missing",
    "patch",
    "mast",
    "engine",
    "beam",
    "floors",
    "floor",
    "rail",
    "knee",
    "knees",
    "copper",
    "bronze",
    "iron",
    "putty",
    "lead",
    "grain",
    "glue",
    "water",
    "fair",
    "strake",
    "bilge",
    "keel",
];

/// Tells whether a word carries grammar and little else.
pub(super) fn is_function(word: &str) -> bool {
    FUNCTION.contains(&word)
}

/// Tells whether a word is never changed.
pub(super) fn is_kept(word: &str) -> bool {
    KEPT.contains(&word) || word.starts_with(|c: char| c.is_ascii_digit())
}

/// How far to either side cues are looked for.
const REACH: usize = 7;

/// Returns how strongly the words round a run speak for the trade, 0 to 1. Each cue counts less the farther off it is.
pub(super) fn cues(words: &[String], first: usize, count: usize, target: &Target) -> f64 {
    let from = first.saturating_sub(REACH);
    let to = (first + count + REACH).min(words.len());
    let mut doubt = 1.0;
    let mut at = from;
    while at < to {
        if (first..first + count).contains(&at) {
            at = first + count;
            continue;
        }
        let away = if at < first { first - at } else { at + 1 - first - count };
        let near = 1.0 - 0.09 * (away as f64 - 1.0);
        let weight = match phrase_at(words, at) {
            Some((_, term)) if term.term == target.term => 0.0,
            Some((length, _)) if length > 1 || phones::band(&words[at]) > Band::Common => 0.55,
            _ if CUES.contains(&words[at].as_str()) => 0.4,
            _ if matches!(words[at].as_str(), "port" | "starboard") => 0.45,
            Some(_) => 0.15,
            None => 0.0,
        };
        doubt *= 1.0 - weight * near;
        at += 1;
    }
    1.0 - doubt
}

/// Words after which a noun may stand.
const BEFORE: &[&str] = &[
    "the",
    "a",
    "an",
    "this",
    "that",
    "port",
    "starboard",
    "lower",
    "upper",
    "inner",
    "after",
    "forward",
    "every",
    "each",
    "in",
    "of",
    "second",
    "third",
    "fourth",
    "first",
];

/// Words that may stand after a noun.
const AFTER: &[&str] = &[
    "is", "are", "was", "were", "has", "have", "on", "at", "by", "below", "above", "in", "moves", "looks", "under",
    "and", "with", "for", "where", "seam",
];

/// Tells whether what stands before a run, and what stands after it, leave room for a noun.
pub(super) fn slot(words: &[String], first: usize, count: usize) -> (bool, bool) {
    let before = first.checked_sub(1).is_none_or(|at| BEFORE.contains(&words[at].as_str()));
    let after = words.get(first + count).is_some_and(|word| AFTER.contains(&word.as_str()));
    (before, after)
}
