//! Weighing: what the readings of each place say, what spoke for and against it, and what would settle it.
//!
//! The machine proposes; only a person concludes. What is concluded otherwise is written with its reason, and both stay.

mod one;
mod still_worth;

use crate::book::{Book, after_it_is_shown};
use crate::look::{Dialog, EntryForm, FormOf};
use crate::weighed::{PlaceWeighed, context, refused, weigh_all};
use crate::words::member_name;
use evidence::Leave;
use leptos::prelude::*;
use one::One;
pub use still_worth::BeforeYouLeave;

/// What the owner may have allowed, from least to most.
const LEAVES: [Leave; 5] = [Leave::Nothing, Leave::Marks, Leave::Holes, Leave::Fastenings, Leave::Planking];

/// The places that were read, beside the one chosen.
#[component]
pub fn WeighingShelf() -> impl IntoView {
    let book = Book::here();
    let leave = RwSignal::new(None::<Leave>);
    // Thousands of readings take a moment: the shelf is there first, and says so.
    let begun = RwSignal::new(false);
    after_it_is_shown(move || {
        begun.try_set(true);
    });
    let all = Memo::new(move |_| {
        let leave = leave.get();
        if !begun.get() {
            return Vec::new();
        }
        book.state.with(|state| weigh_all(state, leave))
    });
    let chosen = RwSignal::new(None::<String>);
    let shown = RwSignal::new(60_usize);
    let one = Memo::new(move |_| {
        let chosen = chosen.get();
        all.with(|all| all.iter().find(|one| Some(one.key()) == chosen).or(all.first()).cloned())
    });
    view! {
        <Show when=move || all.with(|all| !all.is_empty()) fallback=move || view! {
            <KnownBeforehand/>
            <Show when=move || begun.get() fallback=|| view! { <p class="hush" role="status">"Weighing what was read …"</p> }>
            <p class="teach">"Nothing to weigh yet. Once a place is sounded, probed, bored or looked at for signs, its readings stand here against each other: what they speak for, what speaks against it, and which test would tell most."</p>
            </Show>
        }>
            <MayOpen leave/>
            <KnownBeforehand/>
            <div class="walk weighing" class:chosen=move || chosen.get().is_some()>
                <aside class="members" aria-label="Places weighed">
                    <ul>
                        <For each=move || all.with(|all| all.iter().take(shown.get()).cloned().collect::<Vec<_>>()) key=|one| (one.key(), one.weighing.statement.clone(), one.basis.len()) children=move |place| {
                            let (key, own) = (place.key(), place.key());
                            let name = book.state.with_untracked(|state| member_name(state, &place.member));
                            let at = if place.place.is_empty() { String::new() } else { format!(", {}", place.place) };
                            let close = if place.weighing.close { ", close" } else { "" };
                            view! {
                                <li><button type="button" class="weighed-place" aria-pressed=move || (one.with(|one| one.as_ref().map(PlaceWeighed::key)) == Some(own.clone())).to_string() on:click=move |_| chosen.set(Some(key.clone()))>
                                    <span class="member-name">{name}{at}</span>
                                    <span class="hush">{format!("{}{close}", place.weighing.leading.words())}</span>
                                </button></li>
                            }
                        }/>
                    </ul>
                    <Show when=move || { all.with(Vec::len) > shown.get() }><button type="button" class="quiet" on:click=move |_| shown.update(|n| *n += 200)>"Show more places"</button></Show>
                </aside>
                <section class="panel">
                    <p class="back"><button type="button" class="link" on:click=move |_| chosen.set(None)>"All places"</button></p>
                    {move || one.get().map(|one| view! { <One one/> })}
                </section>
            </div>
        </Show>
    }
}

/// What is known of her before a reading is weighed, where each comes from, and changing it.
#[component]
fn KnownBeforehand() -> impl IntoView {
    let book = Book::here();
    let open = RwSignal::new(false);
    let entry = Memo::new(move |_| book.state.with(|state| state.beforehand().map(|view| view.id())));
    let known = book.later(|state| {
        let known = context(state);
        let level = |(factor, level): (&String, &serde_json::Value)| {
            let level = level.as_str().map_or_else(|| level.to_string(), |level| level.replace('_', " "));
            format!("{} {level}", factor.replace('_', " "))
        };
        known.as_object().map(|all| all.iter().map(level).collect::<Vec<_>>().join("; ")).unwrap_or_default()
    });
    let own = book.later(|state| state.beforehand().map_or(0, |view| view.payload.likelihoods.len()));
    let wrong = book.later(refused);
    let said = move || match known.get() {
        none if none.is_empty() => {
            "Nothing is known of her beforehand: every weighing starts from the same place.".to_owned()
        }
        known => format!("Known beforehand: {known}."),
    };
    view! {
        <div class="beforehand">
            <p class="hush">{said}{move || (own.get() > 0).then(|| format!(" Likelihoods of your own: {}.", own.get()))}</p>
            {move || wrong.get().map(|why| view! { <p class="fault" role="alert">{crate::book::sentence(&why)}</p> })}
            <button type="button" class="quiet" on:click=move |_| open.set(true)>"Say what is known beforehand"</button>
        </div>
        <Dialog open title="What is known beforehand">
            {move || {
                let of = entry.get_untracked().map_or_else(|| FormOf::New("beforehand", serde_json::json!({})), FormOf::Amend);
                view! { <EntryForm of done=move |_| open.set(false)/> }
            }}
        </Dialog>
    }
}

/// What may be opened: asked in one place for all tests.
#[component]
fn MayOpen(leave: RwSignal<Option<Leave>>) -> impl IntoView {
    let agreed = Book::here()
        .state
        .with_untracked(|state| state.brief().map(|brief| brief.payload.opening_agreed.trim().to_owned()))
        .filter(|agreed| !agreed.is_empty());
    view! {
        <div class="field"><label for="may-open">"What may be done to her"</label>
            <select id="may-open" on:change=move |e| leave.set(event_target_value(&e).parse().ok().and_then(|n: usize| LEAVES.get(n).copied()))>
                <option value="">"not said: every test is ranked, with the leave it needs"</option>
                {LEAVES.iter().enumerate().map(|(n, leave)| view! { <option value=n.to_string()>{leave.words()}</option> }).collect_view()}
            </select>
            {agreed.map(|agreed| view! { <span class="about">{format!("In the brief: {agreed}")}</span> })}
        </div>
    }
}
