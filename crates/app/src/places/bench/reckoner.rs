//! One reckoner as a form that answers as it is filled in, from the topic's own table of flags.

use super::keeping::reckoning_of;
use crate::book::{Book, Workbench};
use crate::given::{Given, given};
use crate::look::DrawingView;
use leptos::prelude::*;
use reckon::{Flag, FlagKind, Reckoned, Topic};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The form and its answer.
#[component]
pub fn Reckoner(topic: &'static Topic) -> impl IntoView {
    let book = Book::here();
    let member = RwSignal::new(String::new());
    let from_record = Memo::new(move |_| {
        let member = member.get();
        book.state.with(|state| given(state, topic, Some(member.as_str()).filter(|member| !member.is_empty())))
    });
    let typed = RwSignal::new(beginning(topic));
    // What the record answers is put in when the form opens and when it is turned to another member; what is typed
    // afterwards stays.
    Effect::new(move |_| {
        member.track();
        let answers = from_record.get_untracked();
        typed.update(|typed| typed.extend(answers.into_iter().map(|given| (given.flag, given.value))));
    });
    let answer = Memo::new(move |_| Answered(typed.with(|typed| answer(topic, typed))));
    let note = RwSignal::new(String::new());
    let bench = Workbench::here();
    let keep = move |_| {
        let Ok(reckoned) = answer.get_untracked().0 else { return };
        let reckoning = reckoning_of(&reckoned, &member.get_untracked(), &note.get_untracked());
        leptos::task::spawn_local(async move {
            if let Err(why) =
                book.write(vec![reckoning.into()], "Kept in the survey; it will stand in the report.").await
            {
                bench.complain(why);
            }
        });
    };
    let members = Memo::new(move |_| {
        book.state.with(|state| survey::members_of(state).into_iter().map(|m| (m.id, m.name)).collect::<Vec<_>>())
    });
    view! {
        <h2>{topic.title}</h2>
        <p class="lead">{topic.question}</p>
        <div class="reckoner">
            <form class="fields" on:submit=|event: web_sys::SubmitEvent| event.prevent_default()>
                <div class="field"><label for="reckoned-member">"Bears on"</label>
                    <select id="reckoned-member" on:change=move |e| member.set(event_target_value(&e))>
                        <option value="">"the boat as a whole"</option>
                        {move || members.get().into_iter().map(|(id, name)| view! { <option value=id>{name}</option> }).collect_view()}
                    </select>
                    <span class="about">"What the record says of it is filled in; say otherwise where you know better."</span></div>
                {topic.flags.iter().map(|flag| view! { <FlagField topic flag typed from_record/> }).collect_view()}
                <div class="acts"><button type="button" class="quiet" on:click=move |_| typed.set(example(topic))>"Fill in the example"</button></div>
            </form>
            <div class="answer" aria-live="polite">
                {move || match answer.get().0 {
                    Ok(reckoned) => answered(&reckoned).into_any(),
                    Err(why) => view! { <p class="teach">{why}</p> }.into_any(),
                }}
                <Show when=move || answer.with(|a| a.0.is_ok())>
                    <div class="keep-it">
                        <div class="field"><label for="reckoned-note">"What you take from it"</label>
                            <input id="reckoned-note" type="text" autocomplete="off" prop:value=move || note.get() on:input=move |e| note.set(event_target_value(&e))/></div>
                        <button type="button" class="main" on:click=keep>"Keep in the survey"</button>
                    </div>
                </Show>
            </div>
        </div>
    }
}

/// An answer, or the sentence that says what is wanting.
#[derive(Clone)]
struct Answered(Result<Reckoned, String>);

impl PartialEq for Answered {
    fn eq(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Ok(a), Ok(b)) => a.inputs == b.inputs && a.answer == b.answer,
            (Err(a), Err(b)) => a == b,
            _ => false,
        }
    }
}

type Flags = BTreeMap<&'static str, String>;

