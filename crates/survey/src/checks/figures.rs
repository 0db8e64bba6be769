//! No figure without its unit, and no sample without its size.

use super::written::{cut, own_words, words_of};
use super::{Asked, Found, Rule, Weight};
use crate::payload::{Finding, Reckoning};
use crate::{EntryId, Reading, State};
use std::collections::BTreeMap;

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "sample-size-stated",
        asks: "Where fastenings were drawn it is said how many, of how many.",
        reason: "Two good bolts of two and two of ninety say different things of the rest.",
        weight: Weight::Blocks,
        check: samples,
    },
    Rule {
        name: "figures-have-units",
        asks: "No figure stands without its unit.",
        reason: "A gap of 3 may be a millimetre's nuisance or a quarter of an inch's leak.",
        weight: Weight::Blocks,
        check: units,
    },
    Rule {
        name: "moisture-says-how",
        asks: "Every moisture reading says with which meter and set to which species.",
        reason: "The same wood shows several percent more or less by meter, setting and temperature.",
        weight: Weight::Advises,
        check: moisture,
    },
];

fn samples(asked: &Asked<'_>) -> Vec<Found> {
    let mut drawn: BTreeMap<&str, Vec<EntryId>> = BTreeMap::new();
    for o in asked.state.observations().filter(|o| matches!(o.payload.reading, Reading::Draw { .. })) {
        drawn.entry(o.payload.member.as_str()).or_default().push(o.id());
    }
    let mut out = Vec::new();
    for (member, draws) in drawn {
        let resting: Vec<_> =
            asked.state.findings().filter(|f| f.payload.basis.iter().any(|id| draws.contains(id))).collect();
        let said = resting.iter().any(|f| says_of_how_many(f.payload))
            || resting.iter().flat_map(|f| &f.payload.basis).any(|id| has_population(asked.state, *id))
            || asked
                .state
                .reckonings()
                .any(|r| r.payload.member.as_deref() == Some(member) && r.payload.inputs.get("population").is_some());
        if !said {
            let words = format!(
                "{}: {} drawn, and it is nowhere said of how many.",
                asked.member(member),
                match draws.len() {
                    1 => "one fastening was".to_owned(),
                    n => format!("{n} fastenings were"),
                }
            );
            out.push(Found::new(words).at(draws[0]).of(member).wants("reckoning"));
        }
    }
    out
}

fn has_population(state: &State, id: EntryId) -> bool {
    state.find::<Reckoning>(id).is_some_and(|r| r.payload.inputs.get("population").is_some())
}

fn says_of_how_many(finding: &Finding) -> bool {
    [&finding.title, &finding.text, &finding.extent].iter().any(|text| is_share(text))
}

const NUMBERS: [&str; 22] = [
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
    "none",
    "all",
];

fn is_number(word: &str) -> bool {
    NUMBERS.contains(&word) || (!word.is_empty() && word.chars().all(|c| c.is_ascii_digit()))
}

/// Tells whether a text says so many of so many: `two of nine`, `of 40 nails 3 were drawn`.
pub(super) fn is_share(text: &str) -> bool {
    const BETWEEN: [&str; 6] = ["the", "her", "all", "some", "about", "these"];
    let words = words_of(text);
    words.iter().enumerate().filter(|(_, word)| *word == "of").any(|(at, _)| {
        let whole = (at + 1..words.len()).find(|i| !BETWEEN.contains(&words[*i].as_str()));
        let Some(whole) = whole.filter(|i| is_number(&words[*i])) else { return false };
        let near = |range: std::ops::Range<usize>| words.get(range).is_some_and(|w| w.iter().any(|w| is_number(w)));
        near(at.saturating_sub(3)..at) || near(whole + 1..(whole + 5).min(words.len()))
    })
}

fn units(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for one in own_words(asked.state) {
        let bare = bare_figures(one.words);
        if let Some(figure) = bare.first() {
            let words = format!("‘{}’: {figure} stands without a unit.", cut(one.words));
            let found = Found::new(words).at(one.entry).field(one.field);
            out.push(match one.member {
                Some(member) => found.of(member),
                None => found,
            });
        }
    }
    for l in asked.state.estimate_lines().filter(|l| l.payload.quantity.is_some() && l.payload.unit.trim().is_empty()) {
        let words = format!("The quantity of ‘{}’ has no unit.", cut(&l.payload.item));
        out.push(Found::new(words).at(l.id()).field("unit"));
    }
    out
}

