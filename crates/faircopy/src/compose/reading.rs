//! What a reading says in a report: observation in the past tense, with its units; hearsay with its speaker.

use super::wording::{Wording, day, ended, figure, sentence_case};
use crate::Said;
use survey::payload::Observation;
use survey::{DrawnCondition, Knife, Reading, SoundAnswer};

/// Writes an observation as it is printed.
pub(super) fn said(observation: &Observation, wording: &Wording) -> Said {
    let seen = observation.seen_on.map(|on| format!("Seen on {}.", day(on)));
    let note = [sentence_case(&ended(&observation.note)), seen.unwrap_or_default()];
    let note = note.iter().filter(|part| !part.is_empty()).cloned().collect::<Vec<_>>().join(" ");
    let with_note = |words: String| match (words.is_empty(), note.is_empty()) {
        (false, false) => format!("{} {note}", ended(&words)),
        (true, _) => note.clone(),
        (false, true) => ended(&words),
    };
    match &observation.reading {
        Reading::Ask { who, said } => {
            let words = if note.is_empty() { said.clone() } else { format!("{} {note}", ended(said)) };
            Said::hearsay(sentence_case(who), words)
        }
        reading => Said::fact(with_note(words(reading, wording))),
    }
}

fn words(reading: &Reading, wording: &Wording) -> String {
    match reading {
        Reading::Sight { signs } => {
            sentence_case(&signs.iter().map(|sign| sign.replace('_', " ")).collect::<Vec<_>>().join("; "))
        }
        Reading::Sound { answer, blows } => {
            let heard = match answer {
                SoundAnswer::Rings => "Rang under the hammer",
                SoundAnswer::DullOrHollow => "Sounded dull or hollow under the hammer",
                SoundAnswer::Chatters => "Chattered under the hammer",
                SoundAnswer::CannotBeTold => "What the hammer said could not be told",
            };
            match blows {
                Some(1) => format!("{heard} (1 blow)"),
                Some(n) => format!("{heard} ({n} blows)"),
                None => heard.to_owned(),
            }
        }
        Reading::Probe { knife, depth_mm, moves_under_pry } => {
            let mut parts: Vec<String> = Vec::new();
            parts.extend(knife.map(|k| {
                match k {
                    Knife::Firm => "firm under the knife",
                    Knife::Soft => "soft under the knife",
                    Knife::SliverBreaksShort => "a sliver broke short under the knife",
                }
                .to_owned()
            }));
            parts.extend(depth_mm.map(|mm| format!("the point went in {}", wording.length(mm))));
            parts.extend(
                moves_under_pry
                    .map(|moves| if moves { "moved when pried" } else { "did not move when pried" }.to_owned()),
            );
            sentence_case(&parts.join("; "))
        }
        Reading::Moisture { reading_percent, depth_mm, temp_c, species_setting, .. } => {
            let mut out = format!("The meter showed {} %", figure(*reading_percent));
            if let Some(mm) = depth_mm {
                out += &format!(" at {} deep", wording.length(*mm));
            }
            if let Some(t) = temp_c {
                out += &format!(", wood at {} °C", figure(*t));
            }
            if let Some(species) = species_setting {
                out += &format!(", meter set to {species}");
            }
            out + ", not corrected"
        }
        Reading::Measure { quantity, value, unit, as_written } => {
            let shown = match unit.as_str() {
                "mm" => wording.length(*value),
                "m" => wording.length(*value * 1000.0),
                "kg" => wording.mass(*value),
                "deg" => format!("{}°", figure(*value)),
                unit => format!("{} {unit}", figure(*value)),
            };
            let written = as_written.as_ref().filter(|w| !shown.contains(w.trim()));
            let written = written.map(|w| format!(", written down as {w}")).unwrap_or_default();
            format!("{} {shown}{written}", sentence_case(quantity))
        }
        Reading::Bore { depth_mm, finds } => format!("Bored {}: {finds}", wording.length(*depth_mm)),
        Reading::Draw { fastening, condition, original_mm, measured_mm, .. } => {
            let fastening = sentence_case(fastening);
            let mut out = if *condition == DrawnCondition::WouldNotDraw {
                format!("{fastening} would not draw")
            } else {
                format!("{fastening} drawn: {condition}")
            };
            out += &match (measured_mm, original_mm) {
                (Some(m), Some(o)) => format!(", {} left of {}", wording.length(*m), wording.length(*o)),
                (Some(m), None) => format!(", {} at the least", wording.length(*m)),
                (None, Some(o)) => format!(", {} as new", wording.length(*o)),
                (None, None) => String::new(),
            };
            out
        }
        Reading::OpenUp { opened, found } => format!("{} opened: {found}", sentence_case(opened)),
        Reading::StressWave { time_us, distance_mm } => {
            format!("A blow took {} µs over {}", figure(*time_us), wording.length(*distance_mm))
        }
        Reading::Ask { who, said } => format!("{who}: {said}"),
    }
}
