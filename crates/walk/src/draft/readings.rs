//! What one clause tells: readings by method, what was not seen, hearsay, and guesses.

use super::Drafted;
use super::signs::signs;
use super::wording::*;
use crate::said::{SaidWord, length_at, number_at};
use survey::{BoreFinds, DrawnCondition, Knife, Reading, SoundAnswer};

/// One thing a clause tells.
pub(super) struct Read {
    pub drafted: Drafted,
    pub doubt: Option<String>,
}

impl Read {
    fn new(reading: Reading, doubt: Option<&str>) -> Self {
        Self { drafted: Drafted::Reading(reading), doubt: doubt.map(str::to_owned) }
    }
}

/// Reads one clause. Hearsay and what cannot be seen stand alone: nothing else is read out of such a clause.
pub(super) fn read(words: &[SaidWord]) -> Vec<Read> {
    let plain: Vec<&str> = words.iter().map(|word| word.plain.as_str()).collect();
    if let Some(hearsay) = hearsay(words, &plain) {
        return vec![hearsay];
    }
    if let Some(not_seen) = not_seen(words, &plain) {
        return vec![not_seen];
    }
    let mut found: Vec<Read> = Vec::new();
    found.extend(guess(words, &plain));
    let guessed = !found.is_empty();
    found.extend(sound(&plain));
    found.extend(bored(words, &plain).or_else(|| probe(words, &plain)));
    found.extend(moisture(words, &plain));
    found.extend(drawn(words, &plain));
    found.extend(opened(words, &plain));
    found.extend(measure(words, &plain));
    let only_guess = guessed && found.len() == 1;
    if found.is_empty() || !only_guess && !signs(&plain).is_empty() {
        found.extend(sight(&plain));
    }
    found
}

fn has(plain: &[&str], any: &[&str]) -> bool {
    plain.iter().any(|word| any.contains(word))
}

fn find(plain: &[&str], any: &[&str]) -> Option<usize> {
    plain.iter().position(|word| any.contains(word))
}

/// Tells whether the word at a place is turned round by a negation shortly before it.
fn negated(plain: &[&str], at: usize) -> bool {
    plain[at.saturating_sub(3)..at].iter().any(|word| NOT.contains(word))
}

fn written(words: &[SaidWord]) -> String {
    let all: Vec<&str> = words.iter().map(|word| word.written.as_str()).collect();
    all.join(" ").trim_matches(|c: char| matches!(c, ',' | '.' | ';' | ':' | ' ')).to_owned()
}

/// `the owner says she was refastened`, `according to the yard`.
fn hearsay(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let (who, from) = if let Some(at) = plain.windows(2).position(|pair| pair == ["according", "to"]) {
        let end = (at + 2..plain.len()).find(|n| SPEAKERS.contains(&plain[*n]))?;
        (written(&words[at + 2..=end]), end + 1)
    } else {
        let says = find(plain, SAYS)?;
        let who = (0..says).rev().take(3).find(|n| SPEAKERS.contains(&plain[*n]))?;
        let start = (0..who)
            .rev()
            .take_while(|n| matches!(plain[*n], "the" | "previous" | "last" | "present" | "old"))
            .last()
            .unwrap_or(who);
        (written(&words[start..=who]), says + 1)
    };
    let from = from + usize::from(matches!(plain.get(from), Some(&("that" | "me" | "us"))));
    let said = written(words.get(from..)?);
    if said.is_empty() {
        return None;
    }
    Some(Read::new(Reading::Ask { who, said }, None))
}

