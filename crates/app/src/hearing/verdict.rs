//! From judgements of blows to the answer an observation gives.

use sounding::Blow;
use sounding::judge::{Judge, Judgement};
use survey::SoundAnswer;

/// How sure a judgement must be before it is an answer. Our own choice, the same as the words of the judgement.
const SURE: f64 = 0.6;

/// What a recording of reference blows is called in the record, so that it is found again.
pub const REFERENCE: &str = "Reference blows on sound wood";

/// Returns the answer that a judgement comes to: rings, dull, or that it cannot be told.
pub fn answer(judgement: &Judgement) -> SoundAnswer {
    match judgement.probabilities {
        Some(p) if p.solid >= SURE => SoundAnswer::Rings,
        Some(p) if p.dull + p.dead >= SURE => SoundAnswer::DullOrHollow,
        _ => SoundAnswer::CannotBeTold,
    }
}

/// Returns a blow's verdict in one or two words, for a glance with the hammer in the hand.
pub fn at_a_glance(answer: SoundAnswer) -> &'static str {
    match answer {
        SoundAnswer::Rings => "ring",
        SoundAnswer::DullOrHollow => "dull",
        SoundAnswer::Chatters => "chatters",
        SoundAnswer::CannotBeTold => "not told",
    }
}

/// Blows struck on wood of this boat that the surveyor calls sound, with the kind of member each was struck on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct References(pub Vec<(String, Blow)>);

impl References {
    /// Returns the judge that these references make.
    pub fn judge(&self) -> Judge {
        Judge::new(self.0.iter().map(|(member, blow)| (member.as_str(), blow)))
    }

    /// Says in a sentence what can be judged on a member with them.
    pub fn enough_for(&self, member: &str) -> String {
        use sounding::judge::{NEEDED_OF_BOAT, NEEDED_OF_KIND};
        let clean = self.0.iter().filter(|(_, blow)| blow.is_clean());
        let (kind, boat) = clean.fold((0, 0), |(kind, boat), (of, _)| (kind + usize::from(of == member), boat + 1));
        if kind >= NEEDED_OF_KIND {
            format!("Judged against {kind} clean reference blows on this member of this boat ({boat} on the boat).")
        } else if boat >= NEEDED_OF_BOAT {
            format!(
                "Judged against {boat} clean reference blows on other members of this boat: less sure, since thickness and span change a note as much as a defect does."
            )
        } else {
            format!(
                "{boat} clean reference blows on this boat, {kind} of them on this member: too few to judge by. Strike at least {NEEDED_OF_KIND} on this member, or {NEEDED_OF_BOAT} in all, where you know her sound."
            )
        }
    }
}

/// Returns the answer of a place where several blows were struck.
pub fn of_place(judge: &Judge, member: &str, blows: &[Blow]) -> SoundAnswer {
    let all: Vec<&Blow> = blows.iter().collect();
    answer(&judge.judge_group(member, &all))
}
