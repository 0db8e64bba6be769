//! What was recorded last: in view, amended by tapping it, and added to by a photograph, words, or the voice.

use super::Along;
use super::voice::VoiceNote;
use crate::book::sentence;
use crate::look::RecordRow;
use crate::places::photos::{keep_photos, photos_in};
use leptos::prelude::*;
use survey::payload::{Observation, Payload};
use wasm_bindgen::JsCast as _;
use web_sys::HtmlInputElement;

#[component]
pub fn LastRecorded(along: Along) -> impl IntoView {
    let Along { book, bench, last, .. } = along;
    let words_open = RwSignal::new(false);
    let typed = RwSignal::new(String::new());
    let photographed = move |event: web_sys::Event| {
        let Some(input) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()) else { return };
        let (Some(files), Some(of)) = (input.files(), last.get_untracked()) else { return };
        let pictures = photos_in(&files);
        input.set_value("");
        leptos::task::spawn_local(async move {
            let kept = async {
                let named = keep_photos(book, bench, of, pictures).await?;
                book.write_named(named, "Photograph kept.").await
            };
            if let Err(why) = kept.await {
                bench.complain(why);
            }
        });
    };
    let add_words = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        let Some(id) = last.get_untracked() else { return };
        let said = typed.get_untracked().trim().to_owned();
        let observation =
            book.state.with_untracked(|state| state.find::<Observation>(id).map(|view| view.payload.clone()));
        let Some(mut observation) = observation.filter(|_| !said.is_empty()) else { return };
        observation.note = if observation.note.is_empty() { said } else { format!("{} {said}", observation.note) };
        let payload = Payload::from(observation);
        leptos::task::spawn_local(async move {
            match book.amend(id, &payload, "words added to it").await {
                Ok(()) => {
                    typed.try_set(String::new());
                    words_open.try_set(false);
                }
                Err(why) => bench.complain(sentence(&why)),
            }
        });
    };
    view! {
        <Show when=move || last.get().is_none()>
            <p class="last-recorded hush">"What is recorded last stands here, to be added to or amended."</p>
        </Show>
        {move || last.get().map(|id| view! {
            <section class="last-recorded" aria-label="Recorded last" aria-live="polite">
                <RecordRow id/>
                <div class="add-to">
                    <label for="photograph-last" class="button">"Photograph"</label>
                    <input id="photograph-last" class="beyond-sight" type="file" accept="image/*" capture="environment" multiple on:change=photographed/>
                    <VoiceNote along of=id/>
                    <button type="button" aria-expanded=move || words_open.get().to_string() on:click=move |_| words_open.update(|open| *open = !*open)>"Words"</button>
                    <button type="button" class="quiet" on:click=move |_| book.undo()>"Take back"</button>
                </div>
                <Show when=move || words_open.get()>
                    <form class="add-words" on:submit=add_words novalidate>
                        <label for="add-words">"Words to it"</label>
                        <input id="add-words" type="text" autocomplete="off" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
                        <button type="submit" class="main">"Add"</button>
                    </form>
                </Show>
            </section>
        })}
    }
}
