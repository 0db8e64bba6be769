//! The sound of a talk-through: read by the browser's own decoder, listened to for blows a piece at a time.

use crate::book::{Book, Workbench};
use crate::hearing::verdict::{REFERENCE, References};
use js_sys::{ArrayBuffer, Promise};
use leptos::prelude::*;
use sounding::{Blow, Listener, RATE_HZ, session};
use survey::payload::Payload;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;
use web_sys::{AudioBuffer, Blob, OfflineAudioContext};

/// The page answers again after so many seconds of sound.
const PIECE_S: usize = 5;

/// What was heard in a recording.
pub struct Heard {
    /// Its samples at the engine's rate, all channels together.
    pub samples: Vec<f32>,
    /// The blows in it.
    pub blows: Vec<Blow>,
    /// What to be careful of.
    pub cautions: Vec<String>,
}

/// Returns the samples of a recording at the engine's rate, all channels together.
///
/// # Errors
/// One sentence when this browser cannot read it.
pub async fn samples(blob: &Blob) -> Result<Vec<f32>, String> {
    let unreadable =
        || "This browser cannot read the sound of that file; WAV, MP3, M4A and OGG are usually read.".to_owned();
    let bytes: ArrayBuffer =
        JsFuture::from(blob.array_buffer()).await.map_err(|_| unreadable())?.dyn_into().map_err(|_| unreadable())?;
    #[expect(clippy::cast_precision_loss, reason = "48 000 is exact")]
    let reader = OfflineAudioContext::new_with_number_of_channels_and_length_and_sample_rate(1, 1, RATE_HZ as f32)
        .map_err(|_| unreadable())?;
    let decoding = reader.decode_audio_data(&bytes).map_err(|_| unreadable())?;
    let decoded: AudioBuffer =
        JsFuture::from(decoding).await.map_err(|_| unreadable())?.dyn_into().map_err(|_| unreadable())?;
    let mut mixed = decoded.get_channel_data(0).map_err(|_| unreadable())?;
    for channel in 1..decoded.number_of_channels() {
        let other = decoded.get_channel_data(channel).map_err(|_| unreadable())?;
        mixed.iter_mut().zip(other).for_each(|(sum, one)| *sum += one);
    }
    #[expect(clippy::cast_precision_loss, reason = "few channels")]
    let share = 1.0 / decoded.number_of_channels().max(1) as f32;
    mixed.iter_mut().for_each(|sample| *sample *= share);
    Ok(mixed)
}

/// Reads a recording and finds its blows; `progress` is told the share that is done.
///
/// # Errors
/// As [`samples`].
pub async fn listen(blob: &Blob, progress: impl Fn(f64)) -> Result<Heard, String> {
    let samples = samples(blob).await?;
    let mut listener = Listener::new();
    let mut blows = Vec::new();
    let piece = PIECE_S * RATE_HZ as usize;
    for (n, part) in samples.chunks(piece).enumerate() {
        blows.extend(listener.push(part));
        progress((n * piece) as f64 / samples.len() as f64);
        breathe().await;
    }
    blows.extend(listener.finish());
    let cautions = session::cautions(&listener.heard(), &blows);
    Ok(Heard { samples, blows, cautions })
}

/// Lets the page answer.
async fn breathe() {
    let turn = Promise::new(&mut |done, _| {
        // Without a timer the promise would never be kept; then there is no pause.
        let set = window().set_timeout_with_callback(&done);
        if set.is_err() {
            let _ = done.call0(&wasm_bindgen::JsValue::NULL);
        }
    });
    let _ = JsFuture::from(turn).await;
}

/// Returns the reference blows that this boat's record holds, heard again from their recordings, each with the samples it
/// was cut from; and a sentence for each recording that is not on this device or cannot be read.
pub async fn kept_references(book: Book, bench: Workbench) -> (References, Vec<Vec<f64>>, Vec<String>) {
    let recordings = book.state.with_untracked(|state| {
        state
            .attachments()
            .filter(|a| a.payload.caption.starts_with(REFERENCE))
            .filter_map(|a| {
                let record = state.record(a.payload.of?).filter(|record| !record.is_withdrawn())?;
                match record.payload() {
                    Payload::Observation(seen) => Some((seen.member.clone(), a.payload.sha256)),
                    _ => None,
                }
            })
            .collect::<Vec<_>>()
    });
    let (mut references, mut cuts, mut missing) = (References::default(), Vec::new(), Vec::new());
    for (member, sha256) in recordings {
        let heard = match crate::exchange::fetch_attachment(&bench.keep(), sha256).await {
            Ok(blob) => listen(&blob, |_| {}).await,
            Err(fault) => Err(fault.to_string()),
        };
        match heard {
            Ok(heard) => {
                for blow in heard.blows {
                    cuts.push(crate::hearing::traces::cut(&heard.samples, blow.time_s));
                    references.0.push((member.clone(), blow));
                }
            }
            Err(why) => missing.push(format!("A recording of reference blows could not be heard again: {why}")),
        }
    }
    (references, cuts, missing)
}
