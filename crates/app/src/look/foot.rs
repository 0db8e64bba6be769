//! The bar at the foot: what was last done, with the way back, or what went wrong.

use crate::book::Workbench;
use leptos::prelude::*;

/// The bar at the foot of the page. Messages are read out; those of success go after a while.
#[component]
pub fn Foot() -> impl IntoView {
    let bench = Workbench::here();
    Effect::new(move |_| {
        let Some(said) = bench.said.get() else { return };
        let long = if said.wrong { 20_000 } else { 8_000 };
        set_timeout(
            move || {
                if bench.said.get_untracked().as_ref() == Some(&said) {
                    bench.said.set(None);
                }
            },
            std::time::Duration::from_millis(long),
        );
    });
    let undo = move |_| {
        // The survey listens for this; the bar itself belongs to no survey.
        if let Ok(event) = web_sys::CustomEvent::new("ribband-undo") {
            let _ = window().dispatch_event(&event);
        }
    };
    view! {
        <div class="foot" role="status" aria-live="polite">
            {move || bench.said.get().map(|said| view! {
                <p class="said" class:wrong=said.wrong>
                    <span>{said.words.clone()}</span>
                    {said.can_undo.then(|| view! { <button type="button" on:click=undo>"Undo"</button> })}
                    <button type="button" class="quiet" aria-label="Dismiss this message" on:click=move |_| bench.said.set(None)>"✕"</button>
                </p>
            })}
        </div>
    }
}

/// A plain sentence in the place of something that could not be shown.
#[component]
pub fn Plain(#[prop(into)] words: String) -> impl IntoView {
    view! { <p class="plain" role="alert">{words}</p> }
}
