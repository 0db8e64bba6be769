//! The shelf of reckoners, and those kept in the survey.

use super::reckoner::Reckoner;
use crate::book::Book;
use crate::places::brief::Rows;
use leptos::prelude::*;

/// The list of reckoners beside the one chosen.
#[component]
pub fn Reckoners(what: Memo<String>) -> impl IntoView {
    let survey = Book::here().survey;
    view! {
        <div class="walk" class:chosen=move || reckon::find(&what.get()).is_some()>
            <aside class="members" aria-label="Reckoners">
                <ul>{reckon::table().into_iter().map(|topic| view! {
                    <li><a href=format!("/survey/{survey}/bench/{}", topic.name) aria-current=move || (what.get() == topic.name).then_some("true")>
                        <span class="member-name">{topic.title}</span><span class="hush">{topic.question}</span>
                    </a></li>
                }).collect_view()}</ul>
            </aside>
            <section class="panel">
                {move || match reckon::find(&what.get()) {
                    Some(topic) => view! { <p class="back"><a href=format!("/survey/{survey}/bench/reckoners")>"All reckoners"</a></p><Reckoner topic/> }.into_any(),
                    None => view! {
                        <h2>"Kept in this survey"</h2>
                        <Rows kind="reckoning" empty="Choose a reckoner, fill in what you know, and keep the answer when it bears on the survey: it then stands in the report with its inputs, equation and sources."/>
                    }.into_any(),
                }}
            </section>
        </div>
    }
}
