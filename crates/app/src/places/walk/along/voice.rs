//! A spoken note to what was recorded last.

use super::Along;
use crate::book::new_id;
use js_sys::Array;
use leptos::prelude::*;
use survey::EntryId;
use survey::payload::Attachment;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobEvent, BlobPropertyBag, MediaRecorder, MediaStream, MediaStreamConstraints, MediaStreamTrack};

/// Kinds of recording, the first that the browser makes being taken; all are among those that the server takes.
const KINDS: [&str; 3] = ["audio/webm", "audio/mp4", "audio/ogg"];

/// A recording being made; the microphone is let go when this is dropped.
struct Recording {
    recorder: MediaRecorder,
    stream: MediaStream,
    _heard: Closure<dyn FnMut(BlobEvent)>,
    _ended: Closure<dyn FnMut()>,
}

impl Drop for Recording {
    fn drop(&mut self) {
        self.recorder.set_ondataavailable(None);
        self.recorder.set_onstop(None);
        for track in self.stream.get_audio_tracks().iter().filter_map(|track| track.dyn_into::<MediaStreamTrack>().ok())
        {
            track.stop();
        }
    }
}

/// Starts and ends a spoken note.
#[component]
pub fn VoiceNote(along: Along, of: EntryId) -> impl IntoView {
    let Along { bench, .. } = along;
    let recording = StoredValue::new_local(None::<Recording>);
    let on = RwSignal::new(false);
    let turn = move |_| {
        if on.get_untracked() {
            recording.with_value(|recording| {
                // The rest of what was heard comes, and then the end.
                if let Some(recording) = recording {
                    let _ = recording.recorder.stop();
                }
            });
            return;
        }
        leptos::task::spawn_local(async move {
            let kept = move |blob: Blob| {
                on.try_set(false);
                recording.try_set_value(None);
                leptos::task::spawn_local(keep(along, of, blob));
            };
            match begin(kept).await {
                Ok(begun) => {
                    recording.try_set_value(Some(begun));
                    on.try_set(true);
                }
                Err(why) => bench.complain(why),
            }
        });
    };
    view! {
        <button type="button" class:saying=move || on.get() aria-pressed=move || on.get().to_string() on:click=turn>{move || if on.get() { "Said" } else { "Say it" }}</button>
    }
}

async fn begin(kept: impl FnOnce(Blob) + 'static) -> Result<Recording, String> {
    let none = || {
        "The microphone cannot be had: it must be allowed for this page, and the page must have come over HTTPS or from this device.".to_owned()
    };
    let devices = window().navigator().media_devices().map_err(|_| none())?;
    let wanted = MediaStreamConstraints::new();
    wanted.set_audio(&true.into());
    let asked = devices.get_user_media_with_constraints(&wanted).map_err(|_| none())?;
    let stream: MediaStream = JsFuture::from(asked).await.map_err(|_| none())?.dyn_into().map_err(|_| none())?;
    let settings = web_sys::MediaRecorderOptions::new();
    let kind = KINDS.into_iter().find(|kind| MediaRecorder::is_type_supported(kind)).unwrap_or_default();
    settings.set_mime_type(kind);
    let recorder =
        MediaRecorder::new_with_media_stream_and_media_recorder_options(&stream, &settings).map_err(|_| none())?;
    let pieces = Array::new();
    let heard = {
        let pieces = pieces.clone();
        Closure::<dyn FnMut(BlobEvent)>::new(move |event: BlobEvent| {
            if let Some(piece) = event.data() {
                pieces.push(&piece);
            }
        })
    };
    let mut kept = Some(kept);
    let ended = Closure::<dyn FnMut()>::new(move || {
        let options = BlobPropertyBag::new();
        options.set_type(kind);
        if let (Some(kept), Ok(whole)) = (kept.take(), Blob::new_with_blob_sequence_and_options(&pieces, &options)) {
            kept(whole);
        }
    });
    recorder.set_ondataavailable(Some(heard.as_ref().unchecked_ref()));
    recorder.set_onstop(Some(ended.as_ref().unchecked_ref()));
    recorder.start_with_time_slice(1000).map_err(|_| none())?;
    Ok(Recording { recorder, stream, _heard: heard, _ended: ended })
}

/// Keeps what was said with the entry it belongs to.
async fn keep(along: Along, of: EntryId, blob: Blob) {
    let Along { book, bench, .. } = along;
    let kept = async {
        if blob.size() == 0.0 {
            return Err("Nothing was heard; nothing was kept.".to_owned());
        }
        let kind = blob.type_();
        let media_type = kind.split(';').next().unwrap_or_default().to_owned();
        let (sha256, bytes) =
            bench.keep().put_attachment(book.survey, &blob).await.map_err(|fault| fault.to_string())?;
        let ending = media_type.rsplit('/').next().unwrap_or("webm");
        let note = Attachment {
            sha256,
            bytes,
            file_name: format!("spoken-note.{ending}"),
            media_type,
            caption: "Spoken note".to_owned(),
            alternative: String::new(),
            of: Some(of),
            taken: None,
            position_deg: None,
        };
        book.write_named(vec![(new_id(), note.into())], "The spoken note is kept.").await
    };
    if let Err(why) = kept.await {
        bench.complain(why);
    }
}