/// `can't get at it for the tank`, `not seen behind the ceiling`, `no access`.
fn not_seen(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let unable = (0..plain.len()).find(|&n| {
        let not = UNABLE.contains(&plain[n]) || (n > 0 && plain[n] == "not" && matches!(plain[n - 1], "could" | "can"));
        not && plain[n + 1..].iter().take(4).any(|word| SEE.contains(word))
    });
    let told = || {
        plain.windows(2).position(|pair| {
            matches!(pair, ["not", "seen" | "sighted" | "inspected" | "accessible" | "visible"] | ["no", "access"])
        })
    };
    let at = unable.or_else(told).or_else(|| find(plain, &["inaccessible", "unseen"]))?;
    let barrier = (at + 1..plain.len()).find(|&n| BARRIER.contains(&plain[n]) && n + 1 < plain.len());
    let (why, doubt) = match barrier {
        Some(n) => (written(&words[n..]), None),
        None => (written(words), Some("the barrier is not named".to_owned())),
    };
    if why.is_empty() {
        return None;
    }
    Some(Read { drafted: Drafted::NotSeen { why }, doubt })
}

/// `I think that is rot`: a question, never a finding.
fn guess(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let at = find(plain, GUESS)?;
    // `must be done` and the like are no guesses of what is; a guess is about a state.
    let stated =
        has(plain, SEEN) || has(plain, SOFT) || has(plain, &["sick", "sickness", "loose", "decay", "borer", "borers"]);
    let of_a_state = plain[at] != "must" || matches!(plain.get(at + 1), Some(&("be" | "have")));
    (stated && of_a_state)
        .then(|| Read { drafted: Drafted::Question(format!("Is this so: {}?", written(words))), doubt: None })
}

fn sound(plain: &[&str]) -> Option<Read> {
    let answer = |answer, doubt| Some(Read::new(Reading::Sound { answer, blows: None }, doubt));
    let painted = has(plain, &["paint", "varnish", "colour"]) && !has(plain, STRUCK);
    if let Some(at) = find(plain, CHATTERS) {
        return if negated(plain, at) { None } else { answer(SoundAnswer::Chatters, None) };
    }
    let dull = (0..plain.len()).find(|&n| {
        DULL.contains(&plain[n])
            && !matches!(plain.get(n + 1), Some(&("straight" | "level" | "knot" | "knots" | "wood" | "end" | "centre")))
    });
    let rings = (0..plain.len()).find(|&n| {
        RINGS.contains(&plain[n])
            && !matches!(plain.get(n + 1), Some(&("frame" | "frames" | "nail" | "nails" | "shake" | "shakes" | "bolt")))
    });
    match (dull.filter(|_| !painted), rings) {
        (Some(at), Some(ring)) if !negated(plain, at) && !negated(plain, ring) => {
            let first = if at < ring { SoundAnswer::DullOrHollow } else { SoundAnswer::Rings };
            answer(first, Some("both a ring and a dull note are said; the first stands"))
        }
        (Some(at), _) if !negated(plain, at) => answer(SoundAnswer::DullOrHollow, None),
        (_, Some(ring)) if negated(plain, ring) => answer(SoundAnswer::DullOrHollow, Some("said as `no ring`")),
        (_, Some(ring)) if !matches!(plain[ring], "bright" | "crisp") || has(plain, STRUCK) => {
            let dulled = plain.get(ring + 1) == Some(&"dull");
            answer(if dulled { SoundAnswer::DullOrHollow } else { SoundAnswer::Rings }, None)
        }
        (Some(_), None) => answer(SoundAnswer::Rings, Some("said only as `not dull`")),
        _ if has(plain, &["sounds", "sounded", "tapped", "taps"]) && has(plain, GOOD) => {
            let at = find(plain, GOOD).unwrap_or(0);
            if negated(plain, at) {
                answer(SoundAnswer::CannotBeTold, Some("said as the contrary of good"))
            } else {
                answer(SoundAnswer::Rings, Some("said to sound good; a ring is not said"))
            }
        }
        _ => None,
    }
}

/// Returns the first length at or after a word.
fn length_after(words: &[SaidWord], from: usize) -> Option<(f64, String, Option<&'static str>, usize)> {
    (from..words.len()).find_map(|n| length_at(words, n).map(|l| (l.mm, l.written, l.doubt, n)))
}

