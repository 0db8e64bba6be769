//! The page: its frame, its addresses, and what all places share.

use crate::book::{Book, Workbench};
use crate::keep::Keep;
use crate::look::{Foot, Plain};
use crate::places::device::{NewVersion, Offline};
use crate::places::{self, Place};
use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::hooks::use_params_map;
use leptos_router::path;
use measure::System;
use survey::SurveyId;

/// Opens the browser's store and puts the workbench into the page; says in words when that cannot be.
pub fn start() {
    // Leptos has its own way to run futures only once something is mounted.
    wasm_bindgen_futures::spawn_local(async {
        let opened = Keep::open().await;
        if let Some(opening) = document().get_element_by_id("opening") {
            opening.remove();
        }
        match opened {
            Ok(keep) => {
                let author = keep.author().await.ok().flatten().unwrap_or_default();
                let units = keep.setting("units").await.ok().flatten();
                let shade = keep.setting("shade").await.ok().flatten().unwrap_or_default();
                mount_to_body(move || view! { <Page keep author units shade/> });
            }
            Err(fault) => {
                let words = fault.to_string();
                mount_to_body(
                    move || view! { <main class="alone"><h1>"Ribband"</h1><Plain words=words.clone()/></main> },
                );
            }
        }
    });
}

#[component]
fn Page(keep: Keep, author: String, units: Option<String>, shade: String) -> impl IntoView {
    let system = system_of(&units.unwrap_or_default());
    let bench = Workbench {
        keep: StoredValue::new_local(keep),
        author: RwSignal::new(author),
        units: RwSignal::new(system),
        shade: RwSignal::new(shade),
        said: RwSignal::new(None),
    };
    provide_context(bench);
    let offline = Offline(RwSignal::new(None));
    provide_context(offline);
    crate::book::after_it_is_shown(|| {
        leptos::task::spawn_local(async {
            // Whoever needs it asks again, and is told when it is not to be had.
            let _ = crate::common_words::are_here().await;
        });
    });
    leptos::task::spawn_local(async move { offline.0.set(Some(crate::exchange::worker::register().await)) });
    Effect::new(move |_| {
        let shade = bench.shade.get();
        if let Some(root) = document().document_element() {
            let _ = match shade.as_str() {
                "" => root.remove_attribute("data-shade"),
                shade => root.set_attribute("data-shade", shade),
            };
        }
        remember("shade", shade);
    });
    Effect::new(move |_| {
        remember("units", word_of(bench.units.get()).to_owned());
    });
    view! {
        <Router>
            <Routes fallback=|| view! { <main class="alone"><h1>"Nothing is here"</h1><p><a href="/">"All surveys"</a></p></main> }>
                <Route path=path!("/") view=places::start::Start/>
                <Route path=path!("/pair") view=places::pair::Pair/>
                <Route path=path!("/look") view=places::look_page::LookPage/>
                <Route path=path!("/survey/:survey/:place?/:what?") view=Survey/>
            </Routes>
        </Router>
        <NewVersion/>
        <Foot/>
    }
}

fn system_of(word: &str) -> System {
    if word == word_of(System::Customary) { System::Customary } else { System::Metric }
}

fn word_of(system: System) -> &'static str {
    if system == System::Customary { "customary" } else { "metric" }
}

fn remember(name: &str, value: String) {
    let keep = Workbench::here().keep();
    let name = name.to_owned();
    leptos::task::spawn_local(async move {
        // A setting that cannot be kept is only asked again.
        let _ = keep.set_setting(&name, &value).await;
    });
}

/// A survey at one of its places. The book stays open while the places change.
#[component]
fn Survey() -> impl IntoView {
    let params = use_params_map();
    let survey = Memo::new(move |_| params.with(|p| p.get("survey").and_then(|text| text.parse::<SurveyId>().ok())));
    let place =
        Memo::new(move |_| params.with(|p| p.get("place").and_then(|word| Place::named(&word)).unwrap_or_default()));
    let what = Memo::new(move |_| params.with(|p| p.get("what").unwrap_or_default()));
    move || {
        match survey.get() {
        Some(survey) => view! { <OpenSurvey survey place what/> }.into_any(),
        None => view! {
            <main class="alone"><h1>"No such survey"</h1><p>"The address names no survey. "<a href="/">"All surveys"</a></p></main>
        }
        .into_any(),
    }
    }
}

#[component]
fn OpenSurvey(survey: SurveyId, place: Memo<Place>, what: Memo<String>) -> impl IntoView {
    let bench = Workbench::here();
    let book = Book::open(survey, bench);
    provide_context(book);
    // Each survey is read in its own units; one that was never opened before takes those in use.
    let own = format!("units {survey}");
    let asked = own.clone();
    let is_read = RwSignal::new(false);
    leptos::task::spawn_local(async move {
        if let Some(word) = bench.keep().setting(&asked).await.ok().flatten() {
            bench.units.try_set(system_of(&word));
        }
        is_read.try_set(true);
    });
    Effect::new(move |_| {
        let units = bench.units.get();
        if is_read.get() {
            remember(&own, word_of(units).to_owned());
        }
    });
    view! { <places::frame::Frame place what/> }
}
