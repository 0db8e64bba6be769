//! Numbers in words, words in numbers, and the one sentence that sums up a place.

use crate::{PlankState, Weighing};

/// Returns a ratio in decibans: ten times its common logarithm.
///
/// One ban is a factor of ten (I. J. Good on A. M. Turing's unit). `p = 0.9` stands at odds of 9, that is 9.542 dB.
///
/// ```
/// assert!((evidence::decibans(9.0) - 9.542).abs() < 5e-4);
/// ```
pub fn decibans(ratio: f64) -> f64 {
    10.0 * libm::log10(ratio)
}

/// Returns a probability in words: the likelihood scale of the IPCC Fourth Assessment Report, Working Group II, front
/// matter F.
pub fn verbal(p: f64) -> &'static str {
    match p {
        p if p > 0.99 => "virtually certain",
        p if p > 0.90 => "very likely",
        p if p > 0.66 => "likely",
        p if p >= 0.33 => "about as likely as not",
        p if p >= 0.10 => "unlikely",
        p if p >= 0.01 => "very unlikely",
        _ => "exceptionally unlikely",
    }
}

/// Returns the sentence that sums up a weighing.
pub(crate) fn statement(weighing: &Weighing) -> String {
    if weighing.weights.is_empty() {
        return "Nothing was observed here: these are the starting odds from what is known of the boat, not a finding."
            .to_owned();
    }
    let first = weighing.leading;
    let p = weighing.plank[first as usize];
    let mut text = if first == PlankState::Sound && rings(weighing) {
        "Rings like the places taken as sound, and no reading here speaks for trouble; sounding does not show what lies under the face.".to_owned()
    } else if first == PlankState::Sound {
        "No reading here outweighs the expectation that the place is sound; that is an absence of signs, not a proof."
            .to_owned()
    } else {
        format!("The readings point to {} before anything else: {}.", first.words(), verbal(p))
    };
    if weighing.close
        && let Some(rival) = weighing.rivals.first()
    {
        text.push_str(&format!(" It is close: {} could as well be so.", rival.state.words()));
    }
    if weighing.weights.iter().all(|weight| weight.observation.hearsay) {
        text.push_str(" It rests only on what was said, at a reduced weight.");
    }
    if !weighing.contradictions.is_empty() {
        text.push_str(" Readings contradict each other: take them again before relying on this.");
    }
    text
}

fn rings(weighing: &Weighing) -> bool {
    weighing.weights.iter().any(|w| w.observation.group == "hammer" && w.observation.reading == "not_dull_or_hollow")
}
