//! From passages to drafts: observations, not-seen entries and questions, each with its words, its time and its doubts.
//!
//! Nothing here is entered. A draft is shown to a person, who says yes, changes it or throws it away. No finding is drafted:
//! what sounds like a conclusion becomes a question.

mod readings;
mod signs;
mod wording;

use crate::passage::{Passage, clauses, span};
use crate::said::{SaidWord, place};
use readings::Read;
use serde::Serialize;
use std::ops::Range;
use survey::payload::{NotSeen, Observation, Payload};
use survey::{Place, Reading, SoundAnswer};

/// A blow found in the recording, with what it was judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blow {
    /// When it falls, in seconds.
    pub time_s: f64,
    /// How the wood answered, as judged from the recording.
    pub judgement: SoundAnswer,
}

/// What is drafted.
#[derive(Clone, Debug, PartialEq)]
pub enum Drafted {
    /// A reading by a method.
    Reading(Reading),
    /// A member, or part of one, that was not seen.
    NotSeen {
        /// Why, in the words said.
        why: String,
    },
    /// Something that sounds like a conclusion, put as a question.
    Question(String),
}

/// A draft for a person's yes or no.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// When its words start, in seconds.
    pub start_s: f64,
    /// When they end.
    pub end_s: f64,
    /// The member, by its name in the record; none when nothing tells.
    pub member: Option<String>,
    /// The place.
    pub place: Place,
    /// What is drafted.
    pub drafted: Drafted,
    /// The words as understood, after mending.
    pub words: String,
    /// The words heard, counted from 0 in the whole text.
    pub heard: Range<usize>,
    /// The blows it rests on, by their time in seconds.
    pub blows_s: Vec<f64>,
    /// What is doubtful about it, in sentences without a stop.
    pub doubts: Vec<String>,
}

/// Blows that belong to no passage.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Unplaced {
    /// Their times, in seconds.
    pub blows_s: Vec<f64>,
}

impl Draft {
    /// Returns the draft as it would be entered; nothing for a question, or when no member is known.
    pub fn payload(&self) -> Option<Payload> {
        let member = self.member.clone()?;
        Some(match &self.drafted {
            Drafted::Reading(reading) => {
                let mut observation = Observation::new(member, self.place.clone(), reading.clone());
                observation.note.clone_from(&self.words);
                observation.into()
            }
            Drafted::NotSeen { why } => {
                NotSeen { member, place: self.place.clone(), why: why.clone(), needs: String::new() }.into()
            }
            Drafted::Question(_) => return None,
        })
    }
}

/// A blow is taken with words that start at most so long after it: people tap, then name. Our own choice.
const NAMED_AFTER_S: f64 = 4.0;

/// A blow is taken with words that ended at most so long before it. Our own choice.
const NAMED_BEFORE_S: f64 = 15.0;

/// Drafts every passage. The blows that no passage is near to are returned beside the drafts.
pub fn draft(words: &[SaidWord], passages: &[Passage], blows: &[Blow]) -> (Vec<Draft>, Unplaced) {
    let mut of_passage: Vec<Vec<Blow>> = vec![Vec::new(); passages.len()];
    let mut unplaced = Unplaced::default();
    let mut sorted: Vec<Blow> = blows.iter().copied().filter(|blow| blow.time_s.is_finite()).collect();
    sorted.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    for blow in sorted {
        match passage_of(blow.time_s, passages) {
            Some(n) => of_passage[n].push(blow),
            None => unplaced.blows_s.push(blow.time_s),
        }
    }
    let mut drafts = Vec::new();
    let mut side = None;
    for (passage, blows) in passages.iter().zip(&of_passage) {
        one(words, passage, blows, &mut side, &mut drafts);
    }
    drafts.sort_by(|a, b| a.start_s.total_cmp(&b.start_s));
    (drafts, unplaced)
}

/// Returns the passage a blow belongs to: the one it falls into; else the last that ended shortly before; else the next.
fn passage_of(time_s: f64, passages: &[Passage]) -> Option<usize> {
    let within = passages.iter().rposition(|p| p.start_s <= time_s + 0.3 && time_s <= p.end_s);
    let before = || passages.iter().rposition(|p| p.end_s <= time_s && time_s - p.end_s <= NAMED_BEFORE_S);
    let after = || passages.iter().position(|p| p.start_s >= time_s && p.start_s - time_s <= NAMED_AFTER_S);
    within.or_else(before).or_else(after)
}

type LastSide = Option<(survey::Side, f64)>;

