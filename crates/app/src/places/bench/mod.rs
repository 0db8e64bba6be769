//! Bench: the board of members, the weighing of what was read, findings, recommendations, and reckoners.

mod board;
mod draws;
mod findings;
mod keeping;
mod reckoner;
mod reckoners;
mod weighing;

use leptos::prelude::*;

use crate::book::Book;

/// The shelves of the bench: addresses and names.
const SHELVES: &[(&str, &str)] = &[
    ("board", "Board"),
    ("weighing", "Weighing"),
    ("draws", "Draws"),
    ("leaving", "Before you leave"),
    ("findings", "Findings"),
    ("recommendations", "Recommendations"),
    ("reckoners", "Reckoners"),
];

/// The place.
#[component]
pub fn Bench(what: Memo<String>) -> impl IntoView {
    let survey = Book::here().survey;
    let shelf = Memo::new(move |_| {
        let what = what.get();
        match what.as_str() {
            "" => "board".to_owned(),
            topic if reckon::find(topic).is_some() => "reckoners".to_owned(),
            _ => what,
        }
    });
    view! {
        <nav class="shelves" aria-label="Bench">
            {SHELVES.iter().map(|(word, name)| view! {
                <a href=format!("/survey/{survey}/bench/{word}") aria-current=move || (shelf.get() == *word).then_some("page")>{*name}</a>
            }).collect_view()}
        </nav>
        {move || match shelf.get().as_str() {
            "weighing" => view! { <weighing::WeighingShelf/> }.into_any(),
            "draws" => view! { <draws::Draws/> }.into_any(),
            "leaving" => view! { <weighing::BeforeYouLeave/> }.into_any(),
            "findings" => view! { <findings::Findings/> }.into_any(),
            "recommendations" => view! { <findings::Recommendations/> }.into_any(),
            "reckoners" => view! { <reckoners::Reckoners what/> }.into_any(),
            _ => view! { <board::Board/> }.into_any(),
        }}
    }
}
