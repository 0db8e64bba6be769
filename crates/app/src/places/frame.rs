//! The frame round all places of a survey: her name, the places, where the entries stand, and the keyboard.

use super::Place;
use super::find::Find;
use super::{bench, brief, hull, report, walk};
use crate::book::{Book, Workbench};
use crate::exchange::Standing;
use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use measure::System;
use wasm_bindgen::JsCast as _;

/// Shows one place of the open survey.
#[component]
pub fn Frame(place: Memo<Place>, what: Memo<String>) -> impl IntoView {
    let book = Book::here();
    let name = Memo::new(move |_| {
        book.state.with(|state| {
            state.vessel().map(|v| v.payload.name.clone()).unwrap_or_else(|| "A boat without a name".to_owned())
        })
    });
    let finding = RwSignal::new(false);
    let keys_told = RwSignal::new(false);
    let go = use_navigate();
    let survey = book.survey;
    let keys = window_event_listener(ev::keydown, move |event| {
        let typing =
            event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()).is_some_and(|element| {
                element.matches("input:not([type=radio]):not([type=checkbox]), textarea, select").unwrap_or(false)
            });
        let command = event.ctrl_key() || event.meta_key();
        match event.key().as_str() {
            "k" if command => {
                event.prevent_default();
                finding.set(true);
            }
            "z" if command && !typing && !event.shift_key() => {
                event.prevent_default();
                book.undo();
            }
            "?" if !typing && !command => keys_told.set(true),
            digit @ ("1" | "2" | "3" | "4" | "5") if event.alt_key() && !command => {
                event.prevent_default();
                let n = digit.parse::<usize>().unwrap_or(1);
                if let Some(place) = Place::ALL.get(n - 1) {
                    go(&format!("/survey/{survey}/{}", place.word()), Default::default());
                }
            }
            _ => {}
        }
    });
    let undo = window_event_listener_untyped("ribband-undo", move |_| book.undo());
    on_cleanup(move || {
        keys.remove();
        undo.remove();
    });
    // The place's name is put first; what it holds may take a moment to draw, and is begun in a turn of its own.
    let body = RwSignal::new(Some(place.get_untracked()));
    Effect::new(move |_| {
        let wanted = place.get();
        if body.get_untracked() != Some(wanted) {
            body.set(None);
            // Two frames: the first puts the name, and the second tells that it was put.
            request_animation_frame(move || {
                request_animation_frame(move || {
                    set_timeout(
                        move || {
                            body.try_set(place.try_get_untracked());
                        },
                        std::time::Duration::ZERO,
                    );
                });
            });
        }
    });
    Effect::new(move |_| document().set_title(&format!("{}: {} – Ribband", name.get(), place.get().name())));
    view! {
        <a class="skip" href="#place">"To the work"</a>
        <header class="head">
            <a class="home" href="/" aria-label="All surveys"><img src="/icon.svg" alt="" width="28" height="28"/></a>
            <p class="boat">{move || name.get()}</p>
            <nav class="places" aria-label="Places">
                {Place::ALL.into_iter().map(|one| view! {
                    <a href=format!("/survey/{survey}/{}", one.word()) aria-current=move || (place.get() == one).then_some("page")>{one.name()}</a>
                }).collect_view()}
            </nav>
            <div class="head-tools">
                <StandingMark/>
                <button type="button" class="quiet" on:click=move |_| finding.set(true) aria-keyshortcuts="Control+K">"Find"</button>
                <Settings/>
            </div>
        </header>
        <main id="place" class=move || format!("place at-{}", place.get().word()) tabindex="-1">
            <h1 class="place-name">{move || place.get().name()}</h1>
            <Author/>
            <Show when=move || book.is_read.get() fallback=|| view! { <p class="hush" role="status">"Reading the field book …"</p> }>
                {move || match body.get() {
                    None => view! { <p class="hush" role="status">"…"</p> }.into_any(),
                    Some(Place::Brief) => view! { <brief::Brief/> }.into_any(),
                    Some(Place::Hull) => view! { <hull::Hull/> }.into_any(),
                    Some(Place::Walk) => view! { <walk::Walk what/> }.into_any(),
                    Some(Place::Bench) => view! { <bench::Bench what/> }.into_any(),
                    Some(Place::Report) => view! { <report::Report/> }.into_any(),
                }}
            </Show>
        </main>
        <Find open=finding/>
        <crate::look::Dialog open=keys_told title="Keys">
            <dl class="keys">
                <dt><kbd>"Ctrl K"</kbd></dt><dd>"find a member, an entry, a reckoner or a place"</dd>
                <dt><kbd>"Alt 1"</kbd>" to "<kbd>"Alt 5"</kbd></dt><dd>"Brief, Hull, Walk, Bench, Report"</dd>
                <dt><kbd>"Ctrl Z"</kbd></dt><dd>"take back the last act"</dd>
                <dt><kbd>"?"</kbd></dt><dd>"this list"</dd>
            </dl>
        </crate::look::Dialog>
    }
}

