//! Report: what it still owes its reader, the pages as they will print, and the finished file.

use super::issue::Issuing;
use super::reading::ReadHere;
use crate::book::{Book, Workbench};
use crate::exchange::Standing;
use leptos::prelude::*;
use serde_json::Value;
use survey::checks;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;

/// Pages shown at first: a browser reads each as a drawing of its own, and hundreds would hold up the page.
const PAGES_FIRST: u32 = 8;

/// The place.
#[component]
pub fn Report() -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let pages = RwSignal::new(None::<Result<(u32, String), String>>);
    let making = RwSignal::new(false);
    let asked_for = StoredValue::new(None::<usize>);
    let survey = book.survey;
    let look = move || {
        making.set(true);
        leptos::task::spawn_local(async move {
            let answer = ask_pages(&format!("/api/surveys/{survey}/report/pages")).await;
            making.try_set(false);
            pages.try_set(Some(answer));
        });
    };
    // The pages are set anew once what was written has reached the server.
    Effect::new(move |_| {
        let together = book.standing.get() == Standing::Together;
        let entries = book.state.with(survey::State::len);
        // Asked once for each state, and also when the state changed while something was being made.
        if together && !making.get() && asked_for.get_value() != Some(entries) {
            asked_for.set_value(Some(entries));
            look();
        }
    });
    let make = move |_| {
        making.set(true);
        leptos::task::spawn_local(async move {
            if let Err(why) = save_report(&format!("/api/surveys/{survey}/report.pdf")).await {
                bench.complain(why);
            }
            making.try_set(false);
        });
    };
    let most = RwSignal::new(PAGES_FIRST);
    view! {
        <div class="report">
            <Owed/>
            <Issuing/>
            <super::carry::CarryOff/>
            <section>
                <header class="section-head"><h2>"As it will print"</h2>
                    <button type="button" class="main" disabled=move || making.get() on:click=make>"Save the report as PDF"</button></header>
                <Show when=move || making.get()><p class="hush" role="status">"Setting the pages …"</p><div class="progress" aria-hidden="true"></div></Show>
                {move || match pages.get() {
                    None => view! { <p class="hush">"The pages are set by the server, once what is written here has reached it."</p><ReadHere/> }.into_any(),
                    Some(Err(why)) => view! { <p class="plain" role="alert">{why}</p><ReadHere/> }.into_any(),
                    Some(Ok((count, digest))) => view! {
                        <ol class="pages">{move || (1..=count.min(most.get())).map(|n| view! {
                            <li><figure><img src=format!("/api/surveys/{survey}/report/pages/{n}.svg?of={digest}") alt=format!("Page {n} of {count} of the report, as it will print; its text can be read in the PDF.") loading="lazy" decoding="async"/>
                            <figcaption>{format!("{n} of {count}")}</figcaption></figure></li>
                        }).collect_view()}</ol>
                        <Show when=move || { count > most.get() }><button type="button" class="quiet" on:click=move |_| most.set(u32::MAX)>{move || format!("Show all its {count} pages")}</button></Show>
                    }.into_any(),
                }}
            </section>
        </div>
    }
}

/// What the record still owes its reader, each with the way to where it is mended.
#[component]
fn Owed() -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let owed = Memo::new(move |_| {
        book.state.with(|state| {
            let found = checks::before_issue(state, &checks::Given::default());
            found
                .into_iter()
                .map(|shortfall| {
                    let blocks = shortfall.rule.weight == checks::Weight::Blocks;
                    (blocks, shortfall.words, shortfall.rule.reason, way_to(state, &shortfall.spot))
                })
                .collect::<Vec<_>>()
        })
    });
    let most = RwSignal::new(12_usize);
    let stops = Memo::new(move |_| owed.with(|all| all.iter().filter(|(blocks, ..)| *blocks).count()));
    view! {
        <section><header class="section-head"><h2>"Before it goes out"</h2>
            <p class="count">{move || owed.with(|all| match (stops.get(), all.len()) {
                (_, 0) => String::new(),
                (0, n) => format!("{n} things to consider"),
                (stops, n) => format!("{stops} stop it, {} to consider", n - stops),
            })}</p></header>
            <Show when=move || !owed.with(Vec::is_empty) fallback=|| view! { <p class="hush">"Nothing is owed."</p> }>
                <ul class="owed">{move || owed.get().into_iter().take(most.get()).map(|(blocks, words, reason, way)| view! {
                    <li class:blocks=blocks><span class="owed-mark">{if blocks { "Stops it" } else { "Consider" }}</span>
                        <span><span class="owed-words">{words}</span>" "<span class="hush">{reason}</span></span>
                        <a href=format!("/survey/{survey}/{way}")>"Mend it"</a></li>
                }).collect_view()}</ul>
                <Show when=move || { owed.with(Vec::len) > most.get() }><button type="button" class="quiet" on:click=move |_| most.set(usize::MAX)>"Show all of them"</button></Show>
            </Show>
        </section>
    }
}

