//! No word that promises more than a survey can keep.

use super::written::{cut, is_denied, own_words, words_of};
use super::{Asked, Found, Rule, Weight};

pub(super) const RULES: &[Rule] = &[Rule {
    name: "no-absolute-promise",
    asks: "No sentence promises more than a survey can keep.",
    reason: "A survey finds signs at the places that could be reached; a court reads a promise as a promise.",
    weight: Weight::Blocks,
    check: promises,
}];

/// Phrases that promise too much, each with why: a list of our own.
pub(super) const PHRASES: &[(&str, &str)] = &[
    ("guarantee", "a survey gives an opinion, and no survey can guarantee"),
    ("guaranteed", "a survey gives an opinion, and no survey can guarantee"),
    ("guarantees", "a survey gives an opinion, and no survey can guarantee"),
    ("warrant that", "a warranty is for whoever sells, not for whoever looks"),
    ("warranted to", "a warranty is for whoever sells, not for whoever looks"),
    ("perfect", "no wooden boat is; say what was tried and what it showed"),
    ("perfectly", "no wooden boat is; say what was tried and what it showed"),
    ("flawless", "no wooden boat is; say what was tried and what it showed"),
    ("faultless", "no wooden boat is; say what was tried and what it showed"),
    ("free of rot", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("free from rot", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("rot free", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("rot-free", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("free of decay", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("free from decay", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("there is no rot", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("there is no decay", "decay that no sign shows cannot be ruled out; say where none was found"),
    ("free of worm", "borers live inside and show little; say where none was found"),
    ("free from worm", "borers live inside and show little; say where none was found"),
    ("free of borers", "borers live inside and show little; say where none was found"),
    ("free of defects", "faults that could not be seen are not ruled out"),
    ("free from defects", "faults that could not be seen are not ruled out"),
    ("no defects whatsoever", "faults that could not be seen are not ruled out"),
    ("nothing is wrong", "that nothing was found is not that nothing is wrong"),
    ("100 %", "nothing that was sampled is known to the last place"),
    ("100%", "nothing that was sampled is known to the last place"),
    ("100 percent", "nothing that was sampled is known to the last place"),
    ("hundred per cent", "nothing that was sampled is known to the last place"),
    ("hundred percent", "nothing that was sampled is known to the last place"),
    ("will not leak", "every wooden boat may; say what was found tight and when"),
    ("won't leak", "every wooden boat may; say what was found tight and when"),
    ("will never leak", "every wooden boat may; say what was found tight and when"),
    ("cannot leak", "every wooden boat may; say what was found tight and when"),
    ("can not leak", "every wooden boat may; say what was found tight and when"),
    ("will not fail", "nobody knows the load she will meet"),
    ("will never fail", "nobody knows the load she will meet"),
    ("cannot fail", "nobody knows the load she will meet"),
    ("unsinkable", "no boat is"),
    ("completely safe", "safety depends on who sails her, where and when"),
    ("absolutely safe", "safety depends on who sails her, where and when"),
    ("totally safe", "safety depends on who sails her, where and when"),
    ("safe for any", "safety depends on who sails her, where and when"),
    ("fit for any waters", "name the waters she was considered for"),
    ("absolutely", "say how sure, in the words of the scale"),
    ("undoubtedly", "say how sure, in the words of the scale"),
    ("without doubt", "say how sure, in the words of the scale"),
    ("without any doubt", "say how sure, in the words of the scale"),
    ("beyond doubt", "say how sure, in the words of the scale"),
    ("beyond any doubt", "say how sure, in the words of the scale"),
    ("good throughout", "not all of it was reached; say where it was tried"),
    ("sound throughout", "not all of it was reached; say where it was tried"),
    ("completely sound", "not all of it was reached; say where it was tried"),
    ("entirely sound", "not all of it was reached; say where it was tried"),
    ("as good as new", "say what was measured against what it was as new"),
    ("will last", "how long depends on use, water and care; give what was reckoned, with its range"),
    ("last forever", "how long depends on use, water and care"),
    ("last for ever", "how long depends on use, water and care"),
    ("maintenance free", "no timber is"),
    ("maintenance-free", "no timber is"),
    ("permanent cure", "wood and metal go on changing"),
    ("permanently cured", "wood and metal go on changing"),
];

/// Words that stand for an amount, before which `100 %` is a reading and no promise.
const READINGS: [&str; 8] = ["humidity", "relative", "rh", "charge", "charged", "meter", "reads", "shows"];

/// Returns the phrases in a text that promise too much, with why.
pub(super) fn promised(text: &str) -> Vec<(&'static str, &'static str)> {
    let words = words_of(&text.replace('’', "'").replace("100%", "100 %").replace('%', " % "));
    let mut out: Vec<(&'static str, &'static str)> = Vec::new();
    for (phrase, why) in PHRASES {
        let wanted: Vec<String> = words_of(&phrase.replace("100%", "100 %").replace('%', " % "));
        let hit = words.windows(wanted.len()).enumerate().any(|(at, window)| {
            let reading = phrase.starts_with("100")
                && words[at.saturating_sub(4)..at].iter().any(|word| READINGS.contains(&word.as_str()));
            window == wanted.as_slice() && !is_denied(&words, at) && !reading
        });
        if hit && !out.iter().any(|(other, _)| words_of(other) == wanted) {
            out.push((phrase, why));
        }
    }
    out
}

fn promises(asked: &Asked<'_>) -> Vec<Found> {
    let mut out = Vec::new();
    for one in own_words(asked.state) {
        for (phrase, why) in promised(one.words) {
            let found = Found::new(format!("‘{}’ promises too much (‘{phrase}’): {why}.", cut(one.words)))
                .at(one.entry)
                .field(one.field);
            out.push(match one.member {
                Some(member) => found.of(member),
                None => found,
            });
        }
    }
    out
}