fn probe(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let point = find(plain, POINTS);
    let soft = find(plain, SOFT).filter(|&n| {
        !matches!(plain.get(n + 1), Some(&("wood" | "rot"))) || point.is_some() || plain.get(n + 1) == Some(&"wood")
    });
    let soft = soft.filter(|&n| plain.get(n + 1) != Some(&"rot"));
    let firm = find(plain, FIRM).filter(|&n| point.is_some() || plain[n] == "firm");
    let short = plain.windows(2).any(|pair| matches!(pair, ["breaks" | "broke" | "snaps", "short"]));
    let moves = find(plain, MOVES).filter(|_| has(plain, LEVERS) || !has(plain, &["been", "has", "have"]));
    let mut doubt = None;
    let knife = match (short, soft, firm) {
        (true, ..) => Some(Knife::SliverBreaksShort),
        (_, Some(at), _) if negated(plain, at) => {
            doubt = Some("said only as `not soft`");
            Some(Knife::Firm)
        }
        (_, Some(_), _) => Some(Knife::Soft),
        (_, _, Some(at)) if negated(plain, at) => {
            doubt = Some("said only as `not firm`");
            Some(Knife::Soft)
        }
        (_, _, Some(_)) => Some(Knife::Firm),
        _ => None,
    };
    let depth = point.filter(|_| has(plain, GOES_IN)).and_then(|_| length_after(words, 0));
    let moves_under_pry = moves.map(|at| !negated(plain, at));
    if knife.is_none() && depth.is_none() && moves_under_pry.is_none() {
        return None;
    }
    if point.is_none() && knife.is_some() && doubt.is_none() {
        doubt = Some("no knife or spike is named");
    }
    if moves.is_some() && !has(plain, LEVERS) && doubt.is_none() {
        doubt = Some("it is not said what it was moved with");
    }
    let doubt = depth.as_ref().and_then(|(_, _, doubt, _)| *doubt).or(doubt);
    Some(Read::new(Reading::Probe { knife, depth_mm: depth.map(|(mm, ..)| mm), moves_under_pry }, doubt))
}

/// `meter shows eighteen percent`, `22 percent moisture`.
fn moisture(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let (at, number) = (0..words.len()).find_map(|n| {
        let number = number_at(words, n).filter(|number| !number.ordinal)?;
        let next = n + number.words;
        let sign = plain[n].ends_with('%');
        let percent =
            matches!(plain.get(next), Some(&("percent" | "%"))) || plain.get(next..next + 2) == Some(&["per", "cent"]);
        (sign || percent).then_some((n, number))
    })?;
    let metered = has(plain, &["meter", "moisture", "reading", "reads", "wet", "damp", "content"]);
    let of_wood =
        plain[at..].iter().take(7).any(|word| matches!(*word, "wasted" | "gone" | "left" | "of" | "bad" | "sound"));
    if (of_wood && !metered) || !(0.0..=300.0).contains(&number.value) {
        return None;
    }
    let depth_mm = find(plain, &["deep", "depth", "pins"]).and_then(|_| length_after(words, 0)).map(|(mm, ..)| mm);
    let reading = Reading::Moisture {
        reading_percent: number.value,
        depth_mm,
        temp_c: None,
        species_setting: None,
        instrument: None,
    };
    Some(Read::new(reading, (!metered).then_some("a percentage was said without naming the meter")))
}

/// `bored two inches, solid all the way`.
fn bored(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    find(plain, &["bored", "drilled", "bore"])?;
    let (depth_mm, _, length_doubt, _) = length_after(words, 0)?;
    let finds = if has(plain, &["water", "wet"]) {
        BoreFinds::Water
    } else if has(plain, SOFT) || has(plain, &["void", "hollow", "rotten", "cavity", "nothing"]) {
        BoreFinds::SoftOrVoid
    } else if has(plain, &["solid", "clean", "firm", "good", "sound", "hard"]) {
        BoreFinds::Solid
    } else {
        return None;
    };
    (depth_mm > 0.0).then(|| Read::new(Reading::Bore { depth_mm, finds }, length_doubt))
}

