//! Where an invitation leads: this device is paired with the workbench that invited it.

use crate::book::Workbench;
use crate::exchange::devices::pair;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

/// The page that an invitation opens.
#[component]
pub fn Pair() -> impl IntoView {
    let bench = Workbench::here();
    let token = StoredValue::new(take_token());
    let name = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let go = use_navigate();
    document().set_title("Pair this device – Ribband");
    let submit = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if busy.get_untracked() {
            return;
        }
        refused.set(None);
        busy.set(true);
        let go = go.clone();
        leptos::task::spawn_local(async move {
            match pair(&token.get_value(), name.get_untracked().trim()).await {
                Ok(device) => {
                    bench.say(format!("This device is paired as “{}”.", device.name));
                    go("/", Default::default());
                }
                Err(fault) => {
                    refused.try_set(Some(crate::book::sentence(&fault.to_string())));
                }
            }
            busy.try_set(false);
        });
    };
    view! {
        <header class="head"><a class="home" href="/" aria-label="All surveys"><img src="/icon.svg" alt="" width="28" height="28"/></a><p class="boat">"Ribband"</p></header>
        <main class="start" id="place">
            <h1>"Pair this device"</h1>
            <Show when=move || !token.with_value(String::is_empty) fallback=|| view! {
                <p class="teach">"An invitation from the desk opens this page: scan its code with this device. It holds for ten minutes and lets one device in."</p>
            }>
                <p class="lead">"It will keep the surveys you open on it, work with no network, and send what it holds when the workbench is in reach. It can be turned out at the desk at any time."</p>
                <form class="entry-form" on:submit=submit.clone() novalidate>
                    <div class="field"><label for="device-name">"What this device is called"</label>
                        <input id="device-name" type="text" autocomplete="off" maxlength="60" placeholder="my phone" prop:value=move || name.get() on:input=move |e| name.set(event_target_value(&e))/></div>
                    {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
                    <div class="acts"><button type="submit" class="main" disabled=move || busy.get()>"Pair this device"</button></div>
                </form>
            </Show>
        </main>
    }
}

/// Takes the invitation out of the address, so that it does not stay in the browser's history.
fn take_token() -> String {
    let location = window().location();
    let token = location.hash().unwrap_or_default().trim_start_matches('#').to_owned();
    if !token.is_empty()
        && let Ok(history) = window().history()
    {
        // An address that stays is a blemish, not a fault: the invitation is used up soon.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some("/pair"));
    }
    token
}
