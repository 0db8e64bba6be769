//! The report to be read with no server in reach: every word of it, without its pages.

use crate::book::{Book, Workbench};
use crate::carry::compose;
use leptos::prelude::*;

/// Composing the report on this device.
#[component]
pub fn ReadHere() -> impl IntoView {
    let (book, bench) = (Book::here(), Workbench::here());
    let busy = RwSignal::new(false);
    let page = RwSignal::new(None::<String>);
    let read = move |_| {
        busy.set(true);
        leptos::task::spawn_local(async move {
            match compose(&bench.keep(), book.survey, bench.units.get_untracked()).await {
                Ok(html) => {
                    page.try_set(Some(html));
                }
                Err(why) => bench.complain(why),
            }
            busy.try_set(false);
        });
    };
    view! {
        <div class="acts"><button type="button" disabled=move || busy.get() on:click=read>{move || if page.with(Option::is_some) { "Compose it again" } else { "Read it here without its pages" }}</button></div>
        <Show when=move || busy.get()><p class="hush" role="status">"Composing …"</p></Show>
        // Written by the room `faircopy`, which escapes every word; the page's policy runs nothing in it either.
        {move || page.get().map(|html| view! { <article class="read-here" aria-label="The report, as composed on this device" inner_html=html></article> })}
    }
}