fn beginning(topic: &'static Topic) -> Flags {
    let mut typed: Flags = topic.flags.iter().filter_map(|flag| Some((flag.name, flag.default?.to_owned()))).collect();
    // A seed drawn by lot when the form opens is settled before the boat is looked at.
    if topic.flags.iter().any(|flag| flag.name == "seed") {
        typed.insert("seed", (uuid::Uuid::now_v7().as_u128() % 1_000_000).to_string());
    }
    typed
}

fn example(topic: &'static Topic) -> Flags {
    let mut typed = beginning(topic);
    typed.extend(topic.example.iter().map(|(flag, value)| (*flag, (*value).to_owned())));
    typed
}

fn answer(topic: &'static Topic, typed: &Flags) -> Result<Reckoned, String> {
    let object: Map<String, Value> = typed
        .iter()
        .filter(|(_, text)| !text.trim().is_empty())
        .map(|(name, text)| (name.replace('-', "_"), Value::from(text.as_str())))
        .collect();
    let in_words = |refusal: reckon::Refusal| {
        // A form has labels, not flags.
        let mut text = refusal.to_string();
        for flag in topic.flags {
            text = text.replace(&format!("--{}", flag.name), flag.label);
        }
        text
    };
    let inputs = reckon::Inputs::from_json(topic, &object).map_err(in_words)?;
    topic.reckon(inputs).map_err(in_words)
}

#[component]
fn FlagField(
    topic: &'static Topic,
    flag: &'static Flag,
    typed: RwSignal<Flags>,
    from_record: Memo<Vec<Given>>,
) -> impl IntoView {
    let name = flag.name;
    let from = Memo::new(move |_| {
        let now = typed.with(|typed| typed.get(name).cloned().unwrap_or_default());
        from_record
            .with(|all| all.iter().find(|given| given.flag == name && given.value == now).map(|g| g.from.clone()))
    });
    let id = format!("flag-{}-{name}", topic.name);
    let text = Memo::new(move |_| typed.with(|typed| typed.get(name).cloned().unwrap_or_default()));
    let set = move |new: String| {
        typed.update(|typed| {
            typed.insert(name, new);
        });
    };
    let label = view! { <label for=id.clone()>{flag.label}{flag.required.then(|| view! { <span class="needed" aria-hidden="true">" *"</span> })}</label> };
    let input = match &flag.kind {
        FlagKind::Choice(words) => view! {
            <select id=id on:change=move |e| set(event_target_value(&e))>
                {(!flag.required).then(|| view! { <option value="" selected=move || text.get().is_empty()>"–"</option> })}
                {words.iter().map(|word| view! { <option value=*word selected=move || text.get() == *word>{word.replace(['_', '-'], " ")}</option> }).collect_view()}
            </select>
        }
        .into_any(),
        FlagKind::TextFile | FlagKind::BinaryFile => view! {
            <textarea id=id rows="4" prop:value=move || text.get() on:input=move |e| set(event_target_value(&e))></textarea>
        }
        .into_any(),
        kind => {
            let unit = match kind {
                FlagKind::Number { unit, .. } => *unit,
                FlagKind::Length { unit, .. } => *unit,
                _ => "",
            };
            view! {
                <span class="with-unit"><input id=id type="text" autocomplete="off" prop:value=move || text.get() on:input=move |e| set(event_target_value(&e))/>
                {(!unit.is_empty()).then(|| view! { <span class="unit">{unit}</span> })}</span>
            }
            .into_any()
        }
    };
    view! {
        <div class="field">{label}{input}<span class="about">{flag.accepts()}</span>
            {move || from.get().map(|from| view! { <span class="about from-record">{format!("From the record: {from}.")}</span> })}
        </div>
    }
}

