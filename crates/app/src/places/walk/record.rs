//! Recording on one member: the place, how it was tried, and what that gave.

use super::step::next_frame;
use super::unseen::Unseen;
use crate::book::{Book, Workbench, new_id, sentence};
use crate::form::OBSERVATION;
use crate::look::{FormState, FormView};
use crate::places::photos::{Photos, keep_photos};
use leptos::prelude::*;
use leptos_router::hooks::use_query_map;
use serde_json::json;
use survey::payload::{Observation, Payload};

/// Returns the place that the address names, as the drawing does when it is pointed at.
fn place_in_address() -> serde_json::Value {
    let mut place = serde_json::Map::new();
    use_query_map().with_untracked(|query| {
        if let Some(side) = query.get("side") {
            place.insert("side".to_owned(), side.into());
        }
        for key in ["strake", "frame_from", "frame_to", "number"] {
            if let Some(n) = query.get(key).and_then(|text| text.parse::<u32>().ok()) {
                place.insert(key.to_owned(), n.into());
            }
        }
        if let Some(mm) = query.get("from_stem_mm").and_then(|text| text.parse::<f64>().ok()) {
            place.insert("from_stem_mm".to_owned(), mm.into());
        }
    });
    place.into()
}

/// What is kept from one observation to the next on the same member.
const KEPT: &[&str] =
    &["member", "place", "reading.method", "reading.instrument", "reading.species_setting", "seen_on"];

/// Recording an observation or that it was not seen.
#[component]
pub fn Record(member: String) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let form = FormState::new(OBSERVATION, json!({"member": member, "place": place_in_address()}));
    let photos = RwSignal::new(Vec::new());
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let last = RwSignal::new(None::<Observation>);
    let unseen = RwSignal::new(false);
    let write = move |observation: Observation, fresh: bool| {
        busy.set(true);
        leptos::task::spawn_local(async move {
            let id = new_id();
            let pictures = if fresh { photos.get_untracked() } else { Vec::new() };
            let outcome = async {
                let mut named = vec![(id, Payload::from(observation.clone()))];
                named.extend(keep_photos(book, bench, id, pictures).await?);
                book.write_named(named, "Recorded.").await
            }
            .await;
            busy.try_set(false);
            match outcome {
                Ok(_) => {
                    last.try_set(Some(observation));
                    if fresh {
                        form.clear_but(KEPT);
                        photos.try_set(Vec::new());
                    }
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let submit = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if busy.get_untracked() {
            return;
        }
        refused.set(None);
        let Some(value) = form.read() else { return };
        match Payload::read_strict("observation", &value) {
            Ok(Payload::Observation(observation)) => write(*observation, true),
            Ok(_) => {}
            Err(fault) => refused.set(Some(sentence(&fault.to_string()))),
        }
    };
    let next = Memo::new(move |_| last.get().and_then(next_frame));
    let is_first = |field: &crate::form::Field| field.key == "reading.method";
    let is_reading = |field: &crate::form::Field| field.key.starts_with("reading.") && field.key != "reading.method";
    let is_place = |field: &crate::form::Field| {
        field.key.starts_with("place.")
            && matches!(
                field.key,
                "place.side" | "place.strake" | "place.frame_from" | "place.frame_to" | "place.number"
            )
    };
    let is_other_place = |field: &crate::form::Field| {
        matches!(field.key, "place.from_stem_mm" | "place.height_mm" | "place.joint_with" | "place.words" | "seen_on")
    };
    let is_note = |field: &crate::form::Field| field.key == "note";
    let member_id = StoredValue::new(member);
    view! {
        <form class="entry-form record-form" on:submit=submit novalidate aria-label="Record an observation">
            <FormView state=form only=is_place/>
            <details class="more"><summary>"Another place, another day"</summary><FormView state=form only=is_other_place/></details>
            <FormView state=form only=is_first/>
            <FormView state=form only=is_reading/>
            <FormView state=form only=is_note/>
            <Photos photos/>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts">
                <button type="submit" class="main" disabled=move || busy.get()>"Record"</button>
                {move || next.get().map(|observation| {
                    let words = format!("Same again at {}", observation.place);
                    view! { <button type="button" on:click=move |_| write(observation.clone(), false)>{words}</button> }
                })}
                <button type="button" class="quiet" aria-expanded=move || unseen.get().to_string() on:click=move |_| unseen.update(|u| *u = !*u)>"Not seen"</button>
            </div>
        </form>
        <Show when=move || unseen.get()><Unseen member=member_id.get_value() form done=move || unseen.set(false)/></Show>
    }
}
