//! What this browser keeps: whether it opens with no network, how much room there is, and what can be taken off it.

use crate::book::Workbench;
use crate::exchange::worker::{WorkerState, on_new_version, take_new_version};
use crate::keep::room::Room;
use leptos::prelude::*;

/// Whether the page opens with no network, as far as known by now. Set once at the start.
#[derive(Clone, Copy)]
pub struct Offline(pub RwSignal<Option<WorkerState>>);

/// Part of the quota from which on the room is told to get short.
const SHORT: f64 = 0.8;

/// What this device is to the surveys on it.
#[component]
pub fn Device() -> impl IntoView {
    let bench = Workbench::here();
    let Offline(offline) = expect_context();
    let room = RwSignal::new(None::<Room>);
    let look = move || {
        leptos::task::spawn_local(async move {
            let found = bench.keep().room().await;
            room.try_set(Some(found));
        });
    };
    look();
    let ask = move |_| {
        leptos::task::spawn_local(async move {
            if bench.keep().ask_to_persist().await {
                bench.say("The browser promised to keep what is here.");
            } else {
                bench.complain("The browser promised nothing. Installing the page on the home screen, or visiting it often, usually moves it to.");
            }
            look();
        });
    };
    view! {
        <section class="device"><h2>"This device"</h2>
            <dl class="said">
                <div><dt>"Known as"</dt><dd>{bench.keep().device().to_owned()}</dd></div>
                <div><dt>"With no network"</dt><dd>{move || match offline.get() {
                    None => "being made ready …".to_owned(),
                    Some(WorkerState::Ready) => "opens and records; everything is kept here until a server is in reach.".to_owned(),
                    Some(WorkerState::NotSecure) => "cannot be opened: browsers allow it only over HTTPS or on this machine itself. What is entered is kept while the page is open, and afterwards.".to_owned(),
                    Some(WorkerState::Unsupported) => "cannot be opened in this browser, or not in a private window.".to_owned(),
                    Some(WorkerState::Failed(why)) => format!("cannot be opened: {why}."),
                }}</dd></div>
                <div><dt>"Room"</dt><dd>{move || room.get().filter(|room| room.quota_bytes > 0).map_or_else(|| "the browser does not say".to_owned(), in_words)}</dd></div>
            </dl>
            {move || room.get().filter(is_short).map(|_| view! { <p class="plain" role="alert">"Room gets short. Let this device send what it holds, then take finished surveys off it."</p> })}
            <Show when=move || room.get().is_some_and(|room| !room.persisted && room.quota_bytes > 0)>
                <div class="acts"><button type="button" on:click=ask>"Ask the browser to keep it for good"</button></div>
            </Show>
        </section>
    }
}

fn is_short(room: &Room) -> bool {
    room.quota_bytes > 0 && room.used_bytes as f64 > SHORT * room.quota_bytes as f64
}

fn in_words(room: Room) -> String {
    let mb = |bytes: u64| bytes as f64 / 1e6;
    let kept = if room.persisted { "kept for good" } else { "the browser may clear it when the disk gets full" };
    format!("{:.0} MB used of {:.0} MB; {kept}.", mb(room.used_bytes), mb(room.quota_bytes))
}

/// Offers a new version of the workbench when one waits.
#[component]
pub fn NewVersion() -> impl IntoView {
    let waits = RwSignal::new(false);
    leptos::task::spawn_local(async move { on_new_version(move || waits.set(true)).await });
    let take = move |_| leptos::task::spawn_local(take_new_version());
    view! {
        <Show when=move || waits.get()>
            <p class="new-version" role="status">"A newer workbench is ready. "<button type="button" on:click=take>"Open it"</button></p>
        </Show>
    }
}
