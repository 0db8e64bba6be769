//! Places in words: side, strake, frames, number from forward, distances from the stem and the waterline.

use super::{SaidWord, length_at, number_at, plain};
use std::ops::Range;
use survey::{Place, Side};

/// A place as said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SaidPlace {
    /// The place.
    pub place: Place,
    /// The words it comes from, counted from 0 among those given.
    pub words: Vec<Range<usize>>,
    /// What is doubtful about it.
    pub doubts: Vec<String>,
}

impl SaidPlace {
    fn took(&mut self, range: Range<usize>) {
        self.words.push(range);
    }

    /// Tells whether a word belongs to the place.
    pub fn holds(&self, at: usize) -> bool {
        self.words.iter().any(|range| range.contains(&at))
    }

    fn strake(&mut self, n: u32) {
        match self.place.strake {
            Some(other) if other != n => {
                self.doubts.push(format!("strake {other} and strake {n} are both said; the first stands"))
            }
            _ => self.place.strake = Some(n),
        }
    }

    fn frames(&mut self, a: u32, b: Option<u32>) {
        let (from, to) = match b {
            Some(b) if b < a => (b, Some(a)),
            Some(b) if b > a => (a, Some(b)),
            _ => (a, None),
        };
        match self.place.frame_from {
            Some(other) if (other, self.place.frame_to) != (from, to) => {
                self.doubts.push(format!("frame {other} and frame {from} are both said; the first stands"));
            }
            _ => (self.place.frame_from, self.place.frame_to) = (Some(from), to),
        }
    }
}

/// Things that are counted from forward.
const COUNTED: &[&str] = &[
    "bolt",
    "bolts",
    "keelbolt",
    "keelbolts",
    "beam",
    "beams",
    "chainplate",
    "chainplates",
    "floor",
    "floors",
    "stanchion",
    "stanchions",
    "knee",
    "knees",
    "butt",
    "butts",
    "thwart",
    "thwarts",
    "futtock",
    "futtocks",
    "carlin",
    "carline",
    "plates",
];

fn is_strake(word: &str) -> bool {
    matches!(word, "strake" | "strakes" | "plank" | "planks" | "streak" | "streaks")
}

fn is_frame(word: &str) -> bool {
    matches!(word, "frame" | "frames" | "timber" | "timbers" | "rib" | "ribs")
}

fn whole(words: &[SaidWord], at: usize) -> Option<(u32, usize)> {
    let skip = usize::from(plain(words, at) == "number");
    let number = number_at(words, at + skip)?;
    let good = number.value.fract() == 0.0 && (1.0..=500.0).contains(&number.value);
    good.then_some((number.value as u32, number.words + skip))
}

/// Reads every part of a place that the words tell. Strakes are counted from the garboard, frames from the stem; a count from
/// elsewhere stays in words, with a doubt.
pub fn place(words: &[SaidWord]) -> SaidPlace {
    let mut said = SaidPlace::default();
    let mut at = 0;
    while at < words.len() {
        at += part(words, at, &mut said).max(1);
    }
    said
}

/// Reads one part at a word and returns how many words it took.
fn part(words: &[SaidWord], at: usize, said: &mut SaidPlace) -> usize {
    let word = plain(words, at);
    if let Some(side) = side(word, plain(words, at + 1)) {
        let taken = 1 + usize::from(matches!(plain(words, at + 1), "side" | "hand" | "bow" | "quarter"));
        match said.place.side {
            Some(other) if other != side => {
                said.doubts.push(format!("{other} and {side} are both said; the first stands"))
            }
            _ => said.place.side = Some(side),
        }
        said.took(at..at + taken);
        return taken;
    }
    if word == "garboard" {
        said.strake(1);
        return 1;
    }
    if is_strake(word)
        && !words[at].ends
        && let Some((n, taken)) = whole(words, at + 1)
        && length_at(words, at + 1).is_none()
    {
        said.strake(n);
        said.took(at..at + 1 + taken);
        return 1 + taken;
    }
    if is_frame(word)
        && !words[at].ends
        && let Some((a, taken)) = whole(words, at + 1)
    {
        return frames(words, at, a, 1 + taken, said);
    }
    if COUNTED.contains(&word)
        && !words[at].ends
        && let Some((n, taken)) = whole(words, at + 1)
        && length_at(words, at + 1).is_none()
    {
        return counted(words, at, n, 1 + taken, said);
    }
    if let Some(number) = number_at(words, at)
        && (1.0..=500.0).contains(&number.value)
        && number.value.fract() == 0.0
    {
        let n = number.value as u32;
        let next = at + number.words;
        let noun = plain(words, next);
        if number.ordinal && is_strake(noun) {
            return strake_by_order(words, at, n, next + 1, said);
        }
        if number.ordinal && is_frame(noun) {
            return frames(words, at, n, next + 1 - at, said);
        }
        let of_keel = matches!(noun, "keel" | "chain") && COUNTED.contains(&plain(words, next + 1));
        let end = next + 1 + usize::from(of_keel);
        let from_forward = plain(words, end) == "from" && matches!(plain(words, end + 1), "forward" | "the");
        if (COUNTED.contains(&noun) || of_keel) && (number.ordinal || from_forward) {
            if !number.ordinal {
                said.doubts.push(format!("`{n} from forward` is taken as the one numbered {n}, not as {n} of them"));
            }
            return counted(words, at, n, end - at, said);
        }
    }
    distance(words, at, said)
}