/// Returns the place of the workbench where a thing is mended.
fn way_to(state: &survey::State, spot: &checks::Spot) -> String {
    let kind = spot.entry.and_then(|id| state.record(id)).map(|record| record.first().kind());
    match (kind.or(spot.wants), &spot.member) {
        (Some("finding"), _) => "bench/findings".to_owned(),
        (Some("recommendation"), _) => "bench/recommendations".to_owned(),
        (Some("reckoning"), _) => "bench/reckoners".to_owned(),
        (Some("brief" | "vessel" | "conditions" | "instrument" | "hull_form" | "member" | "beforehand"), _) => {
            "brief".to_owned()
        }
        (_, Some(member)) => format!("walk/{member}"),
        _ => match spot.entry.and_then(|id| state.find::<survey::payload::Observation>(id)) {
            Some(observation) => format!("walk/{}", observation.payload.member),
            None => "walk".to_owned(),
        },
    }
}

async fn ask(address: &str) -> Result<web_sys::Response, String> {
    let away = || "No server is in reach; it sets the pages. What is written stays kept here.".to_owned();
    let response = JsFuture::from(window().fetch_with_str(address)).await.map_err(|_| away())?;
    let response: web_sys::Response = response.dyn_into().map_err(|_| away())?;
    if response.ok() {
        return Ok(response);
    }
    let problem = match response.text() {
        Ok(text) => JsFuture::from(text).await.ok().and_then(|text| text.as_string()),
        Err(_) => None,
    };
    let detail = problem
        .and_then(|text| serde_json::from_str::<Value>(&text).ok())
        .and_then(|problem| problem.get("detail").and_then(Value::as_str).map(str::to_owned));
    Err(detail.unwrap_or_else(|| format!("The server answered {}.", response.status())))
}

async fn ask_pages(address: &str) -> Result<(u32, String), String> {
    let response = ask(address).await?;
    let text = JsFuture::from(response.text().map_err(|_| "The answer is empty.".to_owned())?).await;
    let text = text.ok().and_then(|text| text.as_string()).unwrap_or_default();
    let answer: Value = serde_json::from_str(&text).map_err(|_| "The server’s answer could not be read.".to_owned())?;
    let count = answer.get("pages").and_then(Value::as_u64).and_then(|n| u32::try_from(n).ok()).unwrap_or(0);
    let digest = answer.get("digest").and_then(Value::as_str).unwrap_or_default().to_owned();
    Ok((count, digest))
}

/// Fetches the report and hands it to the browser's own saving.
async fn save_report(address: &str) -> Result<(), String> {
    let response = ask(address).await?;
    let unread = || "The report could not be read from the server.".to_owned();
    let blob = JsFuture::from(response.blob().map_err(|_| unread())?).await.map_err(|_| unread())?;
    let blob: web_sys::Blob = blob.dyn_into().map_err(|_| unread())?;
    let url = web_sys::Url::create_object_url_with_blob(&blob).map_err(|_| unread())?;
    let link = document().create_element("a").map_err(|_| unread())?;
    let link: web_sys::HtmlAnchorElement = link.dyn_into().map_err(|_| unread())?;
    link.set_href(&url);
    link.set_download("report.pdf");
    link.click();
    let _ = web_sys::Url::revoke_object_url(&url);
    Ok(())
}
