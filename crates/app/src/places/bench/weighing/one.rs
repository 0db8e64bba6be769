//! One place weighed: the balance, the rivals, the next tests, and the finding a person writes from it.

use crate::book::{Book, Workbench};
use crate::look::{Dialog, DrawingView, EntryForm, FormOf, RecordRow};
use crate::places::bench::keeping::reckoning_of;
use crate::weighed::PlaceWeighed;
use crate::words::member_name;
use evidence::{Leave, NextTest, PLANK_STATES, PlankState, Rival};
use leptos::prelude::*;
use reckon::Reckoned;
use serde_json::{Map, Value, json};

/// Shows one place.
#[component]
pub fn One(one: PlaceWeighed) -> impl IntoView {
    let book = Book::here();
    let name = book.state.with_untracked(|state| member_name(state, &one.member));
    let at = if one.place.is_empty() { "no particular place".to_owned() } else { one.place.to_string() };
    let reckoned = reckon_it(&one.asked);
    let w = one.weighing.clone();
    let sheets = reckoned.as_ref().map(|r| r.answer.sheets.clone()).unwrap_or_default();
    let cautions = reckoned.as_ref().map(|r| r.answer.cautions.clone()).unwrap_or_default();
    let sources = reckoned.as_ref().map(|r| r.topic.sources).unwrap_or_default();
    let likeliest = {
        let mut all: Vec<(PlankState, f64)> = PLANK_STATES.into_iter().zip(w.plank).collect();
        all.sort_by(|a, b| b.1.total_cmp(&a.1));
        all
    };
    view! {
        <h2>{name}</h2>
        <p class="hush">{at}</p>
        <p class="lead">{w.statement.clone()}</p>
        {w.close.then(|| view! { <p class="plain">"Close: the readings do not settle it. Say so, or try one of the tests below before concluding."</p> })}
        {sheets.into_iter().map(|sheet| view! { <DrawingView sheet/> }).collect_view()}
        <h3>"What it may be"</h3>
        <ul class="shares">{likeliest.into_iter().filter(|(_, p)| *p >= 0.005).map(|(state, p)| view! {
            <li><span>{state.words()}</span><meter min="0" max="1" value=p.to_string() aria-hidden="true"></meter><span class="count">{format!("{:.0} %", p * 100.0)}</span><span class="hush">{evidence::verbal(p)}</span></li>
        }).collect_view()}</ul>
        {(!w.rivals.is_empty()).then(|| view! {
            <h3>"What would tell its rivals apart"</h3>
            <ul>{w.rivals.iter().map(apart).collect_view()}</ul>
        })}
        <h3>"Worth trying next"</h3>
        {if w.next.is_empty() {
            view! { <p class="teach">"No test that is allowed would tell more about it."</p> }.into_any()
        } else {
            view! { <ol class="next-tests">{w.next.iter().take(4).map(next).collect_view()}</ol> }.into_any()
        }}
        {(!w.needs_leave.is_empty()).then(|| view! {
            <details class="more"><summary>"What would tell more, with leave"</summary><ol>{w.needs_leave.iter().take(4).map(next).collect_view()}</ol></details>
        })}
        {(!cautions.is_empty()).then(|| view! { <ul class="cautions" aria-label="Cautions">{cautions.into_iter().map(|c| view! { <li>{c}</li> }).collect_view()}</ul> })}
        <Conclude one=one.clone() reckoned/>
        <h3>"Weighed"</h3>
        <div class="records">{one.basis.iter().map(|id| view! { <RecordRow id=*id/> }).collect_view()}</div>
        {(!one.left_out.is_empty()).then(|| view! {
            <h3>"Not weighed: no likelihood is set down for these"</h3>
            <div class="records">{one.left_out.iter().map(|id| view! { <RecordRow id=*id/> }).collect_view()}</div>
        })}
        <details class="more"><summary>"Where the figures are from"</summary>
            <p>"Every likelihood is one writer's choice, not measured on boats. It weighs; it does not conclude."</p>
            <ul>{sources.iter().map(|source| view! { <li>{*source}</li> }).collect_view()}</ul></details>
    }
}

fn reckon_it(asked: &Value) -> Option<Reckoned> {
    let topic = reckon::find("evidence")?;
    let flags = Map::from_iter([("observations".to_owned(), Value::from(asked.to_string()))]);
    topic.reckon(reckon::Inputs::from_json(topic, &flags).ok()?).ok()
}

