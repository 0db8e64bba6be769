//! Brief: what is asked, the boat, her shape, the days, the instruments, and her own members.

use crate::book::{Book, Workbench};
use crate::form::{Kind, fields_of, fill, kind_in_words};
use crate::look::{Dialog, EntryForm, FormOf, RecordRow};
use leptos::prelude::*;
use serde_json::{Value, json};
use survey::EntryId;

/// The place.
#[component]
pub fn Brief() -> impl IntoView {
    let book = Book::here();
    let of = RwSignal::new(None::<FormOf>);
    let open = RwSignal::new(false);
    let title = Signal::derive(move || of.get().map(|f| f.title()).unwrap_or_default());
    let ask = move |form: FormOf| {
        of.set(Some(form));
        open.set(true);
    };
    let one = move |kind: &'static str| {
        let id = Memo::new(move |_| {
            book.state.with(|state| {
                state.records_of(kind).filter(|r| !r.is_withdrawn()).last().map(|record| record.first().id)
            })
        });
        let form = move || match id.get_untracked() {
            Some(id) => FormOf::Amend(id),
            None => FormOf::New(kind, json!({})),
        };
        (id, move |_: web_sys::MouseEvent| ask(form()))
    };
    let (brief, change_brief) = one("brief");
    let (vessel, change_vessel) = one("vessel");
    let (form, change_form) = one("hull_form");
    view! {
        <div class="sections">
            <section>
                <header class="section-head"><h2>"What is asked"</h2><button type="button" on:click=change_brief>"Change"</button></header>
                <Said id=brief empty="Say what the survey is for, for whom, and what access and opening up is agreed."/>
            </section>
            <section>
                <header class="section-head"><h2>"The boat"</h2><button type="button" on:click=change_vessel>"Change"</button></header>
                <Said id=vessel empty="Her name first; her timbers, fastenings and counts of strakes and frames let her be drawn and reckoned."/>
            </section>
            <section>
                <header class="section-head"><h2>"Her shape"</h2><button type="button" on:click=change_form>"Change"</button></header>
                <Said id=form empty="Strakes, frames and their spacing give the drawing its places; a table of offsets, if there is one, her true shape."/>
            </section>
            <section>
                <header class="section-head"><h2>"The days"</h2><button type="button" on:click=move |_| ask(FormOf::New("conditions", json!({"date": today()})))>"Add a day"</button></header>
                <Rows kind="conditions" empty="When you were there, how she lay, the weather, and since when she has been ashore: a dried plank is judged by it."/>
            </section>
            <section>
                <header class="section-head"><h2>"Instruments"</h2><button type="button" on:click=move |_| ask(FormOf::New("instrument", json!({})))>"Add one"</button></header>
                <Rows kind="instrument" empty="What readings were taken with, and how it was checked."/>
            </section>
            <section>
                <header class="section-head"><h2>"Her own members"</h2><button type="button" on:click=move |_| ask(FormOf::New("member", json!({"has": true})))>"Add a member"</button></header>
                <Rows kind="member" empty="Her members come from the catalogue for her kind of planking. Add what she has besides, or strike off what she lacks."/>
            </section>
        </div>
        <Dialog open title>
            {move || of.get().map(|form| view! { <EntryForm of=form done=move |_| open.set(false)/> })}
        </Dialog>
    }
}

/// Returns today's date on this device.
pub fn today() -> String {
    let date = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", date.get_full_year(), date.get_month() + 1, date.get_date())
}

/// What one entry says, field by field.
#[component]
fn Said(id: Memo<Option<EntryId>>, empty: &'static str) -> impl IntoView {
    let book = Book::here();
    let units = Workbench::here().units;
    let said = Memo::new(move |_| {
        let id = id.get()?;
        book.state.with(|state| {
            let record = state.record(id)?;
            let value: Value = serde_json::from_str(&record.payload().to_json()).ok()?;
            let fields = fields_of(record.first().kind());
            let typed = fill(fields, &value, units.get());
            Some(
                fields
                    .iter()
                    .filter_map(|field| {
                        let text = typed.get(field.key).filter(|text| !text.is_empty())?;
                        let text = match &field.kind {
                            Kind::Choice(choices) => choices()
                                .into_iter()
                                .find(|c| c.value == *text)
                                .map_or_else(|| text.clone(), |c| c.words),
                            Kind::Number(unit) => format!("{text} {unit}"),
                            _ => text.clone(),
                        };
                        Some((field.label, text))
                    })
                    .collect::<Vec<_>>(),
            )
        })
    });
    view! {
        {move || match said.get() {
            None => view! { <p class="teach">{empty}</p> }.into_any(),
            Some(rows) => view! {
                <dl class="said">{rows.into_iter().map(|(label, text)| view! { <div><dt>{label}</dt><dd>{text}</dd></div> }).collect_view()}</dl>
                {id.get().map(|id| view! { <details class="more"><summary>"History of this entry"</summary><RecordRow id/></details> })}
            }.into_any(),
        }}
    }
}

/// The entries of a kind, in rows.
#[component]
pub fn Rows(kind: &'static str, empty: &'static str) -> impl IntoView {
    let book = Book::here();
    let ids = Memo::new(move |_| {
        book.state.with(|state| {
            state.records_of(kind).filter(|r| !r.is_withdrawn()).map(|r| r.first().id).collect::<Vec<_>>()
        })
    });
    view! {
        <Show when=move || !ids.with(Vec::is_empty) fallback=move || view! { <p class="teach">{empty}</p> }>
            <div class="records" aria-label=kind_in_words(kind)>
                <For each=move || ids.get() key=|id| *id children=move |id| view! { <RecordRow id/> }/>
            </div>
        </Show>
    }
}
