//! An entry as a row: what it says, its pictures, its history, and what can be done with it.

use super::dialog::Dialog;
use super::entry_form::{EntryForm, FormOf};
use crate::book::{Book, Workbench};
use crate::form::{fields_of, kind_in_words};
use crate::words::{in_a_line, when};
use leptos::prelude::*;
use survey::payload::Payload;
use survey::{Digest, EntryId};

/// Minutes west of UTC on this device.
pub fn minutes_west() -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "a whole number of minutes within a day")]
    let minutes = js_sys::Date::new_0().get_timezone_offset() as i32;
    minutes
}

/// Shows a record in a row, with its pictures and what can be done with it.
#[component]
pub fn RecordRow(id: EntryId) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let open = RwSignal::new(false);
    let asked = RwSignal::new(Asked::Nothing);
    // Each row is asked after every entry whether it is still the same; that must cost next to nothing.
    let version = Memo::new(move |_| {
        book.state.with(|state| {
            let record = state.record(id)?;
            Some((record.shown().id, record.versions().len(), record.is_withdrawn(), record.is_disputed()))
        })
    });
    let about = Memo::new(move |_| {
        // Read, not only followed: a memo that nobody reads follows nothing itself.
        version.get()?;
        book.state.with_untracked(|state| {
            let record = state.record(id)?;
            let first = record.first();
            Some(About {
                line: in_a_line(state, record),
                kind: first.kind().to_owned(),
                by: first.author.clone(),
                when: when(first.time.ms, minutes_west()),
                versions: record.versions().len(),
                withdrawn: record.is_withdrawn(),
                disputed: record.is_disputed(),
                hearsay: matches!(record.payload(), Payload::Observation(o) if o.is_hearsay()),
                adverse: matches!(record.payload(), Payload::Observation(o) if o.reading.is_adverse()),
            })
        })
    });
    let reason = RwSignal::new(String::new());
    let withdraw = move |_| {
        let why = reason.get_untracked();
        if why.trim().is_empty() {
            return bench.complain("Say why it is withdrawn; it stays readable in the field book.");
        }
        leptos::task::spawn_local(async move {
            match book.withdraw(id, why.trim()).await {
                Ok(()) => open.set(false),
                Err(fault) => bench.complain(fault),
            }
        });
    };
    let title = Signal::derive(move || about.get().map(|a| capital(kind_in_words(&a.kind))).unwrap_or_default());
    view! {
        {move || about.get().map(|a| view! {
            <article class="record" class:withdrawn=a.withdrawn class:hearsay=a.hearsay data-entry=id.to_string()>
                <button type="button" class="record-open" on:click=move |_| { asked.set(Asked::Nothing); open.set(true) }>
                    <span class="record-line">
                        {a.adverse.then(|| view! { <span class="adverse" aria-label="speaks against it">"▲ "</span> })}
                        {a.line.clone()}
                    </span>
                    <span class="record-about">
                        {a.withdrawn.then_some("withdrawn · ")}
                        {a.disputed.then_some("two versions stand against each other · ")}
                        {a.hearsay.then_some("hearsay · ")}
                        {a.by.clone()}" · "{a.when.clone()}
                        {(a.versions > 1).then(|| format!(" · amended {}", times(a.versions - 1)))}
                    </span>
                </button>
                <Photographs of=id small=true/>
            </article>
        })}
        <Dialog open title>
            <p class="record-line">{move || about.get().map(|a| a.line)}</p>
            <Photographs of=id small=false/>
            <Sounds of=id/>
            {move || match asked.get() {
                Asked::Nothing => {
                    let amendable = about.get().is_some_and(|a| !fields_of(&a.kind).is_empty());
                    view! {
                        <div class="acts">
                            {amendable.then(|| view! { <button type="button" class="main" on:click=move |_| asked.set(Asked::Amending)>"Amend"</button> })}
                            <button type="button" on:click=move |_| asked.set(Asked::Withdrawing)>"Withdraw"</button>
                        </div>
                        <History id/>
                    }.into_any()
                }
                Asked::Amending => view! {
                    <EntryForm of=FormOf::Amend(id) done=move |_| open.set(false)/>
                }.into_any(),
                Asked::Withdrawing => view! {
                    {move || Some(book.state.with(|state| hangs_on(state, id))).filter(|hangs| !hangs.is_empty()).map(|hangs| view! {
                        <div class="plain"><p>"These rest on it and will stand without it:"</p>
                            <ul>{hangs.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul></div>
                    })}
                    <div class="field">
                        <label for="why-withdrawn">"Why it is withdrawn"</label>
                        <input id="why-withdrawn" type="text" autocomplete="off" prop:value=move || reason.get() on:input=move |e| reason.set(event_target_value(&e))/>
                    </div>
                    <div class="acts"><button type="button" class="main" on:click=withdraw>"Withdraw"</button>
                    <button type="button" on:click=move |_| asked.set(Asked::Nothing)>"Leave it"</button></div>
                }.into_any(),
            }}
        </Dialog>
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Asked {
    Nothing,
    Amending,
    Withdrawing,
}

#[derive(Clone, PartialEq)]
struct About {
    line: String,
    kind: String,
    by: String,
    when: String,
    versions: usize,
    withdrawn: bool,
    disputed: bool,
    hearsay: bool,
    adverse: bool,
}

/// Returns what rests on an entry, each in a line.
fn hangs_on(state: &survey::State, id: EntryId) -> Vec<String> {
    state
        .records()
        .into_iter()
        .filter(|record| !record.is_withdrawn())
        .filter(|record| match record.payload() {
            Payload::Finding(f) => f.basis.contains(&id),
            Payload::Recommendation(r) => r.findings.contains(&id),
            Payload::EstimateLine(l) => l.recommendation == Some(id),
            Payload::FollowUp(f) => f.recommendation == id,
            _ => false,
        })
        .map(|record| in_a_line(state, record))
        .collect()
}

fn times(n: usize) -> String {
    match n {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The versions of an entry, latest first, with who, when and why.
#[component]
fn History(id: EntryId) -> impl IntoView {
    let book = Book::here();
    let versions = Memo::new(move |_| {
        book.state.with(|state| {
            let Some(record) = state.record(id) else { return Vec::new() };
            let shown = record.shown().id;
            record
                .versions()
                .into_iter()
                .rev()
                .map(|version| {
                    let why = match &version.payload {
                        Payload::Amendment(a) if version.id != id => a.why.clone(),
                        _ => "as first written".to_owned(),
                    };
                    let said = record
                        .payload_at(version)
                        .map_or_else(|| "withdrawn".to_owned(), |payload| differences(&payload));
                    (
                        version.id == shown,
                        version.author.clone(),
                        when(version.time.ms, minutes_west()),
                        version.device.clone(),
                        why,
                        said,
                    )
                })
                .collect::<Vec<_>>()
        })
    });
    view! {
        <h3>"History"</h3>
        <ol class="history" reversed>
            {move || versions.get().into_iter().map(|(shown, by, when, device, why, said)| view! {
                <li class:shown=shown>
                    <p><strong>{why}</strong>{shown.then_some(" · this one shows")}</p>
                    <p class="record-about">{by}" · "{when}" · "{device}</p>
                    <p class="history-said">{said}</p>
                </li>
            }).collect_view()}
        </ol>
    }
}

/// Returns what a version says, in words a person can compare.
fn differences(payload: &Payload) -> String {
    let Ok(value) = serde_json::from_str::<serde_json::Value>(&payload.to_json()) else { return String::new() };
    let system = Workbench::here().units.get_untracked();
    let fields = fields_of(payload.kind());
    let typed = crate::form::fill(fields, &value, system);
    let parts: Vec<String> = fields
        .iter()
        .filter(|field| field.is_asked(&typed))
        .filter_map(|field| {
            let text = typed.get(field.key).filter(|text| !text.is_empty())?;
            let text = match &field.kind {
                crate::form::Kind::Entries(_) => format!("{} entries", text.lines().count()),
                crate::form::Kind::Choice(choices) => choices()
                    .into_iter()
                    .find(|choice| choice.value == *text)
                    .map_or_else(|| text.clone(), |choice| choice.words),
                _ => text.replace('\n', "; "),
            };
            Some(format!("{}: {text}", field.label))
        })
        .collect();
    parts.join(" · ")
}

/// The pictures of an entry.
#[component]
pub fn Photographs(of: EntryId, small: bool) -> impl IntoView {
    let book = Book::here();
    let changes = Memo::new(move |_| book.state.with(survey::State::attachment_changes));
    let all = Memo::new(move |_| {
        changes.get();
        book.state.with_untracked(|state| {
            state
                .attachments_of(of)
                .filter(|a| a.payload.media_type.starts_with("image/"))
                .map(|a| {
                    let words =
                        if a.payload.alternative.is_empty() { &a.payload.caption } else { &a.payload.alternative };
                    let words =
                        if words.is_empty() { format!("photograph {}", a.payload.file_name) } else { words.clone() };
                    (a.payload.sha256, words)
                })
                .collect::<Vec<_>>()
        })
    });
    view! {
        <Show when=move || !all.with(Vec::is_empty)>
            <div class="photographs" class:small=small>
                <For each=move || all.get() key=|(sha256, _)| *sha256 children=move |(sha256, words)| view! { <Photograph sha256 words/> }/>
            </div>
        </Show>
    }
}

/// The recordings of an entry, to be heard.
#[component]
fn Sounds(of: EntryId) -> impl IntoView {
    let book = Book::here();
    let changes = Memo::new(move |_| book.state.with(survey::State::attachment_changes));
    let all = Memo::new(move |_| {
        changes.get();
        book.state.with_untracked(|state| {
            let sounds = state.attachments_of(of).filter(|a| a.payload.media_type.starts_with("audio/"));
            sounds.map(|a| (a.payload.sha256, a.payload.caption.clone())).collect::<Vec<_>>()
        })
    });
    view! {
        <For each=move || all.get() key=|(sha256, _)| *sha256 children=move |(sha256, words)| {
            let address = address_of(sha256);
            view! {
                <figure class="sound-of">
                    <audio controls aria-label=words.clone() src=move || address.get().and_then(Result::ok)></audio>
                    <figcaption>{move || match address.get() {
                        Some(Err(())) => format!("{words} (it is not on this device)"),
                        _ => words.clone(),
                    }}</figcaption>
                </figure>
            }
        }/>
    }
}

/// Fetches an attachment, from this browser's store or else from the server, and gives it an address as long as it is
/// shown; an error when no one in reach has it.
fn address_of(sha256: Digest) -> RwSignal<Option<Result<String, ()>>> {
    let bench = Workbench::here();
    let address = RwSignal::new(None);
    leptos::task::spawn_local(async move {
        let fetched = crate::exchange::fetch_attachment(&bench.keep(), sha256).await.map_err(|_| ());
        let made = fetched.and_then(|blob| web_sys::Url::create_object_url_with_blob(&blob).map_err(|_| ()));
        address.try_set(Some(made));
    });
    on_cleanup(move || {
        if let Some(Ok(address)) = address.try_get_untracked().flatten() {
            let _ = web_sys::Url::revoke_object_url(&address);
        }
    });
    address
}

/// One picture, from this browser's store or else from the server.
#[component]
fn Photograph(sha256: Digest, words: String) -> impl IntoView {
    let address = address_of(sha256);
    view! {
        {move || match address.get() {
            Some(Ok(address)) => view! { <img src=address alt=words.clone() loading="lazy"/> }.into_any(),
            Some(Err(())) => view! { <span class="no-picture">{format!("{} (the picture is not on this device)", words)}</span> }.into_any(),
            None => view! { <span class="no-picture" aria-label="fetching the picture">"…"</span> }.into_any(),
        }}
    }
}
