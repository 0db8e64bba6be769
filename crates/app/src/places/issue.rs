//! Issuing the report: to whom, what changed, which checks are overruled and why; and the versions that went out.

use super::client_links::ClientLinks;
use crate::book::{Book, Workbench};
use crate::exchange::Standing;
use leptos::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use survey::checks::{self, Weight};
use survey::{Digest, EntryId};
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;

/// A version that went out.
#[derive(Clone, PartialEq)]
struct Version {
    entry: EntryId,
    number: u32,
    date: String,
    to: String,
    against: usize,
    files: Vec<(Digest, String)>,
}

/// The checks that stop the issue, each once, with how often it does.
fn stopping(state: &survey::State) -> Vec<(&'static str, &'static str, usize)> {
    let mut rules: Vec<(&'static str, &'static str, usize)> = Vec::new();
    for found in checks::before_issue(state, &checks::Given::default()) {
        if found.rule.weight != Weight::Blocks {
            continue;
        }
        match rules.iter_mut().find(|(name, ..)| *name == found.rule.name) {
            Some((.., count)) => *count += 1,
            None => rules.push((found.rule.name, found.rule.asks, 1)),
        }
    }
    rules
}

fn versions(state: &survey::State) -> Vec<Version> {
    let one = |view: survey::View<'_, survey::payload::ReportIssued>| {
        let files = state.attachments_of(view.id()).filter(|a| !a.payload.media_type.starts_with("image/"));
        Version {
            entry: view.id(),
            number: view.payload.version,
            date: view.payload.date.to_string(),
            to: view.payload.addressees.join(", "),
            against: view.payload.issue.as_ref().map_or(0, |issue| issue.against.len()),
            files: files.map(|a| (a.payload.sha256, a.payload.file_name.clone())).collect(),
        }
    };
    let mut all: Vec<Version> = state.reports_issued().map(one).collect();
    all.sort_by_key(|version| std::cmp::Reverse(version.number));
    all
}

