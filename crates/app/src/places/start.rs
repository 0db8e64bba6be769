//! The first page: the surveys here and on the server, and the beginning of a new one.

use super::frame::set_author;
use crate::book::Workbench;
use crate::exchange::{ExchangeFault, list_surveys};
use crate::form::{BRIEF, Field, VESSEL};
use crate::look::{Dialog, FormState, FormView};
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use survey::SurveyId;
use survey::payload::Payload;
use uuid::Uuid;

/// A survey in the list.
#[derive(Clone, Debug, PartialEq)]
struct Listed {
    survey: String,
    name: String,
    about: String,
    standing: String,
    kept: bool,
}

/// The first page.
#[component]
pub fn Start() -> impl IntoView {
    let bench = Workbench::here();
    let surveys = RwSignal::new(None::<Vec<Listed>>);
    let away = RwSignal::new(None::<&str>);
    leptos::task::spawn_local(async move {
        let mut listed: BTreeMap<String, Listed> = BTreeMap::new();
        match list_surveys().await {
            Ok(all) => {
                for one in all {
                    if let Some(one) = listed_by_server(&one) {
                        listed.insert(one.survey.clone(), one);
                    }
                }
            }
            Err(fault) => {
                away.try_set(Some(match fault {
                    ExchangeFault::NotPaired => "This device is not paired with the workbench here, or not any more: ask for an invitation at the desk. What is kept on this device is here.",
                    _ => "No server is in reach. What is kept on this device is here.",
                }));
            }
        }
        let keep = bench.keep();
        match keep.surveys().await {
            Ok(kept) => {
                for one in kept {
                    let id = one.survey.to_string();
                    let standing = match one.waiting {
                        0 => "kept on this device".to_owned(),
                        n => format!("kept on this device; {n} to send"),
                    };
                    if let Some(listed) = listed.get_mut(&id) {
                        listed.standing = standing;
                        listed.kept = true;
                        continue;
                    }
                    let entries = keep.entries(one.survey).await.unwrap_or_default();
                    let state = survey::State::fold(one.survey, entries);
                    let name = state.vessel().map(|v| v.payload.name.clone()).unwrap_or_default();
                    let about = state.brief().map(|b| about(&b.payload.purpose, &b.payload.client)).unwrap_or_default();
                    listed.insert(id.clone(), Listed { survey: id, name, about, standing, kept: true });
                }
            }
            Err(fault) => bench.complain(fault.to_string()),
        }
        surveys.try_set(Some(listed.into_values().collect()));
    });
    document().set_title("Surveys – Ribband");
    let beginning = RwSignal::new(false);
    view! {
        <header class="head"><span class="home"><img src="/icon.svg" alt="" width="28" height="28"/></span><p class="boat">"Ribband"</p></header>
        <main class="start" id="place">
            <h1>"Surveys"</h1>
            <p class="lead">"The workbench for surveyors of wooden boats: what was seen, heard and measured, held fair until the report is built on it."</p>
            <div class="acts"><button type="button" class="main" on:click=move |_| beginning.set(true)>"Begin a survey"</button><super::carry::TakeIn/></div>
            {move || away.get().map(|why| view! { <p class="hush" role="status">{why}</p> })}
            {move || match surveys.get() {
                None => view! { <p class="hush" role="status">"Looking for surveys …"</p> }.into_any(),
                Some(all) if all.is_empty() => view! {
                    <section class="teach"><h2>"Nothing yet"</h2>
                        <p>"Begin a survey with its purpose and the boat’s name; everything else can follow. You will then find five places:"</p>
                        <ul><li><strong>"Brief"</strong>": what is asked, by whom, and what may be opened."</li>
                        <li><strong>"Hull"</strong>": the boat as a drawing."</li>
                        <li><strong>"Walk"</strong>": what you see, sound, probe and measure, member by member."</li>
                        <li><strong>"Bench"</strong>": weighing it, reckoning, findings and recommendations."</li>
                        <li><strong>"Report"</strong>": as it will print."</li></ul>
                    </section>
                }.into_any(),
                Some(all) => view! {
                    <ul class="surveys">{all.into_iter().map(|one| view! {
                        <li>{one.kept.then(|| { let id = one.survey.clone(); let name = one.name.clone(); view! { <button type="button" class="quiet take-off" on:click=move |_| take_off(bench, &id)>{format!("Take {name} off this device")}</button> } })}
                        <a href=format!("/survey/{}/hull", one.survey)>
                            <span class="survey-name">{if one.name.is_empty() { "A boat without a name".to_owned() } else { one.name }}</span>
                            <span class="survey-about">{one.about}</span><span class="survey-about">{one.standing}</span>
                        </a></li>
                    }).collect_view()}</ul>
                }.into_any(),
            }}
            <super::device::Device/>
            <super::devices::PairedDevices/>
            <p class="hush">"Ribband supports a surveyor’s judgement and replaces neither it nor local codes, class, flag or licensed engineers. Working under a hauled boat, in tanks and bilges, with old paint, gas and shore power has its own rules: keep them."</p>
        </main>
        <Dialog open=beginning title="Begin a survey"><Begin/></Dialog>
    }
}