fn apart(rival: &Rival) -> impl IntoView + use<> {
    let by: Vec<String> = rival.told_apart_by.iter().take(2).map(|test| test.words.clone()).collect();
    let behind = rival.behind_db.map(|db| format!(", {db:.0} dB behind")).unwrap_or_default();
    let by = if by.is_empty() { "nothing that is allowed".to_owned() } else { by.join("; or: ") };
    view! { <li><strong>{rival.state.words()}</strong>{behind}": "{by}</li> }
}

fn next(next: &NextTest) -> impl IntoView + use<> {
    let leave = match next.test.leave {
        Leave::Nothing => String::new(),
        leave => format!(" Needs leave: {}.", leave.words()),
    };
    let tells = format!(
        "{:.0} min. If yes, {} leads; if no, {}.{leave}",
        next.test.minutes,
        next.leading_if_yes.0.words(),
        next.leading_if_no.0.words()
    );
    view! { <li>{next.test.words.clone()}<span class="about">{tells}</span></li> }
}

/// The record's word for a state.
fn likely_state(state: PlankState) -> &'static str {
    match state {
        PlankState::Repaired => "repaired_before",
        other => other.name(),
    }
}

/// Writing the finding: as weighed, or otherwise with the reason. The weighing is kept in either case and the finding
/// rests on it.
#[component]
fn Conclude(one: PlaceWeighed, reckoned: Option<Reckoned>) -> impl IntoView {
    let (book, bench) = (Book::here(), Workbench::here());
    let writing = RwSignal::new(None::<FormOf>);
    let open = RwSignal::new(false);
    let otherwise = RwSignal::new(None::<PlankState>);
    let reason = RwSignal::new(String::new());
    let leading = one.weighing.leading;
    let kept = StoredValue::new(reckoned);
    let one = StoredValue::new(one);
    let write = move |state: PlankState, why: String| {
        let Some(reckoned) = kept.get_value() else { return };
        leptos::task::spawn_local(async move {
            let note = if why.is_empty() { String::new() } else { format!("Not followed: {why}") };
            let entry = one.with_value(|one| reckoning_of(&reckoned, &one.member, &note));
            match book.write(vec![entry.into()], "The weighing is kept; write what you make of it.").await {
                Ok(ids) => {
                    let known = one.with_value(|one| finding_from(one, state, &why, &ids));
                    writing.set(Some(FormOf::New("finding", known)));
                    open.set(true);
                }
                Err(fault) => bench.complain(fault),
            }
        });
    };
    let depart = move |_| {
        let why = reason.get_untracked().trim().to_owned();
        let Some(state) = otherwise.get_untracked() else { return bench.complain("Say what you take it to be.") };
        if why.is_empty() {
            return bench.complain("Say why you see it otherwise; the weighing and your reason both stay.");
        }
        write(state, why);
    };
    let title = Signal::derive(|| "New finding".to_owned());
    view! {
        <div class="acts"><button type="button" class="main" on:click=move |_| write(leading, String::new())>{format!("Write a finding: {}", leading.words())}</button></div>
        <details class="more depart"><summary>"See it otherwise"</summary>
            <div class="field"><label for="otherwise">"What you take it to be"</label>
                <select id="otherwise" on:change=move |e| otherwise.set(PlankState::named(&event_target_value(&e)))>
                    <option value="">"–"</option>
                    {PLANK_STATES.into_iter().filter(|state| *state != leading).map(|state| view! { <option value=state.name()>{state.words()}</option> }).collect_view()}
                </select></div>
            <div class="field"><label for="otherwise-why">"Why"</label>
                <textarea id="otherwise-why" rows="2" prop:value=move || reason.get() on:input=move |e| reason.set(event_target_value(&e))></textarea></div>
            <div class="acts"><button type="button" on:click=depart>"Write the finding your way"</button></div>
        </details>
        <Dialog open title>{move || writing.get().map(|form| view! { <EntryForm of=form done=move |_| open.set(false)/> })}</Dialog>
    }
}

/// Returns what a finding from a weighing begins with; every word of it can be changed before it is written.
fn finding_from(one: &PlaceWeighed, state: PlankState, why: &str, weighing: &[survey::EntryId]) -> Value {
    let w = &one.weighing;
    let basis: Vec<String> = one.basis.iter().chain(weighing).map(ToString::to_string).collect();
    let mut known = json!({"member": one.member, "likely_state": likely_state(state), "basis": basis});
    if let Ok(place) = serde_json::to_value(&one.place)
        && !one.place.is_empty()
    {
        known["places"] = json!([place]);
    }
    if state == w.leading {
        let rivals: Vec<Value> = w.rivals.iter().take(1).map(|rival| json!({"what": rival.state.words()})).collect();
        known["alternatives"] = rivals.into();
    } else {
        known["alternatives"] = json!([{"what": w.leading.words(), "against": why}]);
    }
    known
}