/// An answer as shown: figures, drawings, cautions, equation and sources.
pub fn answered(reckoned: &Reckoned) -> impl IntoView + use<> {
    let topic = reckoned.topic;
    let rows: Vec<(String, AnyView)> = reckoned
        .answer
        .results
        .iter()
        .map(|(key, value)| {
            let figure = topic.figures.iter().find(|figure| figure.key == key);
            let label = figure.map_or_else(|| key.replace('_', " "), |figure| figure.label.to_owned());
            let decimals = usize::from(figure.map_or(3, |figure| figure.decimals));
            let unit = figure.map_or("", |figure| figure.unit);
            let value = result(&label, value, unit, decimals);
            (label, value)
        })
        .collect();
    let sheets = reckoned.answer.sheets.clone();
    let cautions = reckoned.answer.cautions.clone();
    let sources = reckoned.answer.sources.clone();
    view! {
        {sheets.into_iter().map(|sheet| view! { <DrawingView sheet/> }).collect_view()}
        <dl class="said figures">{rows.into_iter().map(|(label, value)| view! { <div><dt>{label}</dt><dd>{value}</dd></div> }).collect_view()}</dl>
        {(!cautions.is_empty()).then(|| view! { <ul class="cautions" aria-label="Cautions">{cautions.into_iter().map(|c| view! { <li>{c}</li> }).collect_view()}</ul> })}
        <details class="more"><summary>"Equation, sources, and what is not covered"</summary>
            <p>{topic.equation}</p>
            <ul>{sources.into_iter().map(|s| view! { <li>{s}</li> }).collect_view()}</ul>
            <ul>{topic.not_covered.iter().map(|s| view! { <li>{*s}</li> }).collect_view()}</ul>
        </details>
    }
}

/// Shows a result: rows of figures as a table, sentences as a list, all else in a line.
fn result(label: &str, value: &Value, unit: &str, decimals: usize) -> AnyView {
    let items = value.as_array().map_or(&[][..], Vec::as_slice);
    if let Some(columns) = items.first().and_then(Value::as_object).filter(|_| items.iter().all(Value::is_object)) {
        let columns: Vec<String> = columns.keys().cloned().collect();
        let heads: Vec<String> = columns.iter().map(|key| key.replace('_', " ")).collect();
        let cell = |row: &Value, key: &String| shown(row.get(key).unwrap_or(&Value::Null), "", decimals);
        let rows: Vec<Vec<String>> =
            items.iter().map(|row| columns.iter().map(|key| cell(row, key)).collect()).collect();
        return view! {
            <div class="table-box" tabindex="0" role="group" aria-label=label.to_owned()><table>
                <thead><tr>{heads.into_iter().map(|head| view! { <th scope="col">{head}</th> }).collect_view()}</tr></thead>
                <tbody>{rows.into_iter().map(|row| view! { <tr>{row.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view()}</tr> }).collect_view()}</tbody>
            </table></div>
        }
        .into_any();
    }
    let sentences = items.len() > 1 && items.iter().all(|item| item.as_str().is_some_and(|text| text.len() > 40));
    if sentences {
        let lines: Vec<String> = items.iter().filter_map(|item| item.as_str().map(str::to_owned)).collect();
        return view! { <ul class="lines">{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul> }.into_any();
    }
    shown(value, unit, decimals).into_any()
}

fn shown(value: &Value, unit: &str, decimals: usize) -> String {
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    match value {
        Value::Number(n) if n.is_f64() => format!("{:.*}{unit}", decimals, n.as_f64().unwrap_or(f64::NAN)),
        Value::Number(n) => format!("{n}{unit}"),
        Value::String(text) => text.clone(),
        Value::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        Value::Null => "not known".to_owned(),
        Value::Array(items) => items.iter().map(|item| shown(item, "", decimals)).collect::<Vec<_>>().join(", "),
        Value::Object(parts) => {
            let parts =
                parts.iter().map(|(key, value)| format!("{}: {}", key.replace('_', " "), shown(value, "", decimals)));
            parts.collect::<Vec<_>>().join("; ")
        }
    }
}
