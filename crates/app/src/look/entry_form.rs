//! A form that writes an entry of one kind, or amends one, in a dialog or in its place.

use super::form_view::{FormState, FormView};
use crate::book::{Book, sentence};
use crate::form::{fields_of, kind_in_words};
use leptos::prelude::*;
use serde_json::{Value, json};
use survey::EntryId;
use survey::payload::Payload;

/// What a form is for.
#[derive(Clone, Debug, PartialEq)]
pub enum FormOf {
    /// A new entry of a kind, with what is known of it.
    New(&'static str, Value),
    /// An amendment of an entry.
    Amend(EntryId),
}

impl FormOf {
    /// Returns the form's heading.
    pub fn title(&self) -> String {
        match self {
            FormOf::New(kind, _) => format!("New {}", kind_in_words(kind)),
            FormOf::Amend(id) => Book::here().state.with_untracked(|state| {
                let kind = state.record(*id).map_or("entry", |record| record.first().kind());
                format!("Amend the {}", kind_in_words(kind))
            }),
        }
    }
}

/// Shows the form; calls `done` with the entry once it is written.
#[component]
pub fn EntryForm(of: FormOf, #[prop(into)] done: Callback<EntryId>) -> impl IntoView {
    let book = Book::here();
    let amended = match &of {
        FormOf::Amend(id) => Some(*id),
        FormOf::New(..) => None,
    };
    let (kind, original) = match of {
        FormOf::New(kind, known) => (kind.to_owned(), known),
        FormOf::Amend(id) => book.state.with_untracked(|state| match state.record(id) {
            Some(record) => (
                record.first().kind().to_owned(),
                serde_json::from_str(&record.payload().to_json()).unwrap_or(Value::Null),
            ),
            None => (String::new(), json!({})),
        }),
    };
    let form = FormState::new(fields_of(&kind), original);
    let why = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let submit = {
        let kind = kind.clone();
        move |event: web_sys::SubmitEvent| {
            event.prevent_default();
            if busy.get_untracked() {
                return;
            }
            refused.set(None);
            let Some(value) = form.read() else { return };
            let payload = match Payload::read_strict(&kind, &value) {
                Ok(payload) => payload,
                Err(fault) => return refused.set(Some(sentence(&fault.to_string()))),
            };
            let reason = why.get_untracked();
            if amended.is_some() && reason.trim().is_empty() {
                return refused.set(Some("Say why it is amended; the field book keeps both versions.".to_owned()));
            }
            busy.set(true);
            let kind = kind.clone();
            leptos::task::spawn_local(async move {
                let written = match amended {
                    Some(id) => book.amend(id, &payload, reason.trim()).await.map(|()| id),
                    None => {
                        let done = sentence(&format!("{} recorded", kind_in_words(&kind)));
                        book.write(vec![payload], &done)
                            .await
                            .and_then(|ids| ids.first().copied().ok_or_else(|| "Nothing was written.".to_owned()))
                    }
                };
                busy.try_set(false);
                match written {
                    Ok(id) => done.run(id),
                    Err(fault) => {
                        refused.try_set(Some(fault));
                    }
                }
            });
        }
    };
    view! {
        <form class="entry-form" on:submit=submit novalidate>
            <FormView state=form/>
            {amended.is_some().then(|| view! {
                <div class="field">
                    <label for="why-amended">"Why it is amended"<span class="needed" aria-hidden="true">" *"</span></label>
                    <input id="why-amended" type="text" autocomplete="off" prop:value=move || why.get() on:input=move |e| why.set(event_target_value(&e))/>
                </div>
            })}
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts">
                <button type="submit" class="main" disabled=move || busy.get()>
                    {if amended.is_some() { "Amend" } else { "Record" }}
                </button>
            </div>
        </form>
    }
}
