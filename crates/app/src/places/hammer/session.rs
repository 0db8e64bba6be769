//! What is being struck: the microphone, the blows so far, and the recording they are kept with.

use super::microphone::Microphone;
use crate::book::{Book, Workbench, new_id, sentence};
use crate::hearing::traces::{beside, cut, traces};
use crate::hearing::verdict::{REFERENCE, References, answer, at_a_glance, of_place};
use crate::hearing::wave::wave;
use drawing::blow::BlowTraces;
use leptos::prelude::*;
use sounding::{Blow, Listener, RATE_HZ};
use survey::payload::{Attachment, Observation, Payload};
use survey::{Place, Reading, SoundAnswer};
use web_sys::{Blob, BlobPropertyBag};

/// A recording stops by itself after so long: as samples it would fill a telephone's memory.
const LONGEST_S: f64 = 300.0;

/// The microphone's standing.
#[derive(Clone, Debug, PartialEq)]
pub enum Ear {
    /// Off.
    Off,
    /// The browser asks the person.
    Asking,
    /// On.
    Listening {
        /// Whether the blows are reference blows.
        reference: bool,
    },
    /// Not to be had, and why.
    Refused(String),
}

/// A blow heard since the microphone was opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Struck {
    /// The blow.
    pub blow: Blow,
    /// How it answered; a reference blow is not judged.
    pub answer: Option<SoundAnswer>,
    /// The judgement in words.
    pub words: String,
    /// What to be careful of.
    pub cautions: Vec<String>,
    /// What is drawn of it.
    pub traces: BlowTraces,
}

/// What is heard while the microphone is on.
#[derive(Default)]
struct Hearing {
    listener: Listener,
    samples: Vec<f32>,
    microphone: Option<Microphone>,
}

/// One session at the hammer.
#[derive(Clone, Copy)]
pub struct Session {
    book: Book,
    bench: Workbench,
    /// The member that is struck.
    pub member: RwSignal<String>,
    /// The microphone's standing.
    pub ear: RwSignal<Ear>,
    /// The blows so far.
    pub blows: RwSignal<Vec<Struck>>,
    /// Whether they are reference blows.
    pub of_references: RwSignal<bool>,
    /// How long it has been listened.
    pub seconds: RwSignal<f64>,
    /// What to be careful of.
    pub cautions: RwSignal<Vec<String>>,
    references: RwSignal<References>,
    reference_traces: StoredValue<Vec<(String, BlowTraces)>>,
    hearing: StoredValue<Hearing, LocalStorage>,
}

impl Session {
    /// Returns a session with nothing struck.
    pub fn new(book: Book, bench: Workbench) -> Self {
        Self {
            book,
            bench,
            member: RwSignal::new(String::new()),
            ear: RwSignal::new(Ear::Off),
            blows: RwSignal::new(Vec::new()),
            of_references: RwSignal::new(false),
            seconds: RwSignal::new(0.0),
            cautions: RwSignal::new(Vec::new()),
            references: RwSignal::new(References::default()),
            reference_traces: StoredValue::new(Vec::new()),
            hearing: StoredValue::new_local(Hearing::default()),
        }
    }

    /// Takes the reference blows that the record holds.
    pub fn take_references(self, references: References, cuts: Vec<Vec<f64>>, missing: Vec<String>) {
        // The page may have been left meanwhile.
        let drawn = references.0.iter().zip(&cuts).map(|((member, _), cut)| (member.clone(), traces(cut))).collect();
        self.reference_traces.try_set_value(drawn);
        self.cautions.try_update(|all| all.extend(missing));
        self.references.try_set(references);
    }

    /// Says what can be judged on the member with the references there are.
    pub fn enough(self) -> String {
        self.member.with(|member| self.references.with(|references| references.enough_for(member)))
    }

    /// Asks for the microphone and listens.
    pub fn listen(self, reference: bool) {
        if !self.blows.with_untracked(Vec::is_empty) && self.of_references.get_untracked() != reference {
            self.bench.complain("Keep or throw away what was struck first.");
            return;
        }
        self.ear.set(Ear::Asking);
        self.of_references.set(reference);
        leptos::task::spawn_local(async move {
            let heard = move |samples: &[f32]| self.hear(samples);
            let opened = Microphone::open(heard, move || self.stop_soon()).await;
            match opened {
                Ok(microphone) => {
                    let kept = self.hearing.try_update_value(|hearing| hearing.microphone = Some(microphone));
                    // Dropped with the page, the microphone goes off.
                    if kept.is_some() {
                        self.ear.try_set(Ear::Listening { reference });
                    }
                }
                Err(why) => {
                    self.ear.try_set(Ear::Refused(why));
                }
            }
        });
    }

    fn hear(self, samples: &[f32]) {
        let Some((blows, seconds)) = self.hearing.try_update_value(|hearing| {
            hearing.samples.extend(samples);
            (hearing.listener.push(samples), hearing.samples.len() as f64 / f64::from(RATE_HZ))
        }) else {
            return;
        };
        if seconds.floor() > self.seconds.get_untracked() {
            self.seconds.set(seconds.floor());
        }
        for blow in blows {
            self.strike(blow);
        }
        if seconds > LONGEST_S && matches!(self.ear.get_untracked(), Ear::Listening { .. }) {
            self.stop_soon();
            self.bench.say("Five minutes are recorded; keep them, then listen on.");
        }
    }

