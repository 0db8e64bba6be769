//! Walk: the members of this boat, what is recorded of each, what is still owed, and the recording itself.

use super::photos::{Photos, keep_photos};
use crate::book::{Book, Workbench, new_id, sentence};
use crate::form::OBSERVATION;
use crate::look::{ConditionMark, CoverMark, FormState, FormView, RecordRow};
use crate::words::member_name;
use leptos::prelude::*;
use leptos_router::hooks::use_query_map;
use serde_json::json;
use survey::payload::{Condition, NotSeen, Observation, Payload};
use survey::{Cover, EntryId};

/// The place: members beside the member chosen; on a narrow screen one after the other.
#[component]
pub fn Walk(what: Memo<String>) -> impl IntoView {
    view! {
        <div class="walk" class:chosen=move || !what.get().is_empty()>
            <Members what/>
            {move || match what.get() {
                none if none.is_empty() => view! { <Beginning/> }.into_any(),
                member => view! { <OneMember member/> }.into_any(),
            }}
        </div>
    }
}

#[component]
fn Beginning() -> impl IntoView {
    let book = Book::here();
    let latest = Memo::new(move |_| {
        book.state.with(|state| {
            state
                .records()
                .into_iter()
                .rev()
                .filter(|r| matches!(r.payload(), Payload::Observation(_) | Payload::NotSeen(_)))
                .take(20)
                .map(|r| r.first().id)
                .collect::<Vec<_>>()
        })
    });
    view! {
        <section class="panel">
            <Show when=move || !latest.with(Vec::is_empty) fallback=|| view! {
                <div class="teach"><h2>"Begin anywhere"</h2>
                <p>"Choose a member and record what you see, hear and measure on it: the place, how you tried it, and what it gave. A member you cannot get at is recorded too, with what stood in the way; the report says so."</p>
                <p>"The marks beside the members tell what is still owed."</p></div>
            }>
                <h2>"Last recorded"</h2>
                <div class="records"><For each=move || latest.get() key=|id| *id children=move |id| view! { <RecordRow id/> }/></div>
            </Show>
        </section>
    }
}

/// One row of the list of members.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    id: String,
    name: String,
    group: String,
    cover: Cover,
    condition: Option<Condition>,
    seen: usize,
    commonly_hidden: bool,
}

/// Returns the members with what is recorded of each.
fn rows(book: Book) -> Memo<Vec<Row>> {
    Memo::new(move |_| {
        book.state.with(|state| {
            survey::coverage(state)
                .into_iter()
                .map(|c| Row {
                    id: c.member.id,
                    name: c.member.name,
                    group: c.member.group,
                    cover: c.cover,
                    condition: c.condition,
                    seen: c.observations.len(),
                    commonly_hidden: c.member.why_inaccessible.is_some(),
                })
                .collect()
        })
    })
}

#[component]
fn Members(what: Memo<String>) -> impl IntoView {
    let book = Book::here();
    let all = rows(book);
    let only_owed = RwSignal::new(false);
    let typed = RwSignal::new(String::new());
    let shown = Memo::new(move |_| {
        let wanted = typed.get().to_lowercase();
        let mut groups: Vec<(String, Vec<Row>)> = Vec::new();
        for row in all.get() {
            let fits = wanted.is_empty()
                || row.name.to_lowercase().contains(&wanted)
                || row.group.to_lowercase().contains(&wanted);
            if !fits || (only_owed.get() && row.cover != Cover::Owed) {
                continue;
            }
            match groups.iter_mut().find(|(group, _)| *group == row.group) {
                Some((_, rows)) => rows.push(row),
                None => groups.push((row.group.clone(), vec![row])),
            }
        }
        groups
    });
    let tally =
        Memo::new(move |_| all.with(|all| (all.len(), all.iter().filter(|row| row.cover == Cover::Owed).count())));
    let survey = book.survey;
    view! {
        <aside class="members" aria-label="Members of this boat">
            <p class="tally">{move || { let (all, owed) = tally.get(); format!("{} of {all} members looked at or said not to be seen; {owed} owed.", all - owed) }}</p>
            <input type="search" class="filter" aria-label="Filter the members" placeholder="Filter the members" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
            <label class="several-one"><input type="checkbox" prop:checked=move || only_owed.get() on:change=move |e| only_owed.set(event_target_checked(&e))/><span>"Only what is owed"</span></label>
            {move || shown.get().into_iter().map(|(group, rows)| {
                let owed = rows.iter().filter(|row| row.cover == Cover::Owed).count();
                let count = rows.len();
                let open = !typed.get_untracked().is_empty() || rows.iter().any(|row| row.id == what.get());
                view! {
                    <details class="group" open=open>
                        <summary><span>{group}</span><span class="count">{format!("{} of {count}", count - owed)}</span></summary>
                        <ul>{rows.into_iter().map(|row| {
                            let own = row.id.clone();
                            view! {
                                <li><a href=format!("/survey/{survey}/walk/{}", row.id) aria-current=move || (what.get() == own).then_some("true")>
                                    <span class="member-name">{row.name}</span>
                                    {match row.condition {
                                        Some(condition) => view! { <ConditionMark condition/> }.into_any(),
                                        None => view! { <CoverMark cover=row.cover/> }.into_any(),
                                    }}
                                    {(row.seen > 0).then(|| view! { <span class="count" aria-label="observations">{row.seen}</span> })}
                                    {(row.commonly_hidden && row.cover == Cover::Owed).then(|| view! { <span class="hush">"commonly hidden"</span> })}
                                </a></li>
                            }
                        }).collect_view()}</ul>
                    </details>
                }
            }).collect_view()}
        </aside>
    }
}

