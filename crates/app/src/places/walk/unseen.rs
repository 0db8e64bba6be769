//! Not seen, and why: two taps.

use crate::book::{Book, Workbench, sentence};
use crate::look::FormState;
use leptos::prelude::*;
use survey::payload::{NotSeen, Payload};

/// What commonly stands in the way.
const BARRIERS: &[(&str, &str)] = &[
    ("behind the ceiling", "the ceiling boards lifted"),
    ("under ballast", "the ballast shifted"),
    ("behind a tank", "the tank out"),
    ("under the sole", "the sole lifted"),
    ("behind joinery", "the joinery out"),
    ("under paint or stopping", "paint and stopping scraped"),
    ("under sheathing", "the sheathing cut"),
    ("she lay on it", "the keel blocks or slings shifted"),
    ("opening up was not agreed", "the owner’s leave to open up"),
];

/// Recording that a member, or the place typed, was not seen: one tap on what stood in the way.
#[component]
pub fn Unseen(member: String, form: FormState, done: impl Fn() + Copy + Send + Sync + 'static) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let why = RwSignal::new(String::new());
    let member = StoredValue::new(member);
    let write = move |why: String, needs: String| {
        let place = form.read_place();
        leptos::task::spawn_local(async move {
            let not_seen = NotSeen { member: member.get_value(), place, why, needs };
            let payload = Payload::from(not_seen);
            let written = match payload.fault() {
                Some(fault) => Err(sentence(&fault.to_string())),
                None => book.write(vec![payload], "Recorded as not seen.").await.map(|_| ()),
            };
            match written {
                Ok(()) => done(),
                Err(fault) => bench.complain(fault),
            }
        });
    };
    view! {
        <div class="unseen" role="group" aria-label="Why it was not seen">
            <p>"What stood in the way? The place typed above goes with it; the whole member when none is."</p>
            <div class="choices">{BARRIERS.iter().map(|(barrier, needs)| view! {
                <button type="button" class="choice" on:click=move |_| write((*barrier).to_owned(), (*needs).to_owned())>{*barrier}</button>
            }).collect_view()}</div>
            <div class="field"><label for="why-unseen">"Something else"</label>
                <input id="why-unseen" type="text" autocomplete="off" prop:value=move || why.get() on:input=move |e| why.set(event_target_value(&e))/></div>
            <button type="button" on:click=move |_| write(why.get_untracked(), String::new())>"Record as not seen"</button>
        </div>
    }
}
