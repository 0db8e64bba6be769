//! What a sheet shows, as a list, and the sieve that holds part of it back.

use super::board::method_of;
use super::{Drawn, Pointed};
use crate::book::Book;
use crate::look::RecordRow;
use crate::words::in_a_line;
use drawing::{Shape, Sheet};
use jiff::civil::Date;
use leptos::prelude::*;
use std::collections::BTreeSet;
use survey::{EntryId, Method, State};

/// Which marks are let through: methods not held back, and entries from a day on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sieve {
    held: BTreeSet<Method>,
    since: Option<Date>,
}

impl Sieve {
    /// Tells whether the mark of an entry is shown. Findings always are: they are what the hatching says.
    pub fn lets_through(&self, state: &State, id: EntryId) -> bool {
        let Some(record) = state.record(id) else { return true };
        let Some(method) = method_of(record.payload()) else { return true };
        // The day on which it was found out; that of the entry when it is the same.
        let seen_on = match record.payload() {
            survey::payload::Payload::Observation(o) => o.seen_on,
            _ => None,
        };
        let written = || record.first().time.utc().map(|t| jiff::tz::TimeZone::UTC.to_datetime(t).date());
        let day = seen_on.or_else(written);
        !self.held.contains(&method) && self.since.is_none_or(|since| day.is_none_or(|day| day >= since))
    }
}

/// The list beside a sheet.
#[component]
pub fn Shown(plan: Memo<Drawn>, pointed: RwSignal<Pointed>, sieve: RwSignal<Sieve>) -> impl IntoView {
    let book = Book::here();
    let all = Memo::new(move |_| {
        let ids =
            plan.get().plan.with_value(|plan| plan.as_ref().map(|plan| entries_of(&plan.sheet)).unwrap_or_default());
        let sieve = sieve.get();
        book.state.with(|state| {
            let shown = ids.into_iter().filter(|id| sieve.lets_through(state, *id));
            shown.filter_map(|id| Some((id, in_a_line(state, state.record(id)?)))).collect::<Vec<_>>()
        })
    });
    let methods = Memo::new(move |_| {
        book.state.with(|state| state.observations().map(|o| o.payload.reading.method()).collect::<BTreeSet<_>>())
    });
    let most = RwSignal::new(60_usize);
    view! {
        <details class="more"><summary>"Show only some"</summary>
            <div class="choices" role="group" aria-label="Methods shown">{move || methods.get().into_iter().map(|method| view! {
                <label class="several-one"><input type="checkbox" prop:checked=move || !sieve.with(|s| s.held.contains(&method))
                    on:change=move |e| sieve.update(|s| if event_target_checked(&e) { s.held.remove(&method); } else { s.held.insert(method); })/><span>{method.to_string()}</span></label>
            }).collect_view()}</div>
            <div class="field"><label for="since">"Seen since"</label><input id="since" type="date" on:input=move |e| sieve.update(|s| s.since = event_target_value(&e).parse().ok())/></div>
        </details>
        <h2>"On this sheet"</h2>
        <Show when=move || !all.with(Vec::is_empty) fallback=|| view! { <p class="teach">"Nothing is marked on this sheet yet. Point at a place to record there."</p> }>
            <ul class="on-sheet">
                <For each=move || { all.get().into_iter().take(most.get()).collect::<Vec<_>>() } key=|(id, line)| (*id, line.clone()) children=move |(id, line)| view! {
                    <li><button type="button" class="link" aria-pressed=move || (pointed.with(|p| p.entry) == Some(id)).to_string()
                        on:click=move |_| pointed.set(Pointed { entry: Some(id), ..Pointed::default() })>{line}</button></li>
                }/>
            </ul>
            <Show when=move || { all.with(Vec::len) > most.get() }><button type="button" class="quiet" on:click=move |_| most.update(|n| *n += 200)>"Show more of them"</button></Show>
        </Show>
    }
}

/// Returns the entries that a sheet names, each once, in the order of drawing.
fn entries_of(sheet: &Sheet) -> Vec<EntryId> {
    fn within(shapes: &[Shape], seen: &mut BTreeSet<EntryId>, all: &mut Vec<EntryId>) {
        for shape in shapes {
            let Shape::Group { data, shapes, .. } = shape else { continue };
            let entry = data.iter().find(|(name, _)| *name == "entry").and_then(|(_, entry)| entry.parse().ok());
            all.extend(entry.filter(|id| seen.insert(*id)));
            within(shapes, seen, all);
        }
    }
    let (mut seen, mut all) = (BTreeSet::new(), Vec::new());
    within(&sheet.shapes, &mut seen, &mut all);
    all
}

/// The entry pointed at, in full.
#[component]
pub fn PointedEntry(id: EntryId) -> impl IntoView {
    view! { <RecordRow id/> }
}