    fn strike(self, blow: Blow) {
        let member = self.member.get_untracked();
        let own = self.hearing.with_value(|hearing| traces(&cut(&hearing.samples, blow.time_s)));
        let struck = if self.of_references.get_untracked() {
            let words = if blow.is_clean() { "reference" } else { "reference, left out: not clean" };
            Struck { answer: None, words: words.to_owned(), cautions: Vec::new(), traces: own, blow }
        } else {
            let judgement = self.references.with_untracked(|references| references.judge().judge(&member, &blow));
            let drawn = self.reference_traces.with_value(|all| {
                let of_kind: Vec<BlowTraces> =
                    all.iter().filter(|(of, _)| *of == member).map(|(_, t)| t.clone()).collect();
                let of_boat = || all.iter().map(|(_, t)| t.clone()).collect();
                beside(own, &if of_kind.is_empty() { of_boat() } else { of_kind })
            });
            let answer = Some(answer(&judgement));
            Struck { answer, words: judgement.words, cautions: judgement.cautions, traces: drawn, blow }
        };
        self.blows.update(|all| all.push(struck));
    }

    /// Turns the microphone off from within what it calls, which must have returned before it is let go.
    fn stop_soon(self) {
        set_timeout(move || self.stop(), std::time::Duration::ZERO);
    }

    /// Turns the microphone off; what was struck stays.
    pub fn stop(self) {
        let rest = self.hearing.try_update_value(|hearing| {
            hearing.microphone = None;
            std::mem::take(&mut hearing.listener).finish()
        });
        for blow in rest.unwrap_or_default() {
            self.strike(blow);
        }
        self.ear.try_set(Ear::Off);
    }

    /// Turns the microphone off when the page is left.
    pub fn close(self) {
        self.hearing.try_update_value(|hearing| hearing.microphone = None);
    }

    /// Throws away what was struck.
    pub fn forget(self) {
        self.hearing.update_value(|hearing| *hearing = Hearing::default());
        self.blows.set(Vec::new());
        self.seconds.set(0.0);
    }

    /// Returns the last blow's verdict, for a glance.
    pub fn last_words(self) -> String {
        self.blows.with(|all| match all.last() {
            None => String::new(),
            Some(Struck { answer: Some(answer), .. }) => at_a_glance(*answer).to_owned(),
            Some(_) => format!("{} struck", all.len()),
        })
    }

    /// Returns the answer that the blows together come to.
    pub fn proposed(self) -> SoundAnswer {
        if self.of_references.get() {
            return SoundAnswer::Rings;
        }
        self.blows.with(|all| {
            let blows: Vec<Blow> = all.iter().map(|struck| struck.blow.clone()).collect();
            self.references.with(|references| self.member.with(|member| of_place(&references.judge(), member, &blows)))
        })
    }

    /// Keeps what was struck: an observation with its recording.
    ///
    /// # Errors
    /// One sentence when it cannot be kept.
    pub async fn keep(self, place: Place, answer: SoundAnswer, note: String) -> Result<(), String> {
        let reference = self.of_references.get_untracked();
        let member = self.member.get_untracked();
        let struck = self.blows.get_untracked();
        let samples = self.hearing.with_value(|hearing| hearing.samples.clone());
        let told = told(&struck);
        let caption = if reference { REFERENCE.to_owned() } else { format!("Hammer blows: {told}") };
        let reading = Reading::Sound { answer, blows: u32::try_from(struck.len()).ok() };
        let mut observation = Observation::new(member.clone(), place, reading);
        let made = if reference { REFERENCE.to_owned() } else { told };
        observation.note =
            if note.trim().is_empty() { sentence(&made) } else { format!("{} {}", note.trim(), sentence(&made)) };
        let settings = BlobPropertyBag::new();
        settings.set_type("audio/wav");
        let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(wave(&samples, RATE_HZ).as_slice()));
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &settings)
            .map_err(|_| "The recording could not be kept; nothing was recorded.".to_owned())?;
        let (sha256, bytes) =
            self.bench.keep().put_attachment(self.book.survey, &blob).await.map_err(|fault| fault.to_string())?;
        let id = new_id();
        let recording = Attachment {
            sha256,
            bytes,
            media_type: "audio/wav".to_owned(),
            file_name: format!("{member}-blows.wav"),
            caption,
            alternative: String::new(),
            of: Some(id),
            taken: None,
            position_deg: None,
        };
        let named = vec![(id, Payload::from(observation)), (new_id(), recording.into())];
        self.book.write_named(named, "Kept with its recording.").await?;
        if reference {
            self.references.update(|all| all.0.extend(struck.iter().map(|one| (member.clone(), one.blow.clone()))));
            self.reference_traces
                .update_value(|all| all.extend(struck.iter().map(|one| (member.clone(), one.traces.clone()))));
        }
        self.forget();
        Ok(())
    }
}

/// Returns how many blows answered how, in words.
fn told(struck: &[Struck]) -> String {
    let parts: Vec<String> = SoundAnswer::ALL
        .iter()
        .filter_map(|answer| {
            let n = struck.iter().filter(|one| one.answer == Some(*answer)).count();
            (n > 0).then(|| format!("{n} {}", at_a_glance(*answer)))
        })
        .collect();
    format!("judged by the recording: {}", parts.join(", "))
}
