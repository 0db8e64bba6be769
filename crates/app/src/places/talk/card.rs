//! One proposal: the words it rests on, what would be entered, and a person's yes, change or no.

use super::kept::accepted;
use super::review::Review;
use crate::book::{Book, sentence};
use crate::form::{fields_of, kind_in_words};
use crate::hearing::proposals::{Proposal, moment};
use crate::look::{FormState, FormView, RecordRow};
use crate::words::member_name;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use serde_json::{Value, json};
use survey::payload::Payload;
use walk::Drafted;
use wasm_bindgen::JsCast as _;

/// Returns what would be entered, in a line.
fn in_words(book: Book, proposal: &Proposal) -> String {
    let draft = &proposal.draft;
    let member = match &draft.member {
        Some(id) => book.state.with_untracked(|state| member_name(state, id)),
        None => "A member not named".to_owned(),
    };
    let place = if draft.place.is_empty() { String::new() } else { format!(", {}", draft.place) };
    let said = match &draft.drafted {
        Drafted::Reading(reading) => format!("by {}: {reading}", reading.method()),
        Drafted::NotSeen { why } => format!("not seen, {why}"),
        Drafted::Question(question) => question.clone(),
    };
    sentence(&format!("{member}{place}: {said}"))
}

/// Returns the kind of entry and what is known of it, for the form.
fn for_the_form(proposal: &Proposal) -> (&'static str, Value) {
    let draft = &proposal.draft;
    match (&proposal.payload, &draft.drafted) {
        (Some(payload @ Payload::NotSeen(_)), _) => {
            ("not_seen", serde_json::from_str(&payload.to_json()).unwrap_or(Value::Null))
        }
        (Some(payload), _) => ("observation", serde_json::from_str(&payload.to_json()).unwrap_or(Value::Null)),
        (None, Drafted::NotSeen { why }) => ("not_seen", json!({"place": draft.place, "why": why})),
        (None, Drafted::Reading(reading)) => {
            ("observation", json!({"place": draft.place, "reading": reading, "note": draft.words}))
        }
        (None, Drafted::Question(_)) => (
            "observation",
            json!({"member": draft.member, "place": draft.place, "reading": {"method": "sight"}, "note": draft.words}),
        ),
    }
}

