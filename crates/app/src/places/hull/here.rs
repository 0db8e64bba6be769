//! What was pointed at: the entry there, and the way to record at that place.

use super::Pointed;
use super::shown::PointedEntry;
use crate::book::Book;
use crate::words::member_name;
use leptos::prelude::*;
use survey::Place;

/// The panel of the place pointed at.
#[component]
pub fn Here(pointed: RwSignal<Pointed>) -> impl IntoView {
    let book = Book::here();
    let offered = Memo::new(move |_| {
        let pointed = pointed.get();
        book.state.with(|state| {
            let mut members: Vec<(String, String)> = Vec::new();
            if let Some(member) = &pointed.member {
                members.push((member.clone(), member_name(state, member)));
            }
            if let Some(place) = &pointed.place {
                for id in of_shell(place) {
                    members.push(((*id).to_owned(), member_name(state, id)));
                }
            }
            members.dedup_by(|a, b| a.0 == b.0);
            members
        })
    });
    let survey = book.survey;
    view! {
        {move || {
            let Pointed { entry, place, member } = pointed.get();
            if entry.is_none() && place.is_none() && member.is_none() {
                return view! { <p class="teach">"Point at a place on the sheet to record there, or at a mark to read it."</p> }.into_any();
            }
            let query = place.as_ref().map(in_query).unwrap_or_default();
            view! {
                <section class="here" aria-live="polite">
                    {entry.map(|id| view! { <PointedEntry id/> })}
                    {place.map(|place| view! { <p class="here-place">{place.to_string()}</p> })}
                    <p class="hush">"Record here, on the"</p>
                    <div class="choices">{offered.get().into_iter().map(|(id, name)| view! {
                        <a class="choice" href=format!("/survey/{survey}/walk/{id}{query}")>{name}</a>
                    }).collect_view()}</div>
                </section>
            }.into_any()
        }}
    }
}

/// Returns the members of the shell that a place on it may be: the garboard on strake 1, planking elsewhere, and what is
/// found all over it.
fn of_shell(place: &Place) -> &'static [&'static str] {
    match place.strake {
        Some(1) => &["garboard", "seam", "butt"],
        Some(2) => &["broad-strake", "bottom-plank", "seam", "butt"],
        _ => &["topside-plank", "bilge-plank", "bottom-plank", "seam", "butt"],
    }
}

/// Returns the place as the query of an address.
fn in_query(place: &Place) -> String {
    let parts = [
        place.side.map(|side| format!("side={side}")),
        place.strake.map(|n| format!("strake={n}")),
        place.frame_from.map(|n| format!("frame_from={n}")),
        place.from_stem_mm.map(|mm| format!("from_stem_mm={mm}")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { String::new() } else { format!("?{}", parts.join("&")) }
}