/// `drew a screw and it is wasted`.
fn drawn(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let at = find(plain, &["drew", "drawn", "draw", "pulled", "drawing"])?;
    const THINGS: &[&str] = &[
        "screw",
        "screws",
        "bolt",
        "bolts",
        "keelbolt",
        "nail",
        "nails",
        "rivet",
        "rivets",
        "treenail",
        "trunnel",
        "spike",
        "fastening",
        "fastenings",
    ];
    let thing = find(plain, THINGS)?;
    let before =
        thing.checked_sub(1).filter(|&n| n > at && !matches!(plain[n], "a" | "the" | "one" | "two" | "this" | "that"));
    let fastening = written(&words[before.unwrap_or(thing)..=thing]);
    let condition = if plain
        .windows(2)
        .any(|pair| matches!(pair, ["without", "bite"] | ["just", "spins"] | ["just", "turns"]))
        || has(plain, &["spins"])
    {
        DrawnCondition::TurnsWithoutBite
    } else if has(plain, &["wouldn't", "stuck"]) || (plain[at] == "draw" && has(plain, NOT)) {
        DrawnCondition::WouldNotDraw
    } else if has(plain, &["broken", "broke", "snapped", "sheared"]) {
        DrawnCondition::Broken
    } else if has(plain, &["wasted", "thin", "thinned", "necked", "corroded", "eaten", "pink", "dezincified", "worn"]) {
        DrawnCondition::Wasted
    } else if has(plain, &["good", "bright", "new", "perfect", "clean", "sound"]) {
        DrawnCondition::Good
    } else {
        return None;
    };
    Some(Read::new(Reading::Draw { fastening, condition, original_mm: None, measured_mm: None, picked: None }, None))
}

/// `lifted the sole board and found it wet`.
fn opened(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let at = plain.windows(2).position(|pair| {
        matches!(pair, ["lifted" | "removed" | "opened" | "unscrewed", "the" | "a" | "one" | "two" | "up"])
            || pair == ["took", "up"]
    })?;
    let join = (at + 2..plain.len()).find(|&n| plain[n] == "and" || plain[n] == "found")?;
    let (opened, found) = (written(&words[at + 1..join]), written(&words[join + 1..]));
    let opened = opened.trim_start_matches("up ").to_owned();
    if opened.is_empty() || found.is_empty() {
        return None;
    }
    Some(Read::new(
        Reading::OpenUp { opened, found },
        Some("what was opened and what was found are parted at one word; look at both"),
    ))
}

/// What may be measured, as said, and how it is called in the record.
const QUANTITIES: &[(&str, &str)] = &[
    ("thick", "thickness"),
    ("thickness", "thickness"),
    ("gap", "gap"),
    ("open", "seam gap"),
    ("gapes", "seam gap"),
    ("wide", "width"),
    ("width", "width"),
    ("long", "length"),
    ("diameter", "diameter"),
    ("proud", "stands proud"),
    ("sagged", "sag"),
    ("hogged", "hog"),
    ("hog", "hog"),
    ("sag", "sag"),
    ("feeler", "gap"),
    ("apart", "spacing"),
];

/// `an inch and a quarter thick`, `the gap is three sixteenths`.
fn measure(words: &[SaidWord], plain: &[&str]) -> Option<Read> {
    let &(_, quantity) = QUANTITIES.iter().find(|(said, _)| plain.contains(said))?;
    if has(plain, POINTS) || has(plain, &["bored", "drilled"]) {
        return None;
    }
    let (value, written, doubt, at) = length_after(words, 0)?;
    // A length that places (`four feet from the stem`) measures nothing.
    let length = length_at(words, at)?;
    let placing = plain
        .get(at + length.words)
        .is_some_and(|word| matches!(*word, "from" | "above" | "below" | "abaft" | "aft" | "up"));
    if placing {
        return None;
    }
    let reading =
        Reading::Measure { quantity: quantity.to_owned(), value, unit: "mm".to_owned(), as_written: Some(written) };
    Some(Read::new(reading, doubt))
}

fn sight(plain: &[&str]) -> Option<Read> {
    let at = find(plain, SEEN)?;
    let doubt = negated(plain, at).then_some("said with a negation; read it as it stands");
    Some(Read::new(Reading::Sight { signs: signs(plain) }, doubt))
}