/// Shows one proposal. With the keyboard on it: A accepts, C changes, R refuses, P plays.
#[component]
pub fn Card(review: Review, proposal: Proposal) -> impl IntoView {
    let book = Book::here();
    let (from_s, to_s) = (proposal.draft.start_s, proposal.draft.end_s);
    let key = proposal.key();
    let kept = StoredValue::new(proposal.clone());
    let own = key.clone();
    let entry = Memo::new(move |_| {
        review.talk.with(|talk| {
            let talk = talk.as_ref()?;
            book.state.with(|state| kept.with_value(|p| accepted(state, talk, p)))
        })
    });
    let refused = Memo::new(move |_| review.refused.with(|all| all.contains(&own)));
    let changing = RwSignal::new(false);
    let can_enter = proposal.payload.is_some();
    let accept = move || {
        if let Some(payload) = kept.with_value(|p| p.payload.clone()) {
            review.enter(vec![(kept.get_value(), payload)]);
        }
    };
    let refuse = {
        let key = key.clone();
        move || review.refuse(&key, true)
    };
    let again = {
        let key = key.clone();
        move |_| review.refuse(&key, false)
    };
    let open = move || entry.get().is_none() && !refused.get();
    let no = refuse.clone();
    let keys = move |event: KeyboardEvent| {
        let on_card = event.target() == event.current_target();
        if !on_card || event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        match event.key().to_lowercase().as_str() {
            "a" if open() && can_enter => accept(),
            "c" if open() => changing.set(true),
            "r" if open() => no(),
            "p" => review.play(from_s, to_s),
            _ => return,
        }
        event.prevent_default();
    };
    let refuse = StoredValue::new(refuse);
    let again = StoredValue::new(again);
    let about = in_words(book, &proposal);
    let label = format!("Proposal: {about}");
    let mended = proposal.mended.clone();
    let doubts = proposal.draft.doubts.clone();
    let blows = proposal.draft.blows_s.len();
    view! {
        <li class="proposal" class:done=move || entry.get().is_some() class:refused=move || refused.get() tabindex="0" aria-label=label on:keydown=keys>
            <div class="proposal-said">
                <p class="moment">
                    {review.timed.get_untracked().then(|| view! { <span>{format!("{} to {}", moment(from_s), moment(to_s))}</span> })}
                    <Show when=move || review.can_play()>
                        <button type="button" class="quiet" aria-label=format!("Play from {}", moment(from_s)) on:click=move |_| review.play(from_s, to_s)>"Play"</button>
                    </Show>
                    {(blows > 0).then(|| view! { <span class="hush">{if blows == 1 { "1 blow".to_owned() } else { format!("{blows} blows") }}</span> })}
                </p>
                <blockquote>{proposal.heard.clone()}</blockquote>
                {(!mended.is_empty()).then(|| view! {
                    <ul class="mended">{mended.into_iter().map(|one| {
                        let first = one.first;
                        view! { <li>"heard “"{one.heard}"”, taken as “"<strong>{one.meant}</strong>{format!("” ({:.0} %) ", one.confidence * 100.0)}
                            <button type="button" class="link" on:click=move |_| review.as_heard(first)>"Leave it as heard"</button></li> }
                    }).collect_view()}</ul>
                })}
            </div>
            <div class="proposal-made">
                <p class="proposal-line">{about}</p>
                {(!doubts.is_empty()).then(|| view! { <ul class="doubts">{doubts.into_iter().map(|doubt| view! { <li>{sentence(&doubt)}</li> }).collect_view()}</ul> })}
                {move || match (entry.get(), refused.get()) {
                    (Some(id), _) => view! { <p class="hush" role="status">"Accepted, and entered as:"</p><RecordRow id/> }.into_any(),
                    (None, true) => view! { <p class="hush">"Refused; nothing is entered. "<button type="button" class="link" on:click=move |event| again.with_value(|again| again(event))>"Take it up again"</button></p> }.into_any(),
                    (None, false) if changing.get() => view! { <Change review proposal=kept.get_value() changing/> }.into_any(),
                    (None, false) => view! {
                        <p class="acts">
                            {can_enter.then(|| view! { <button type="button" on:click=move |_| accept()>"Accept"</button> })}
                            <button type="button" class:quiet=can_enter on:click=move |_| changing.set(true)>{if can_enter { "Change" } else { "Complete it" }}</button>
                            <button type="button" class="quiet" on:click=move |_| refuse.with_value(|refuse| refuse())>"Refuse"</button>
                        </p>
                    }.into_any(),
                }}
            </div>
        </li>
    }
}

/// The form in which a proposal is put right before it is entered.
#[component]
fn Change(review: Review, proposal: Proposal, changing: RwSignal<bool>) -> impl IntoView {
    let (kind, value) = for_the_form(&proposal);
    let form = FormState::new(fields_of(kind), value);
    let fault = RwSignal::new(None::<String>);
    let proposal = StoredValue::new(proposal);
    let submit = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        fault.set(None);
        let Some(value) = form.read() else { return };
        match Payload::read_strict(kind, &value) {
            Ok(payload) => {
                changing.set(false);
                review.enter(vec![(proposal.get_value(), payload)]);
            }
            Err(why) => fault.set(Some(sentence(&why.to_string()))),
        }
    };
    let node: NodeRef<leptos::html::Form> = NodeRef::new();
    Effect::new(move |_| {
        if let Some(form) = node.get() {
            let first = form.query_selector("input, select, textarea").ok().flatten();
            if let Some(first) = first.and_then(|first| first.dyn_into::<web_sys::HtmlElement>().ok()) {
                let _ = first.focus();
            }
        }
    });
    view! {
        <form class="entry-form" node_ref=node on:submit=submit novalidate aria-label=format!("Change the {}", kind_in_words(kind))>
            <FormView state=form/>
            {move || fault.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <p class="acts"><button type="submit" class="main">"Accept it so"</button><button type="button" class="quiet" on:click=move |_| changing.set(false)>"Leave it"</button></p>
        </form>
    }
}