/// Asks who writes here, as long as it is not known.
#[component]
fn Author() -> impl IntoView {
    let bench = Workbench::here();
    let typed = RwSignal::new(String::new());
    let keep_it = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        set_author(bench, typed.get_untracked());
    };
    view! {
        <Show when=move || bench.author.get().trim().is_empty()>
            <form class="ask-author" on:submit=keep_it>
                <label for="author">"Who writes here? Your name goes with every entry."</label>
                <input id="author" type="text" autocomplete="name" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
                <button type="submit" class="main">"That is me"</button>
            </form>
        </Show>
    }
}

/// Keeps who writes here.
pub fn set_author(bench: Workbench, name: String) {
    let name = name.trim().to_owned();
    if name.is_empty() {
        return;
    }
    leptos::task::spawn_local(async move {
        match bench.keep().set_author(&name).await {
            Ok(()) => bench.author.set(name),
            Err(fault) => bench.complain(fault.to_string()),
        }
    });
}

/// Where the entries stand with the server, in words.
#[component]
fn StandingMark() -> impl IntoView {
    let book = Book::here();
    let words = Memo::new(move |_| match book.standing.get() {
        Standing::Together => ("together", "Kept here and on the server".to_owned(), String::new()),
        Standing::Fetching => ("moving", "Fetching …".to_owned(), String::new()),
        Standing::Sending { left } => ("moving", format!("Sending {left}"), String::new()),
        Standing::Away { waiting: 0 } => ("away", "Kept here; no server in reach".to_owned(), String::new()),
        Standing::Away { waiting } => ("away", format!("Kept here; {waiting} to send"), String::new()),
        Standing::NotPaired { waiting: 0 } => {
            ("away", "Kept here; this device is not paired".to_owned(), String::new())
        }
        Standing::NotPaired { waiting } => {
            ("away", format!("Kept here; {waiting} to send once this device is paired"), String::new())
        }
        Standing::Refused(why) => ("refused", "Not exchanged".to_owned(), why),
    });
    view! {
        <p class=move || format!("standing {}", words.get().0) role="status" title=move || words.get().2>
            <span class="standing-dot" aria-hidden="true"></span>{move || words.get().1}
            {move || Some(words.get().2).filter(|why| !why.is_empty()).map(|why| view! { <span class="fault">{why}</span> })}
        </p>
    }
}

/// Units, shade and who writes.
#[component]
fn Settings() -> impl IntoView {
    let bench = Workbench::here();
    let open = RwSignal::new(false);
    let units = move |system: System| bench.units.set(system);
    view! {
        <button type="button" class="quiet" on:click=move |_| open.set(true)>"Settings"</button>
        <crate::look::Dialog open title="Settings">
            <fieldset class="field"><legend>"Units shown in this survey"</legend><div class="choices">
                {[(System::Metric, "millimetres and metres"), (System::Customary, "feet, inches and eighths")].into_iter().map(|(system, words)| view! {
                    <label class="choice" class:chosen=move || bench.units.get() == system>
                        <input type="radio" name="units" prop:checked=move || bench.units.get() == system on:change=move |_| units(system)/><span>{words}</span>
                    </label>
                }).collect_view()}
            </div><span class="about">"Either is understood wherever a length is typed."</span></fieldset>
            <fieldset class="field"><legend>"Shade"</legend><div class="choices">
                {[("", "as the device"), ("light", "light"), ("dark", "dark")].into_iter().map(|(shade, words)| view! {
                    <label class="choice" class:chosen=move || bench.shade.get() == shade>
                        <input type="radio" name="shade" prop:checked=move || bench.shade.get() == shade on:change=move |_| bench.shade.set(shade.to_owned())/><span>{words}</span>
                    </label>
                }).collect_view()}
            </div></fieldset>
            <div class="field">
                <label for="author-name">"Who writes here"</label>
                <input id="author-name" type="text" autocomplete="name" prop:value=move || bench.author.get() on:change=move |e| set_author(bench, event_target_value(&e))/>
            </div>
            <p class="hush">"Every part of the look is on "<a href="/look">"one page"</a>"."</p>
        </crate::look::Dialog>
    }
}
