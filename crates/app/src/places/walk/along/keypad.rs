//! Keys for figures, large enough for a wet thumb, that know fractions of an inch.

use crate::at_once::Figure;
use leptos::html;
use leptos::prelude::*;
use measure::System;
use survey::Reading;

/// Fractions a rule is read in.
const FRACTIONS: [&str; 6] = ["/2", "/4", "/8", "/16", "/32", "/64"];

/// Asks for a figure.
#[component]
pub fn Keypad(
    figure: Figure,
    units: RwSignal<System>,
    record: impl Fn(Reading) + Copy + Send + Sync + 'static,
    leave: impl Fn() + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let input: NodeRef<html::Input> = NodeRef::new();
    let press = move |key: &'static str| {
        refused.set(None);
        typed.update(|typed| typed.push_str(key));
    };
    let take_back = move |_| {
        typed.update(|typed| {
            typed.pop();
        });
    };
    let keep = move || match figure.read(&typed.get_untracked(), units.get_untracked()) {
        Ok(reading) => record(reading),
        Err(why) => refused.set(Some(why)),
    };
    let submit = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        keep();
    };
    // What it comes to is shown while it is keyed in, so that a slip is seen before it is recorded.
    let comes_to = Memo::new(move |_| {
        let typed = typed.get();
        let read = figure.read(&typed, units.get()).ok()?;
        Some(match read {
            Reading::Measure { value, .. }
            | Reading::Bore { depth_mm: value, .. }
            | Reading::Probe { depth_mm: Some(value), .. } => format!("{value} mm"),
            Reading::Moisture { reading_percent, .. } => format!("{reading_percent} %"),
            _ => return None,
        })
    });
    let key = move |key: &'static str| view! { <button type="button" class="key" on:click=move |_| press(key)>{key}</button> };
    Effect::new(move |_| {
        if let Some(input) = input.get() {
            // A desk's own keys work at once; a phone's stay away.
            let _ = input.focus();
        }
    });
    view! {
        <form class="keypad" on:submit=submit novalidate aria-label=format!("Figure: {}", figure.words())>
            <div class="keyed">
                <label for="keyed">{figure.words()}</label>
                <input id="keyed" node_ref=input type="text" inputmode="none" autocomplete="off" prop:value=move || typed.get() on:input=move |e| { refused.set(None); typed.set(event_target_value(&e)) }/>
                <p class="comes-to" aria-live="polite">{move || comes_to.get().unwrap_or_default()}</p>
            </div>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="keys-of">
                {["7", "8", "9"].into_iter().map(key).collect_view()}
                <button type="button" class="key" aria-label="Take back a key" on:click=take_back>"⌫"</button>
                {["4", "5", "6"].into_iter().map(key).collect_view()}
                <button type="button" class="key" on:click=move |_| leave()>"leave it"</button>
                {["1", "2", "3"].into_iter().map(key).collect_view()}
                <button type="button" class="key" aria-label="Space, before a fraction" on:click=move |_| press(" ")>"and"</button>
                {["0", "."].into_iter().map(key).collect_view()}
                <button type="submit" class="key main wide">"Record"</button>
            </div>
            {figure.is_length().then(|| view! {
                <div class="keys-of fractions" role="group" aria-label="Fractions and units">
                    {FRACTIONS.into_iter().map(key).collect_view()}
                    {["\"", "'", "mm"].into_iter().map(key).collect_view()}
                </div>
            })}
        </form>
    }
}