/// Issuing, and what was issued.
#[component]
pub fn Issuing() -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    // At once and not later: what grows above a button moves it away from under the thumb.
    let rules = Memo::new(move |_| book.state.with(stopping));
    let issued = Memo::new(move |_| book.state.with(versions));
    let next = Memo::new(move |_| issued.with(|all| all.first().map_or(1, |version| version.number + 1)));
    let to = RwSignal::new(String::new());
    let of_brief = book.later(|state| state.brief().map(|b| b.payload.addressees.join("\n")).unwrap_or_default());
    Effect::new(move |_| to.set(of_brief.get()));
    let changes = RwSignal::new(String::new());
    let reasons = RwSignal::new(BTreeMap::<&'static str, String>::new());
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let together = Memo::new(move |_| book.standing.get() == Standing::Together);
    let lacking = Memo::new(move |_| {
        rules.with(|rules| {
            reasons.with(|reasons| {
                rules.iter().filter(|(name, ..)| reasons.get(name).is_none_or(|why| why.trim().is_empty())).count()
            })
        })
    });
    let survey = book.survey;
    let issue = move |_| {
        refused.set(None);
        let author = bench.author.get_untracked();
        let against: BTreeMap<&str, String> = reasons.with_untracked(|all| {
            all.iter()
                .filter(|(_, why)| !why.trim().is_empty())
                .map(|(rule, why)| (*rule, why.trim().to_owned()))
                .collect()
        });
        let wish = json!({
            "author": author.trim(),
            "addressees": to.get_untracked().lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>(),
            "changes": changes.get_untracked().trim(),
            "against": against,
        });
        busy.set(true);
        leptos::task::spawn_local(async move {
            let answer = post(&format!("/api/surveys/{survey}/report/issue"), &wish).await;
            busy.try_set(false);
            match answer {
                Ok(answer) => {
                    reasons.try_set(BTreeMap::new());
                    changes.try_set(String::new());
                    bench.say(format!("Version {} is issued, {} pages.", answer["version"], answer["pages"]));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    view! {
        <section class="issuing">
            <header class="section-head"><h2>"Issue it"</h2></header>
            <p class="hush">"The field book is frozen as it stands, the report set and signed with the surveyor's key kept on the desk that serves this page, and the exact bytes are kept. What is written afterwards needs another version."</p>
            <div class="fields">
                <div class="field"><label for="issue-to">"To whom, a line each"</label>
                    <textarea id="issue-to" rows="2" prop:value=move || to.get() on:input=move |e| to.set(event_target_value(&e))></textarea></div>
                <Show when=move || { next.get() > 1 }>
                    <div class="field"><label for="issue-changes">{move || format!("What changed since version {}", next.get() - 1)}</label>
                        <textarea id="issue-changes" rows="2" prop:value=move || changes.get() on:input=move |e| changes.set(event_target_value(&e))></textarea></div>
                </Show>
                <For each=move || rules.get() key=|rule| *rule children=move |(name, asks, count)| {
                    let id = format!("against-{name}");
                    view! {
                        <div class="field"><label for=id.clone()>{format!("Why it goes out though this is not met, at {count} {}: {asks}", if count == 1 { "place" } else { "places" })}</label>
                            <input id=id type="text" autocomplete="off" prop:value=move || reasons.with(|all| all.get(name).cloned().unwrap_or_default()) on:input=move |e| reasons.update(|all| { all.insert(name, event_target_value(&e)); })/>
                            <span class="about">"The certificate prints the reason. Better to mend it above."</span></div>
                    }
                }/>
            </div>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts"><button type="button" class="main" disabled=move || busy.get() || !together.get() || (lacking.get() > 0) on:click=issue>{move || format!("Issue version {}", next.get())}</button></div>
            <p class="hush">{move || match (together.get(), lacking.get()) {
                (false, _) => "What is written here must have reached the server first.".to_owned(),
                (true, 0) => String::new(),
                (true, 1) => "One check stops it: mend what it names, or say why it goes out all the same.".to_owned(),
                (true, n) => format!("{n} checks stop it: mend what they name, or say for each why it goes out all the same."),
            }}</p>
            <Show when=move || issued.with(|all| !all.is_empty())>
                <h3>"Versions that went out"</h3>
                <ul class="versions">{move || issued.get().into_iter().map(|version| {
                    let to = if version.to.is_empty() { String::new() } else { format!(", to {}", version.to) };
                    let against = match version.against {
                        0 => String::new(),
                        1 => "; against one check".to_owned(),
                        n => format!("; against {n} checks"),
                    };
                    view! {
                        <li><span>{format!("Version {} of {}{to}{against}", version.number, version.date)}</span>
                            <span class="acts">{version.files.into_iter().map(|(sha256, name)| view! { <a class="button" href=format!("/api/attachments/{sha256}") download=name.clone()>{name.clone()}</a> }).collect_view()}</span></li>
                    }
                }).collect_view()}</ul>
                <ClientLinks versions=Signal::derive(move || issued.with(|all| all.iter().map(|version| (version.number, version.entry)).collect()))/>
            </Show>
        </section>
    }
}

/// Sends JSON and reads the answer.
async fn post(address: &str, body: &Value) -> Result<Value, String> {
    let away = || "No server is in reach; the report was not issued.".to_owned();
    let headers = web_sys::Headers::new().map_err(|_| away())?;
    headers.set("content-type", "application/json").map_err(|_| away())?;
    let init = web_sys::RequestInit::new();
    init.set_method("POST");
    init.set_headers(&headers);
    init.set_body(&body.to_string().into());
    let response = JsFuture::from(window().fetch_with_str_and_init(address, &init)).await.map_err(|_| away())?;
    let response: web_sys::Response = response.dyn_into().map_err(|_| away())?;
    let text = JsFuture::from(response.text().map_err(|_| away())?).await.map_err(|_| away())?;
    let answer: Value = serde_json::from_str(&text.as_string().unwrap_or_default())
        .map_err(|_| "The server’s answer could not be read.".to_owned())?;
    match answer.get("detail").and_then(Value::as_str) {
        Some(detail) if !response.ok() => Err(detail.to_owned()),
        _ if !response.ok() => Err(format!("The server answered {}.", response.status())),
        _ => Ok(answer),
    }
}