/// Takes a survey off this device once all of it is on the server; the keep refuses before.
fn take_off(bench: Workbench, survey: &str) {
    let Ok(survey) = survey.parse::<SurveyId>() else { return };
    leptos::task::spawn_local(async move {
        match bench.keep().forget(survey).await {
            Ok(()) => {
                let _ = window().location().reload();
            }
            Err(fault) => bench.complain(fault.to_string()),
        }
    });
}

fn about(purpose: &str, client: &str) -> String {
    match (purpose, client) {
        ("", "") => String::new(),
        (purpose, "") => format!("{purpose} survey"),
        ("", client) => format!("for {client}"),
        (purpose, client) => format!("{purpose} survey for {client}"),
    }
}

fn listed_by_server(one: &Value) -> Option<Listed> {
    let text = |key: &str| one.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    let survey =
        Some(text("survey")).filter(|s| !s.is_empty()).or_else(|| Some(text("id")).filter(|s| !s.is_empty()))?;
    let name = [text("vessel"), text("name")].into_iter().find(|s| !s.is_empty()).unwrap_or_default();
    Some(Listed {
        survey,
        name,
        about: about(&text("purpose"), &text("client")),
        standing: "on the server".to_owned(),
        kept: false,
    })
}

fn first_of_brief(field: &Field) -> bool {
    matches!(
        field.key,
        "purpose"
            | "client"
            | "access_agreed"
            | "opening_agreed"
            | "intended_use"
            | "intended_waters"
            | "value_asked"
            | "language"
    )
}

fn first_of_vessel(field: &Field) -> bool {
    matches!(
        field.key,
        "name" | "vessel_type" | "construction" | "stern" | "built_year" | "length_mm" | "beam_mm" | "draft_mm"
    )
}

/// What a survey begins with: who writes, the purpose, the boat. All else can follow.
#[component]
fn Begin() -> impl IntoView {
    let bench = Workbench::here();
    // The words of the device's own language, until others are chosen.
    let own = window().navigator().language().unwrap_or_default();
    let brief = FormState::new(BRIEF, json!({ "language": survey::Language::suiting(&own).tag() }));
    let vessel = FormState::new(VESSEL, json!({}));
    let author = RwSignal::new(bench.author.get_untracked());
    let refused = RwSignal::new(None::<String>);
    let go = use_navigate();
    let begin = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        refused.set(None);
        let name = author.get_untracked().trim().to_owned();
        if name.is_empty() {
            return refused.set(Some("Say who writes here; your name goes with every entry.".to_owned()));
        }
        let (Some(brief), Some(vessel)) = (brief.read(), vessel.read()) else { return };
        let read = |kind: &str, value: &Value| {
            Payload::read_strict(kind, value).map_err(|fault| crate::book::sentence(&fault.to_string()))
        };
        let payloads = match (read("brief", &brief), read("vessel", &vessel)) {
            (Ok(Payload::Brief(mut brief)), Ok(vessel)) => {
                if brief.surveyor.is_empty() {
                    brief.surveyor.clone_from(&name);
                }
                vec![Payload::Brief(brief), vessel]
            }
            (Err(why), _) | (_, Err(why)) => return refused.set(Some(why)),
            _ => return,
        };
        set_author(bench, name.clone());
        let go = go.clone();
        leptos::task::spawn_local(async move {
            let survey = SurveyId::new(Uuid::now_v7());
            let named = payloads.into_iter().map(|payload| (crate::book::new_id(), payload)).collect();
            match bench.keep().write(survey, &name, named).await {
                Ok(_) => {
                    // Asked at the first thing worth keeping; what the browser answers is told under "This device".
                    let _ = bench.keep().ask_to_persist().await;
                    bench.say("The survey is begun.");
                    go(&format!("/survey/{survey}/brief"), Default::default());
                }
                Err(fault) => {
                    refused.try_set(Some(fault.to_string()));
                }
            }
        });
    };
    view! {
        <form class="entry-form" on:submit=begin novalidate>
            <div class="field">
                <label for="begin-author">"Who writes here"<span class="needed" aria-hidden="true">" *"</span></label>
                <input id="begin-author" type="text" autocomplete="name" prop:value=move || author.get() on:input=move |e| author.set(event_target_value(&e))/>
            </div>
            <FormView state=brief only=first_of_brief/>
            <FormView state=vessel only=first_of_vessel/>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts"><button type="submit" class="main">"Begin"</button></div>
        </form>
    }
}