fn one(words: &[SaidWord], passage: &Passage, blows: &[Blow], last_side: &mut LastSide, drafts: &mut Vec<Draft>) {
    let run = &words[passage.words.clone()];
    let mut whole = place(run);
    let mut doubts = passage.doubts.clone();
    match (whole.place.side, *last_side) {
        (Some(side), _) => *last_side = Some((side, passage.start_s)),
        (None, Some((side, at_s))) if each_side(passage) => {
            whole.place.side = Some(side);
            doubts.push(format!("the side is not said; {side} was said at {at_s:.0} s"));
        }
        _ => {}
    }
    if run.iter().any(|word| word.mended.is_some()) {
        doubts.push("words were mended; compare with what was heard".to_owned());
    }
    let first = drafts.len();
    let mut struck = false;
    for clause in clauses(run) {
        let clause_words = &run[clause.clone()];
        for Read { drafted, doubt } in readings::read(clause_words) {
            let mut own_doubts = doubts.clone();
            own_doubts.extend(doubt);
            let own = place(clause_words);
            let mut at = if has_place(&own.place) { own.place.clone() } else { whole.place.clone() };
            at.side = at.side.or(whole.place.side);
            own_doubts.extend(if has_place(&own.place) { own.doubts } else { whole.doubts.clone() });
            let is_sound = matches!(drafted, Drafted::Reading(Reading::Sound { .. }));
            let mut one = make(words, passage, at, drafted, shifted(&clause, passage), own_doubts);
            if is_sound && !struck {
                struck = true;
                with_blows(&mut one, blows);
            }
            drafts.push(one);
        }
    }
    if !struck && !blows.is_empty() {
        let answer = majority(blows);
        let reading = Reading::Sound { answer, blows: u32::try_from(blows.len()).ok() };
        let mut own_doubts = doubts.clone();
        own_doubts.extend(whole.doubts.clone());
        own_doubts.push("the answer is judged from the recording alone; nothing was said of it".to_owned());
        let mut one =
            make(words, passage, whole.place.clone(), Drafted::Reading(reading), passage.words.clone(), own_doubts);
        one.blows_s = blows.iter().map(|blow| blow.time_s).collect();
        drafts.push(one);
    }
    for draft in &mut drafts[first..] {
        // Doubts of the place and of the passage may say the same.
        let mut seen = std::collections::BTreeSet::new();
        draft.doubts.retain(|doubt| seen.insert(doubt.clone()));
    }
}

fn shifted(clause: &Range<usize>, passage: &Passage) -> Range<usize> {
    clause.start + passage.words.start..clause.end + passage.words.start
}

fn each_side(passage: &Passage) -> bool {
    let member = passage.member.as_deref().and_then(survey::catalogue_member);
    member.is_some_and(|member| member.each_side)
}

fn has_place(place: &Place) -> bool {
    let only_side = Place { side: place.side, ..Place::default() };
    *place != only_side
}

fn make(
    words: &[SaidWord],
    passage: &Passage,
    place: Place,
    drafted: Drafted,
    range: Range<usize>,
    doubts: Vec<String>,
) -> Draft {
    let (start_s, end_s) = span(words, &range);
    let written: Vec<&str> = words[range.clone()].iter().map(|word| word.written.as_str()).collect();
    let run = &words[range];
    let heard = run.first().map_or(0, |word| word.heard.start)..run.last().map_or(0, |word| word.heard.end);
    // A place that cannot be (a slip of the tongue, or of the recogniser) stays in words.
    let mut doubts = doubts;
    let place = match place.fault() {
        None => place,
        Some(fault) => {
            doubts.push(fault);
            Place { side: place.side, words: Some(written.join(" ")), ..Place::default() }
        }
    };
    Draft {
        start_s,
        end_s,
        member: passage.member.clone(),
        place,
        drafted,
        words: written.join(" "),
        heard,
        blows_s: Vec::new(),
        doubts,
    }
}

/// Puts the passage's blows to the surveyor's own word. The word stands; a different judgement is a doubt.
fn with_blows(draft: &mut Draft, struck: &[Blow]) {
    let Drafted::Reading(Reading::Sound { answer, blows }) = &mut draft.drafted else { return };
    if struck.is_empty() {
        return;
    }
    *blows = u32::try_from(struck.len()).ok();
    draft.blows_s = struck.iter().map(|blow| blow.time_s).collect();
    let judged = majority(struck);
    if judged != *answer && judged != SoundAnswer::CannotBeTold {
        draft.doubts.push(format!("the surveyor says `{answer}`; the recording is judged `{judged}`"));
    }
}

/// Returns the judgement of most blows; `cannot be told` when no judgement has more than half.
fn majority(blows: &[Blow]) -> SoundAnswer {
    let count = |answer: &SoundAnswer| blows.iter().filter(|blow| blow.judgement == *answer).count();
    SoundAnswer::ALL.iter().copied().find(|answer| count(answer) * 2 > blows.len()).unwrap_or(SoundAnswer::CannotBeTold)
}
