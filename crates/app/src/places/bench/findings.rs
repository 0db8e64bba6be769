//! Findings and recommendations: only a person writes them.

use crate::book::Book;
use crate::look::{ConditionMark, Dialog, EntryForm, FormOf, RecordRow};
use leptos::prelude::*;
use serde_json::json;
use survey::payload::Urgency;

/// All findings, worst first, and the writing of one.
#[component]
pub fn Findings() -> impl IntoView {
    let book = Book::here();
    let writing = RwSignal::new(None::<FormOf>);
    let open = RwSignal::new(false);
    let ask = move |form: FormOf| {
        writing.set(Some(form));
        open.set(true);
    };
    let title = Signal::derive(move || writing.get().map(|f| f.title()).unwrap_or_default());
    let all = Memo::new(move |_| {
        book.state.with(|state| {
            let answered: std::collections::BTreeSet<_> =
                state.recommendations().flat_map(|r| r.payload.findings.clone()).collect();
            let mut all: Vec<_> = state
                .findings()
                .map(|f| {
                    (
                        f.payload.condition,
                        f.id(),
                        f.payload.title.clone(),
                        answered.contains(&f.id()),
                        f.payload.basis.is_empty(),
                    )
                })
                .collect();
            all.sort_by_key(|(condition, ..)| std::cmp::Reverse(*condition));
            all
        })
    });
    let speaking = Memo::new(move |_| unanswered(book));
    view! {
        <section>
            <div class="acts"><button type="button" class="main" on:click=move |_| ask(FormOf::New("finding", json!({})))>"Write a finding"</button></div>
            <Show when=move || !speaking.with(Vec::is_empty)>
                <div class="plain"><p>"Readings speak against these members, and no finding says what you make of it:"</p>
                    <ul>{move || speaking.get().into_iter().map(|(member, name, n)| view! {
                        <li><button type="button" class="link" on:click=move |_| ask(FormOf::New("finding", json!({"member": member})))>{name}</button>
                        {format!(" ({n} {})", if n == 1 { "reading" } else { "readings" })}</li>
                    }).collect_view()}</ul></div>
            </Show>
            <Show when=move || !all.with(Vec::is_empty) fallback=|| view! { <p class="teach">"A finding is your conclusion about a member: how it stands, what is probably the matter, what it rests on and how sure you are. Nothing here concludes for you."</p> }>
                <div class="records"><For each=move || all.get() key=|(condition, id, title, answered, bare)| (condition.to_string(), *id, title.clone(), *answered, *bare) children=move |(condition, id, title, answered, bare)| view! {
                    <div class="finding"><ConditionMark condition/><RecordRow id/>
                        {bare.then(|| view! { <p class="fault">"It rests on nothing yet: amend it and choose its observations."</p> })}
                        {(!answered).then(|| view! { <button type="button" class="quiet" aria-label=format!("Recommend something for {title}") on:click=move |_| ask(FormOf::New("recommendation", json!({"findings": [id.to_string()]})))>"Recommend something"</button> })}
                    </div>
                }/></div>
            </Show>
        </section>
        <Dialog open title>{move || writing.get().map(|form| view! { <EntryForm of=form done=move |_| open.set(false)/> })}</Dialog>
    }
}

/// Returns the members with adverse readings and no finding: name in the record, what it is called, how many readings.
fn unanswered(book: Book) -> Vec<(String, String, usize)> {
    book.state.with(|state| {
        let found: std::collections::BTreeSet<&str> = state.findings().map(|f| f.payload.member.as_str()).collect();
        let mut counts: std::collections::BTreeMap<&str, usize> = std::collections::BTreeMap::new();
        for o in state
            .observations()
            .filter(|o| o.payload.reading.is_adverse() && !found.contains(o.payload.member.as_str()))
        {
            *counts.entry(o.payload.member.as_str()).or_default() += 1;
        }
        counts.into_iter().map(|(id, n)| (id.to_owned(), crate::words::member_name(state, id), n)).collect()
    })
}

/// All recommendations, by urgency, and the writing of one.
#[component]
pub fn Recommendations() -> impl IntoView {
    let book = Book::here();
    let open = RwSignal::new(false);
    let groups = Memo::new(move |_| {
        book.state.with(|state| {
            Urgency::ALL
                .iter()
                .map(|urgency| {
                    let ids: Vec<_> =
                        state.recommendations().filter(|r| r.payload.urgency == *urgency).map(|r| r.id()).collect();
                    (*urgency, ids)
                })
                .filter(|(_, ids)| !ids.is_empty())
                .collect::<Vec<_>>()
        })
    });
    view! {
        <section>
            <div class="acts"><button type="button" class="main" on:click=move |_| open.set(true)>"Write a recommendation"</button></div>
            <Show when=move || !groups.with(Vec::is_empty) fallback=|| view! { <p class="teach">"A recommendation says what is to be done, when, by whom, and how it is shown to be done. It answers findings."</p> }>
                {move || groups.get().into_iter().map(|(urgency, ids)| view! {
                    <h2 class="urgency">{urgency.to_string()}</h2>
                    <div class="records">{ids.into_iter().map(|id| view! { <RecordRow id/> }).collect_view()}</div>
                }).collect_view()}
            </Show>
        </section>
        <Dialog open title="New recommendation"><EntryForm of=FormOf::New("recommendation", json!({})) done=move |_| open.set(false)/></Dialog>
    }
}
