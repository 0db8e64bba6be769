//! Sounding by hammer: blows judged while they are struck, against reference blows on sound wood of the same boat.

mod blow_view;
mod microphone;
mod session;

use crate::book::{Book, Workbench};
use crate::form::OBSERVATION;
use crate::look::{FormState, FormView};
use crate::places::talk::sound::kept_references;
use crate::words::member_name;
use blow_view::{Along, BlowView};
use leptos::prelude::*;
use serde_json::json;
use session::{Ear, Session};
use survey::SoundAnswer;

/// The word of this page in addresses.
pub const WORD: &str = "hammer";

/// The page.
#[component]
pub fn Hammer() -> impl IntoView {
    let (book, bench) = (Book::here(), Workbench::here());
    let session = Session::new(book, bench);
    let form = FormState::new(OBSERVATION, json!({}));
    let members = Memo::new(move |_| {
        book.state.with(|state| {
            survey::members_of(state).into_iter().map(|m| (m.id.clone(), member_name(state, &m.id))).collect::<Vec<_>>()
        })
    });
    leptos::task::spawn_local(async move {
        let (references, cuts, missing) = kept_references(book, bench).await;
        session.take_references(references, cuts, missing);
    });
    on_cleanup(move || session.close());
    let listening = move || matches!(session.ear.get(), Ear::Listening { .. });
    let is_place = |field: &crate::form::Field| {
        matches!(field.key, "place.side" | "place.strake" | "place.frame_from" | "place.frame_to" | "place.number")
    };
    let can_listen =
        move || !session.member.with(String::is_empty) && matches!(session.ear.get(), Ear::Off | Ear::Refused(_));
    view! {
        <section class="panel hammer">
            <p class="back"><a href=format!("/survey/{}/walk", book.survey)>"All members"</a></p>
            <h2>"Sound by hammer"</h2>
            <p>"First strike where you know her sound: these are the reference blows. Then strike where you do not know; each blow is shown as ring or dull against them."</p>
            <p class="hush">"A clear ring is no proof of sound wood; knife, moisture, boring and opening up tell what a dull one means. Do not sound frozen timber: it rings though decayed. How often the judgement is right on boats nobody has measured yet; it was tried on invented sounds."</p>
            <div class="field"><label for="struck-member">"Member"</label>
                <select id="struck-member" disabled=listening on:change=move |e| session.member.set(event_target_value(&e)) prop:value=move || session.member.get()>
                    <option value="">"choose"</option>
                    {move || members.get().into_iter().map(|(id, name)| view! { <option value=id>{name}</option> }).collect_view()}
                </select></div>
            <FormView state=form only=is_place/>
            <Show when=move || !session.member.with(String::is_empty)>
                <p role="status">{move || session.enough()}</p>
            </Show>
            <p class="acts">
                <Show when=move || !listening() fallback=move || view! {
                    <button type="button" class="main" on:click=move |_| session.stop()>"Stop"</button>
                }>
                    <button type="button" class="main" disabled=move || !can_listen() on:click=move |_| session.listen(true)>"Take reference blows"</button>
                    <button type="button" class="main" disabled=move || !can_listen() on:click=move |_| session.listen(false)>"Judge blows"</button>
                </Show>
            </p>
            {move || match session.ear.get() {
                Ear::Off => None,
                Ear::Asking => Some(view! { <p role="status">"Asking for the microphone …"</p> }.into_any()),
                Ear::Listening { reference } => Some(view! { <p role="status" class="listening"><span class="ear-on" aria-hidden="true"></span>
                    {if reference { "Listening: strike where you know her sound." } else { "Listening: strike." }}
                    " "{move || format!("{:.0} s", session.seconds.get())}</p> }.into_any()),
                Ear::Refused(why) => Some(view! { <p class="plain" role="alert">{why}</p> }.into_any()),
            }}
            {move || session.cautions.get().into_iter().map(|words| view! { <p class="hush">{words}</p> }).collect_view()}
            <p class="verdict" aria-live="assertive">{move || session.last_words()}</p>
            <Show when=move || !session.blows.with(Vec::is_empty)>
                <Keep session form/>
                <h3>{move || { let n = session.blows.with(Vec::len); if n == 1 { "1 blow".to_owned() } else { format!("{n} blows") } }}</h3>
                <ol class="blows" reversed>
                    {move || session.blows.get().into_iter().rev().map(|struck| view! { <BlowView session struck/> }).collect_view()}
                </ol>
            </Show>
            <Along member=session.member/>
        </section>
    }
}

/// Keeping what was struck, with its recording.
#[component]
fn Keep(session: Session, form: FormState) -> impl IntoView {
    let proposed = Memo::new(move |_| session.proposed());
    let chosen = RwSignal::new(None::<SoundAnswer>);
    let answer = move || chosen.get().unwrap_or_else(|| proposed.get());
    let note = RwSignal::new(String::new());
    let fault = RwSignal::new(None::<String>);
    let keep = move |_| {
        fault.set(None);
        // The form asks for the place only; the rest it is told, so that it complains of the place alone.
        form.set("member", session.member.get_untracked());
        form.set("reading.method", "sound");
        form.set("reading.answer", "rings");
        let Some(value) = form.read() else { return };
        let place =
            value.get("place").cloned().and_then(|place| serde_json::from_value(place).ok()).unwrap_or_default();
        let (answer, said) = (answer(), note.get_untracked());
        leptos::task::spawn_local(async move {
            match session.keep(place, answer, said).await {
                Ok(()) => {
                    note.try_set(String::new());
                    chosen.try_set(None);
                }
                Err(why) => {
                    fault.try_set(Some(why));
                }
            }
        });
    };
    view! {
        <Show when=move || !matches!(session.ear.get(), Ear::Listening { .. } | Ear::Asking)>
            <div class="keep-it">
                <fieldset class="field"><legend>{move || if session.of_references.get() { "Kept as reference blows: she rings here" } else { "How she answered here" }}</legend>
                    <Show when=move || !session.of_references.get()>
                        <div class="choices">{SoundAnswer::ALL.iter().map(|one| view! {
                            <label class="choice" class:chosen=move || answer() == *one><input type="radio" name="answered" prop:checked=move || answer() == *one on:change=move |_| chosen.set(Some(*one))/><span>{one.to_string()}</span></label>
                        }).collect_view()}</div>
                        <span class="about">{move || format!("Judged from the blows: {}. Your own ear decides.", proposed.get())}</span>
                    </Show>
                </fieldset>
                <div class="field"><label for="struck-note">"Note, in your words"</label>
                    <input id="struck-note" type="text" autocomplete="off" prop:value=move || note.get() on:input=move |e| note.set(event_target_value(&e))/></div>
                {move || fault.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
                <p class="acts"><button type="button" class="main" on:click=keep>"Keep with its recording"</button>
                    <button type="button" class="quiet" on:click=move |_| session.forget()>"Throw away"</button></p>
            </div>
        </Show>
    }
}
