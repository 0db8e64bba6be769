//! Finding: one box for members, entries, reckoners and places, all by keyboard.

use super::Place;
use crate::book::Book;
use crate::look::Dialog;
use crate::words::in_a_line;
use leptos::html;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

/// Most results shown.
const MOST: usize = 12;

/// The box and what it finds.
#[component]
pub fn Find(open: RwSignal<bool>) -> impl IntoView {
    let book = Book::here();
    let typed = RwSignal::new(String::new());
    let at = RwSignal::new(0_usize);
    let found = Memo::new(move |_| if open.get() { find(book, &typed.get()) } else { Vec::new() });
    let go = use_navigate();
    let go_to = move |address: String| {
        open.set(false);
        typed.set(String::new());
        go(&address, Default::default());
    };
    let go_by_key = go_to.clone();
    let keys = move |event: web_sys::KeyboardEvent| {
        let last = found.with(Vec::len).saturating_sub(1);
        match event.key().as_str() {
            "ArrowDown" => at.update(|n| *n = (*n + 1).min(last)),
            "ArrowUp" => at.update(|n| *n = n.saturating_sub(1)),
            "Enter" => {
                if let Some((_, address)) = found.with(|all| all.get(at.get_untracked()).cloned()) {
                    go_by_key(address);
                }
            }
            _ => return,
        }
        event.prevent_default();
    };
    let input: NodeRef<html::Input> = NodeRef::new();
    Effect::new(move |_| {
        if let (true, Some(input)) = (open.get(), input.get()) {
            // Once the dialog is open; it gives the focus to its first button itself.
            request_animation_frame(move || {
                let _ = input.focus();
            });
        }
    });
    view! {
        <Dialog open title="Find">
            <input class="find" node_ref=input type="search" role="combobox" aria-expanded="true" aria-controls="found" aria-label="A member, an entry, a reckoner or a place"
                aria-activedescendant=move || format!("found-{}", at.get()) autocomplete="off"
                prop:value=move || typed.get() on:input=move |e| { typed.set(event_target_value(&e)); at.set(0) } on:keydown=keys.clone()/>
            <ul id="found" class="found" role="listbox" aria-label="Found">
                {let go_to = go_to.clone(); move || found.get().into_iter().enumerate().map(|(n, (words, address))| {
                    let go_to = go_to.clone();
                    view! {
                        <li id=format!("found-{n}") role="option" aria-selected=move || (at.get() == n).to_string() on:click=move |_| go_to(address.clone())>{words}</li>
                    }
                }).collect_view()}
            </ul>
            {move || (found.with(Vec::is_empty)).then(|| view! { <p class="hush">"Nothing is called so."</p> })}
        </Dialog>
    }
}

fn find(book: Book, typed: &str) -> Vec<(String, String)> {
    let wanted: Vec<String> = typed.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let fits = |text: &str| {
        let text = text.to_lowercase();
        wanted.iter().all(|word| text.contains(word))
    };
    let base = format!("/survey/{}", book.survey);
    let places =
        Place::ALL.into_iter().map(|place| (format!("Place: {}", place.name()), format!("{base}/{}", place.word())));
    let reckoners = reckon::table()
        .into_iter()
        .map(|topic| (format!("Reckon: {}", topic.title), format!("{base}/bench/{}", topic.name)));
    book.state.with(|state| {
        let members = survey::members_of(state).into_iter().map(|member| {
            (format!("Member: {} ({})", member.name, member.group), format!("{base}/walk/{}", member.id))
        });
        let entries = state.records().into_iter().rev().filter_map(|record| {
            let member = match record.payload() {
                survey::payload::Payload::Observation(o) => &o.member,
                survey::payload::Payload::NotSeen(n) => &n.member,
                survey::payload::Payload::Finding(f) => &f.member,
                _ => return None,
            };
            Some((in_a_line(state, record), format!("{base}/walk/{member}")))
        });
        places.chain(members).chain(reckoners).chain(entries).filter(|(words, _)| fits(words)).take(MOST).collect()
    })
}
