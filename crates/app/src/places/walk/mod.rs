//! Walk: the members of this boat, what is recorded of each, what is still owed, and the recording itself.

mod along;
mod member;
mod members;
mod record;
mod step;
mod unseen;

use crate::book::Book;
use crate::look::RecordRow;
use crate::places::hammer::{self, Hammer};
use crate::places::talk::{self, TalkThrough};
use leptos::prelude::*;
use member::OneMember;
use members::Members;
use survey::payload::Payload;

/// The place: members beside the member chosen; on a narrow screen one after the other.
#[component]
pub fn Walk(what: Memo<String>) -> impl IntoView {
    let survey = Book::here().survey;
    view! {
        <nav class="walk-ways" aria-label="Other ways to record">
            {[(along::WORD, "Frame by frame"), (talk::WORD, "Talk-through"), (hammer::WORD, "Sound by hammer")].into_iter().map(|(word, name)| view! {
                <a class="button" href=format!("/survey/{survey}/walk/{word}") aria-current=move || (what.get() == word).then_some("page")>{name}</a>
            }).collect_view()}
        </nav>
        <div class="walk" class:chosen=move || !what.get().is_empty()>
            <Members what/>
            {move || match what.get() {
                none if none.is_empty() => view! { <Beginning/> }.into_any(),
                way if way == along::WORD => view! { <along::FrameByFrame/> }.into_any(),
                way if way == talk::WORD => view! { <TalkThrough/> }.into_any(),
                way if way == hammer::WORD => view! { <Hammer/> }.into_any(),
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
