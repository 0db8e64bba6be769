//! One member: what is known of its kind, what is recorded of it, and recording.

use super::record::Record;
use crate::book::Book;
use crate::look::RecordRow;
use crate::words::member_name;
use leptos::prelude::*;
use survey::EntryId;

/// One member: what the catalogue knows of it, what is recorded, and recording.
#[component]
pub fn OneMember(member: String) -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let id = StoredValue::new(member.clone());
    let name = Memo::new(move |_| book.state.with(|state| id.with_value(|id| member_name(state, id))));
    let entries = Memo::new(move |_| {
        book.state.with(|state| {
            id.with_value(|id| {
                let seen = state.observations().filter(|o| o.payload.member == *id).map(|o| o.id());
                let not_seen = state.not_seen().filter(|n| n.payload.member == *id).map(|n| n.id());
                let findings = state.findings().filter(|f| f.payload.member == *id).map(|f| f.id());
                let mut all: Vec<EntryId> = findings.chain(seen).chain(not_seen).collect();
                all.sort_by_cached_key(|id| std::cmp::Reverse(state.record(*id).map(|r| r.first().order())));
                all
            })
        })
    });
    let shown = RwSignal::new(16_usize);
    // An address may name what she does not have; before her entries are read nobody can tell.
    let is_hers = Memo::new(move |_| {
        !book.is_read.get()
            || book.state.with(|state| {
                id.with_value(|id| {
                    survey::catalogue_member(id).is_some() || survey::members_of(state).iter().any(|m| m.id == *id)
                })
            })
    });
    let body = move || {
        view! {
                <h2>{move || name.get()}</h2>
                <Known member=member.clone()/>
                <Record member=member.clone()/>
                <h3>"Recorded"</h3>
                <Show when=move || !entries.with(Vec::is_empty) fallback=|| view! { <p class="teach">"Nothing is recorded of it yet."</p> }>
                    <div class="records"><For each=move || { entries.get().into_iter().take(shown.get()).collect::<Vec<_>>() } key=|id| *id children=move |id| view! { <RecordRow id/> }/></div>
                    <Show when=move || { entries.with(Vec::len) > shown.get() }><button type="button" class="quiet" on:click=move |_| shown.update(|n| *n += 100)>"Show older ones"</button></Show>
                </Show>
        }
    };
    view! {
        <section class="panel member">
            <p class="back"><a href=format!("/survey/{survey}/walk")>"All members"</a></p>
            <Show when=move || is_hers.get() fallback=move || view! {
                <p class="teach">{move || format!("She has no member called “{}”. Choose one from the list, or add it in the brief, under her own members.", id.get_value())}</p>
            }>{body()}</Show>
        </section>
    }
}

/// What the catalogue says of a member, to look for and by.
#[component]
fn Known(member: String) -> impl IntoView {
    survey::catalogue_member(&member).map(|known| {
        let rows = [
            ("Also called", known.other_names.as_str()),
            ("Usually fails by", &known.usual_failures),
            ("Signs", &known.signs),
            ("Usually tried by", &known.usual_tests),
            ("Reached from", &known.usual_access),
            ("Often hidden because", &known.why_inaccessible),
        ];
        view! {
            <details class="more"><summary>"What to look for"</summary>
                <dl class="said">{rows.into_iter().filter(|(_, text)| !text.is_empty()).map(|(label, text)| view! { <div><dt>{label}</dt><dd>{text.replace(';', "; ")}</dd></div> }).collect_view()}</dl>
                <p class="hush">{format!("Source: {}.", known.source)}</p>
            </details>
        }
    })
}