/// One member: what the catalogue knows of it, what is recorded, and recording.
#[component]
fn OneMember(member: String) -> impl IntoView {
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
                all.sort_by_key(|id| std::cmp::Reverse(state.record(*id).map(|r| r.first().order())));
                all
            })
        })
    });
    let shown = RwSignal::new(40_usize);
    view! {
        <section class="panel member">
            <p class="back"><a href=format!("/survey/{survey}/walk")>"All members"</a></p>
            <h2>{move || name.get()}</h2>
            <Known member=member.clone()/>
            <Record member=member.clone()/>
            <h3>"Recorded"</h3>
            <Show when=move || !entries.with(Vec::is_empty) fallback=|| view! { <p class="teach">"Nothing is recorded of it yet."</p> }>
                <div class="records"><For each=move || { entries.get().into_iter().take(shown.get()).collect::<Vec<_>>() } key=|id| *id children=move |id| view! { <RecordRow id/> }/></div>
                <Show when=move || { entries.with(Vec::len) > shown.get() }><button type="button" class="quiet" on:click=move |_| shown.update(|n| *n += 100)>"Show older ones"</button></Show>
            </Show>
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

/// Returns the place that the address names, as the drawing does when it is pointed at.
fn place_in_address() -> serde_json::Value {
    let mut place = serde_json::Map::new();
    use_query_map().with_untracked(|query| {
        if let Some(side) = query.get("side") {
            place.insert("side".to_owned(), side.into());
        }
        for key in ["strake", "frame_from", "frame_to", "number"] {
            if let Some(n) = query.get(key).and_then(|text| text.parse::<u32>().ok()) {
                place.insert(key.to_owned(), n.into());
            }
        }
        if let Some(mm) = query.get("from_stem_mm").and_then(|text| text.parse::<f64>().ok()) {
            place.insert("from_stem_mm".to_owned(), mm.into());
        }
    });
    place.into()
}

/// What is kept from one observation to the next on the same member.
const KEPT: &[&str] = &["member", "place", "reading.method", "reading.instrument", "reading.species_setting"];

/// Recording an observation or that it was not seen.
#[component]
fn Record(member: String) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let form = FormState::new(OBSERVATION, json!({"member": member, "place": place_in_address()}));
    let photos = RwSignal::new(Vec::new());
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let last = RwSignal::new(None::<Observation>);
    let unseen = RwSignal::new(false);
    let write = move |observation: Observation, fresh: bool| {
        busy.set(true);
        leptos::task::spawn_local(async move {
            let id = new_id();
            let pictures = if fresh { photos.get_untracked() } else { Vec::new() };
            let outcome = async {
                let mut named = vec![(id, Payload::from(observation.clone()))];
                named.extend(keep_photos(book, bench, id, pictures).await?);
                book.write_named(named, "Recorded.").await
            }
            .await;
            busy.try_set(false);
            match outcome {
                Ok(_) => {
                    last.try_set(Some(observation));
                    if fresh {
                        form.clear_but(KEPT);
                        photos.try_set(Vec::new());
                    }
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let submit = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if busy.get_untracked() {
            return;
        }
        refused.set(None);
        let Some(value) = form.read() else { return };
        match Payload::read_strict("observation", &value) {
            Ok(Payload::Observation(observation)) => write(*observation, true),
            Ok(_) => {}
            Err(fault) => refused.set(Some(sentence(&fault.to_string()))),
        }
    };
    let next = Memo::new(move |_| last.get().and_then(next_frame));
    let is_first = |field: &crate::form::Field| field.key == "reading.method";
    let is_reading = |field: &crate::form::Field| field.key.starts_with("reading.") && field.key != "reading.method";
    let is_place = |field: &crate::form::Field| {
        field.key.starts_with("place.")
            && matches!(
                field.key,
                "place.side" | "place.strake" | "place.frame_from" | "place.frame_to" | "place.number"
            )
    };
    let is_other_place = |field: &crate::form::Field| {
        matches!(field.key, "place.from_stem_mm" | "place.height_mm" | "place.joint_with" | "place.words")
    };
    let is_note = |field: &crate::form::Field| field.key == "note";
    let member_id = StoredValue::new(member);
    view! {
        <form class="entry-form record-form" on:submit=submit novalidate aria-label="Record an observation">
            <FormView state=form only=is_place/>
            <details class="more"><summary>"Place it otherwise"</summary><FormView state=form only=is_other_place/></details>
            <FormView state=form only=is_first/>
            <FormView state=form only=is_reading/>
            <FormView state=form only=is_note/>
            <Photos photos/>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts">
                <button type="submit" class="main" disabled=move || busy.get()>"Record"</button>
                {move || next.get().map(|observation| {
                    let words = format!("Same again at {}", observation.place);
                    view! { <button type="button" on:click=move |_| write(observation.clone(), false)>{words}</button> }
                })}
                <button type="button" class="quiet" aria-expanded=move || unseen.get().to_string() on:click=move |_| unseen.update(|u| *u = !*u)>"Not seen"</button>
            </div>
        </form>
        <Show when=move || unseen.get()><Unseen member=member_id.get_value() form done=move || unseen.set(false)/></Show>
    }
}

/// Returns the same observation one frame further aft, when it was placed at frames.
fn next_frame(mut observation: Observation) -> Option<Observation> {
    let from = observation.place.frame_from?;
    let span = observation.place.frame_to.map_or(0, |to| to.saturating_sub(from));
    observation.place.frame_from = Some(from + span + 1);
    observation.place.frame_to = observation.place.frame_to.map(|_| from + 2 * span + 1);
    Some(observation)
}

/// What commonly stands in the way.
const BARRIERS: &[(&str, &str)] = &[
    ("behind the ceiling", "the ceiling boards lifted"),
    ("under ballast", "the ballast shifted"),
    ("behind a tank", "the tank out"),
    ("under the sole", "the sole lifted"),
    ("behind joinery", "the joinery out"),
    ("under paint or stopping", "paint and stopping scraped"),
    ("under sheathing", "the sheathing cut"),
    ("she lay on it", "the keel blocks or slings shifted"),
    ("opening up was not agreed", "the owner’s leave to open up"),
];

/// Recording that a member, or the place typed, was not seen: one tap on what stood in the way.
#[component]
fn Unseen(member: String, form: FormState, done: impl Fn() + Copy + Send + Sync + 'static) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let why = RwSignal::new(String::new());
    let member = StoredValue::new(member);
    let write = move |why: String, needs: String| {
        let place = form.read_place();
        leptos::task::spawn_local(async move {
            let not_seen = NotSeen { member: member.get_value(), place, why, needs };
            let payload = Payload::from(not_seen);
            let written = match payload.fault() {
                Some(fault) => Err(sentence(&fault.to_string())),
                None => book.write(vec![payload], "Recorded as not seen.").await.map(|_| ()),
            };
            match written {
                Ok(()) => done(),
                Err(fault) => bench.complain(fault),
            }
        });
    };
    view! {
        <div class="unseen" role="group" aria-label="Why it was not seen">
            <p>"What stood in the way? The place typed above goes with it; the whole member when none is."</p>
            <div class="choices">{BARRIERS.iter().map(|(barrier, needs)| view! {
                <button type="button" class="choice" on:click=move |_| write((*barrier).to_owned(), (*needs).to_owned())>{*barrier}</button>
            }).collect_view()}</div>
            <div class="field"><label for="why-unseen">"Something else"</label>
                <input id="why-unseen" type="text" autocomplete="off" prop:value=move || why.get() on:input=move |e| why.set(event_target_value(&e))/></div>
            <button type="button" on:click=move |_| write(why.get_untracked(), String::new())>"Record as not seen"</button>
        </div>
    }
}