fn side(word: &str, next: &str) -> Option<Side> {
    match word {
        "port" if !matches!(next, "light" | "hole") => Some(Side::Port),
        "starboard" | "stbd" => Some(Side::Starboard),
        "centreline" | "centerline" => Some(Side::Centreline),
        _ => None,
    }
}

/// `frame eleven`, `frames eleven to thirteen`, `between frames eleven and thirteen`.
fn frames(words: &[SaidWord], at: usize, a: u32, mut taken: usize, said: &mut SaidPlace) -> usize {
    let joined = matches!(plain(words, at + taken), "to" | "and" | "through");
    let again = usize::from(is_frame(plain(words, at + taken + 1)));
    let second = whole(words, at + taken + 1 + again)
        .filter(|_| joined && !words[at + taken - 1].ends && length_at(words, at + taken + 1).is_none());
    if let Some((_, more)) = second {
        taken += 1 + again + more;
    }
    let end = taken;
    if from_aft(words, at + taken, said, "frames") {
        let what = second.map_or(format!("frame {a}"), |(b, _)| format!("frames {a} and {b}"));
        said.place.words = Some(format!("{what} from aft"));
        said.took(at..at + end + 2);
        return end + 2;
    }
    said.frames(a, second.map(|(b, _)| b));
    said.took(at..at + end);
    end
}

/// `fourth plank up`, `third strake from the garboard`, `second plank below the sheer`.
fn strake_by_order(words: &[SaidWord], at: usize, n: u32, mut end: usize, said: &mut SaidPlace) -> usize {
    let tail: Vec<&str> = (end..end + 4).map(|i| plain(words, i)).collect();
    let down = matches!(tail[0], "down" | "below" | "under") || tail.contains(&"sheer") || tail.contains(&"rail");
    if down {
        let text: Vec<&str> = words[at..(end + 4).min(words.len())].iter().map(|word| word.plain.as_str()).collect();
        said.place.words = Some(text.join(" "));
        said.doubts.push("the strake is counted from above; it stays in words".to_owned());
        end = (end + 3).min(words.len());
        said.took(at..end);
        return end - at;
    }
    let up = tail[0] == "up";
    end += usize::from(up);
    let tail: Vec<&str> = (end..end + 3).map(|i| plain(words, i)).collect();
    if tail[0] == "from" && tail.contains(&"garboard") {
        said.strake(n);
        said.doubts.push("counted from the garboard: it may or may not be the first".to_owned());
        end += 1 + tail.iter().position(|word| *word == "garboard").unwrap_or(0);
    } else {
        said.strake(n);
        if !up {
            said.doubts.push(format!("the {n}. plank is taken as counted from the garboard"));
        }
    }
    let end = end.min(words.len());
    said.took(at..end);
    end - at
}

/// `keel bolt three`, `third keel bolt from forward`, `three bolts from forward`.
fn counted(words: &[SaidWord], at: usize, n: u32, taken: usize, said: &mut SaidPlace) -> usize {
    if from_aft(words, at + taken, said, "things counted") {
        said.place.words = Some(format!("no. {n} from aft"));
        said.took(at..at + taken + 2);
        return taken + 2;
    }
    match said.place.number {
        Some(other) if other != n => {
            said.doubts.push(format!("no. {other} and no. {n} are both said; the first stands"))
        }
        _ => said.place.number = Some(n),
    }
    let told = plain(words, at + taken) == "from" && plain(words, at + taken + 1) == "forward";
    let end = taken + if told { 2 } else { 0 };
    said.took(at..at + end);
    end
}

fn from_aft(words: &[SaidWord], at: usize, said: &mut SaidPlace, what: &str) -> bool {
    let aft = plain(words, at) == "from" && matches!(plain(words, at + 1), "aft" | "astern");
    if aft {
        said.doubts.push(format!("{what} are counted from aft here; the count stays in words"));
    }
    aft
}

/// `four metres from the stem`, `two foot six abaft the stem`, `six inches below the waterline`.
fn distance(words: &[SaidWord], at: usize, said: &mut SaidPlace) -> usize {
    let Some(length) = length_at(words, at) else { return 1 };
    let next = at + length.words;
    let tail: Vec<&str> = (next..next + 4).map(|i| plain(words, i)).collect();
    let reached = |name: &str| tail.iter().position(|word| *word == name).map(|n| n + 1);
    let sign = match tail[0] {
        "above" | "over" => 1.0,
        "below" | "under" => -1.0,
        _ => 0.0,
    };
    if let Some(more) = reached("waterline").filter(|_| sign != 0.0) {
        said.place.height_mm = Some(sign * length.mm);
        said.took(at..next + more);
        said.doubts.extend(length.doubt.map(str::to_owned));
        return length.words + more;
    }
    let from = matches!(tail[0], "from" | "abaft" | "aft" | "behind");
    if let Some(more) = reached("stem").filter(|_| from) {
        said.place.from_stem_mm = Some(length.mm);
        said.took(at..next + more);
        said.doubts.extend(length.doubt.map(str::to_owned));
        return length.words + more;
    }
    1
}
