//! Links that open one report that went out, each for its client: made, told, and withdrawn.

use super::brief::today;
use crate::book::{Book, Workbench};
use jiff::civil::Date;
use leptos::prelude::*;
use survey::payload::ClientLink;
use survey::{Digest, EntryId};
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;

/// A link that stands.
#[derive(Clone, PartialEq)]
struct Given {
    id: EntryId,
    version: u32,
    to: String,
    until: String,
}

fn given(state: &survey::State) -> Vec<Given> {
    let version = |id: EntryId| state.reports_issued().find(|r| r.id() == id).map_or(0, |r| r.payload.version);
    let one = |link: survey::View<'_, ClientLink>| Given {
        id: link.id(),
        version: version(link.payload.report),
        to: link.payload.to.clone(),
        until: link.payload.until.to_string(),
    };
    state.client_links().map(one).collect()
}

/// Returns the address that clients reach, or an empty text when there is none or no server is in reach.
async fn clients_address() -> String {
    let ask = async {
        let response = JsFuture::from(window().fetch_with_str("/api/clients")).await.ok()?;
        let response: web_sys::Response = response.dyn_into().ok()?;
        let text = JsFuture::from(response.text().ok()?).await.ok()?.as_string()?;
        let answer: serde_json::Value = serde_json::from_str(&text).ok()?;
        answer["address"].as_str().map(str::to_owned)
    };
    ask.await.unwrap_or_default()
}

/// Making a link to a version of the report, and the links there are.
#[component]
pub fn ClientLinks(
    /// The versions that went out: number and entry, the latest first.
    #[prop(into)]
    versions: Signal<Vec<(u32, EntryId)>>,
) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let links = Memo::new(move |_| book.state.with(given));
    let to = RwSignal::new(String::new());
    let until = RwSignal::new(String::new());
    let version = RwSignal::new(None::<u32>);
    // A list shown anew shows the latest; what was chosen in the one before must not count any more.
    Effect::new(move |_| {
        versions.get();
        version.set(None);
    });
    let refused = RwSignal::new(None::<String>);
    let made = RwSignal::new(None::<(String, bool)>);
    let make = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        refused.set(None);
        made.set(None);
        let Ok(until) = until.get_untracked().parse::<Date>() else {
            return refused.set(Some("Say until which day the link opens.".to_owned()));
        };
        if today().parse().is_ok_and(|today: Date| until < today) {
            return refused.set(Some(format!("{until} is over; accepted is today or a later day.")));
        }
        let all = versions.get_untracked();
        let wanted = version.get_untracked();
        let Some((_, report)) = all.iter().find(|(n, _)| wanted.is_none_or(|wanted| wanted == *n)) else { return };
        let mut random = [0; 32];
        if getrandom::fill(&mut random).is_err() {
            return refused.set(Some("This browser gives no random numbers to make a secret of.".to_owned()));
        }
        let token = ClientLink::token(random);
        let token_sha256 = Digest::of(token.as_bytes());
        let link = ClientLink { report: *report, token_sha256, to: to.get_untracked().trim().to_owned(), until };
        leptos::task::spawn_local(async move {
            match book.write(vec![link.into()], "The link is made.").await {
                Ok(_) => {
                    let address = clients_address().await;
                    let (base, reaches) = match address.is_empty() {
                        true => (window().location().origin().unwrap_or_default(), false),
                        false => (address, true),
                    };
                    to.try_set(String::new());
                    made.try_set(Some((format!("{base}{}", ClientLink::path(&token)), reaches)));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let withdraw = move |id: EntryId| {
        leptos::task::spawn_local(async move {
            match book.withdraw(id, "the link is no longer to open").await {
                Ok(()) => made.set(None),
                Err(why) => bench.complain(why),
            }
        });
    };
    view! {
        <h3>"Links for clients"</h3>
        <p class="hush">"A link opens one version, to be read and fetched, until the end of its last day or until it is withdrawn. Whoever has it can read the report."</p>
        <form class="entry-form" on:submit=make novalidate aria-label="Make a link for a client">
            <div class="fields">
                <div class="field"><label for="link-version">"Version"</label>
                    <select id="link-version" on:change=move |e| version.set(event_target_value(&e).parse().ok())>
                        {move || versions.get().into_iter().map(|(n, _)| view! { <option value=n.to_string()>{n.to_string()}</option> }).collect_view()}
                    </select></div>
                <div class="field"><label for="link-to">"For whom"</label>
                    <input id="link-to" type="text" autocomplete="off" prop:value=move || to.get() on:input=move |e| to.set(event_target_value(&e))/></div>
                <div class="field"><label for="link-until">"Last day"</label>
                    <input id="link-until" type="date" prop:value=move || until.get() on:input=move |e| until.set(event_target_value(&e))/></div>
            </div>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <div class="acts"><button type="submit">"Make a link"</button></div>
        </form>
        {move || made.get().map(|(address, reaches)| view! {
            <div role="status" class="field"><label for="link-made">"The link, shown this once"</label>
                <input id="link-made" type="text" readonly prop:value=address/>
                {(!reaches).then(|| view! { <span class="about">"Only browsers of this machine can open it: the server has no address for clients."</span> })}</div>
        })}
        <ul class="versions links">{move || links.get().into_iter().map(|link| {
            let id = link.id;
            view! {
                <li><span>{format!("Version {} for {}, until {}", link.version, link.to, link.until)}</span>
                    <span class="acts"><button type="button" class="quiet" on:click=move |_| withdraw(id)>"Withdraw"</button></span></li>
            }
        }).collect_view()}</ul>
    }
}