/// Words that join figures that share a unit.
const JOINING: [&str; 9] = ["to", "and", "or", "by", "x", "×", "of", "in", "against"];
/// Words after which a figure has certainly no unit.
const AFTER: [&str; 34] = [
    "at", "on", "with", "from", "is", "was", "are", "were", "has", "have", "had", "the", "a", "an", "but", "as",
    "when", "where", "which", "that", "than", "only", "under", "over", "near", "after", "before", "there", "here",
    "for", "while", "so", "then", "if",
];
/// Words before which or after which a bare figure is a measure that lacks its unit.
const MEASURED: [&str; 31] = [
    "gap",
    "gaps",
    "depth",
    "width",
    "thickness",
    "length",
    "diameter",
    "height",
    "moisture",
    "reads",
    "read",
    "reading",
    "readings",
    "measured",
    "measures",
    "measure",
    "showed",
    "shows",
    "temperature",
    "spacing",
    "hog",
    "hogged",
    "sag",
    "weighs",
    "weight",
    "deep",
    "wide",
    "thick",
    "long",
    "proud",
    "humidity",
];
/// Words after which a figure is a name: `frame 9`, `version 2`.
const NUMBERED: [&str; 39] = [
    "frame",
    "timber",
    "strake",
    "plank",
    "bolt",
    "floor",
    "beam",
    "station",
    "no",
    "number",
    "nos",
    "page",
    "version",
    "finding",
    "recommendation",
    "observation",
    "picture",
    "reckoning",
    "table",
    "section",
    "figure",
    "tank",
    "seam",
    "knee",
    "chainplate",
    "rib",
    "port",
    "starboard",
    "land",
    "butt",
    "screw",
    "rivet",
    "gauge",
    "type",
    "model",
    "grade",
    "year",
    "s",
    "survey",
];

fn is_article(word: &str) -> bool {
    matches!(word, "the" | "a" | "an" | "her" | "this" | "that" | "both" | "all")
}

/// Returns the figures of a text that are measures and bear no unit. Counts (`six rivets`), places (`frame 9`), dates
/// and years are none; where it cannot be told, a figure passes.
pub(super) fn bare_figures(text: &str) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let core = |word: &str| word.trim_matches(|c: char| "().,;:!?‘’'“”[]".contains(c)).to_lowercase();
    let is_figure = |word: &str| {
        let word = core(word);
        word.starts_with(|c: char| c.is_ascii_digit())
            && word.chars().all(|c| c.is_ascii_digit() || ".,/-–".contains(c))
    };
    let one_of = |list: &[&str], word: &str| {
        let word = core(word);
        let single = word.strip_suffix('s').unwrap_or(&word);
        list.contains(&word.as_str()) || list.contains(&single)
    };
    let mut out = Vec::new();
    for (at, word) in words.iter().enumerate().filter(|(_, word)| is_figure(word)) {
        let figure = core(word);
        let year = figure.len() == 4 && figure.parse::<u32>().is_ok_and(|y| (1500..=2200).contains(&y));
        let date = figure.matches('-').count() == 2;
        let ends = word.ends_with(['.', ';', ':', ')', '!', '?']) || at + 1 == words.len();
        let listed = word.ends_with(',') && words.get(at + 1).is_some_and(|next| is_figure(next));
        let joined = words.get(at + 1).is_some_and(|next| JOINING.contains(&core(next).as_str()))
            && words.get(at + 2).is_some_and(|next| is_figure(next));
        if year || date || (!ends && (listed || joined)) {
            continue;
        }
        let bare = ends
            || word.ends_with(',')
            || words.get(at + 1).is_some_and(|next| match core(next).as_str() {
                // `in` is an inch, unless a place follows.
                "in" => {
                    !next.ends_with([',', '.', ';', ':', ')'])
                        && words.get(at + 2).is_some_and(|w| is_article(&core(w)))
                }
                next => AFTER.contains(&next) || JOINING.contains(&next),
            });
        if !bare {
            continue;
        }
        // Back over a list of figures to the word that says what they are.
        let mut head = at;
        while head > 0 && (is_figure(words[head - 1]) || JOINING[..5].contains(&core(words[head - 1]).as_str())) {
            head -= 1;
        }
        let named = head > 0 && !words[head - 1].ends_with(['.', ';', ':']) && one_of(&NUMBERED, words[head - 1]);
        // `worn 2 mm of 20`: the unit stands with the figure before.
        let shares = at >= 3 && core(words[at - 1]) == "of" && is_figure(words[at - 3]);
        if named || shares {
            continue;
        }
        let broken = figure.contains(['.', '/'])
            || (figure.contains(',') && figure.split(',').any(|p| p.len() != 3 && p.len() > 2));
        let mut measured = false;
        for before in words[at.saturating_sub(4)..at].iter().rev() {
            if before.ends_with(['.', ';']) {
                break;
            }
            measured |= one_of(&MEASURED, before);
        }
        measured |= words.get(at + 1).is_some_and(|next| !ends && one_of(&MEASURED, next));
        if broken || measured {
            out.push(figure);
        }
    }
    out
}

fn moisture(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for o in asked.state.observations() {
        let Reading::Moisture { species_setting, instrument, .. } = &o.payload.reading else { continue };
        let lacks = match (instrument, species_setting) {
            (None, None) => "neither meter nor species setting is named",
            (None, Some(_)) => "the meter is not named",
            (Some(_), None) => "the species setting is not named",
            (Some(_), Some(_)) => continue,
        };
        let words = format!("Moisture reading on {}: {lacks}.", asked.member(&o.payload.member));
        out.push(Found::new(words).at(o.id()).of(&o.payload.member).field("reading"));
    }
    out
}
