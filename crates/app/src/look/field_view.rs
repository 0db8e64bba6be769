//! One field as shown: label, input, hint, how it is understood, and what is wrong with it.

use super::form_view::FormState;
use crate::book::{Book, Workbench};
use crate::form::{Choice, Field, Kind, row_numbers, understood};
use crate::words::in_a_line;
use leptos::prelude::*;

/// Shows one field. `key` is the field's own, or a row's with its number.
#[component]
pub fn FieldView(field: &'static Field, state: FormState, key: String) -> impl IntoView {
    let id = state.dom_id(&key);
    let about_id = format!("{id}-about");
    let fault = {
        let key = key.clone();
        Memo::new(move |_| state.faults.with(|all| all.iter().find(|f| f.key == key).map(|f| f.why.clone())))
    };
    let text = {
        let key = key.clone();
        Memo::new(move |_| state.get(&key))
    };
    let type_in = {
        let key = key.clone();
        move |new: String| {
            state.set(key.clone(), new);
            state.faults.update(|all| all.retain(|f| f.key != key));
        }
    };
    let units = Workbench::here().units;
    let reading = matches!(field.kind, Kind::Length).then(|| {
        view! {
            <span class="understood">
                {move || understood(&text.get(), units.get()).filter(|shown| *shown != text.get()).map(|shown| format!("understood as {shown}"))}
            </span>
        }
    });
    let legend =
        matches!(field.kind, Kind::Choice(_) | Kind::Several(_) | Kind::YesNo | Kind::Entries(_) | Kind::Rows(_));
    let is_wrong = move || fault.get().is_some().then_some("true");
    let input = control(field, state, key, id.clone(), about_id.clone(), text, type_in, is_wrong);
    let about = view! {
        <span class="about" id=about_id>
            {(!field.hint.is_empty()).then_some(field.hint)}
            {reading}
            {move || fault.get().map(|why| view! { <span class="fault" role="alert">{why}</span> })}
        </span>
    };
    let label =
        view! { {field.label}{field.required.then(|| view! { <span class="needed" aria-hidden="true">" *"</span> })} };
    if legend {
        view! { <fieldset class="field" id=id tabindex="-1"><legend>{label}</legend>{input}{about}</fieldset> }
            .into_any()
    } else if matches!(field.kind, Kind::Tick) {
        view! { <div class="field tick">{input}<label for=id>{label}</label>{about}</div> }.into_any()
    } else {
        view! { <div class="field"><label for=id>{label}</label>{input}{about}</div> }.into_any()
    }
}

#[expect(clippy::too_many_arguments, reason = "the parts of one field, taken apart in one place only")]
fn control(
    field: &'static Field,
    state: FormState,
    key: String,
    id: String,
    about: String,
    text: Memo<String>,
    type_in: impl Fn(String) + Clone + Send + Sync + 'static,
    is_wrong: impl Fn() -> Option<&'static str> + Copy + Send + Sync + 'static,
) -> AnyView {
    match &field.kind {
        Kind::Text | Kind::Lines | Kind::LengthRows(_) => {
            let rows = if !matches!(field.kind, Kind::Text) { "2" } else { "4" };
            view! {
                <textarea id=id rows=rows aria-describedby=about aria-invalid=is_wrong aria-required=field.required.then_some("true")
                    prop:value=move || text.get() on:input=move |e| type_in(event_target_value(&e))></textarea>
            }
            .into_any()
        }
        Kind::Choice(choices) => choice(choices(), id, text, type_in, field.required).into_any(),
        Kind::YesNo => choice(
            vec![
                Choice { value: "yes".to_owned(), words: "yes".to_owned() },
                Choice { value: "no".to_owned(), words: "no".to_owned() },
            ],
            id,
            text,
            type_in,
            false,
        )
        .into_any(),
        Kind::Several(choices) => several(choices(), text, type_in).into_any(),
        Kind::Entries(kinds) => {
            let kinds: &'static [&'static str] = kinds;
            let choices = Memo::new(move |_| entries_of(kinds, state));
            view! { {move || several(choices.get(), text, type_in.clone())} }.into_any()
        }
        Kind::Entry(kind) => {
            let kind: &'static str = kind;
            let choices = Memo::new(move |_| entries_of(&[kind], state));
            select(choices.into(), id, about, text, type_in).into_any()
        }
        Kind::Member => {
            let book = Book::here();
            let choices = Memo::new(move |_| {
                book.state.with(|s| {
                    survey::members_of(s).into_iter().map(|m| Choice { value: m.id, words: format!("{} ({})", m.name, m.group) }).collect()
                })
            });
            select(choices.into(), id, about, text, type_in).into_any()
        }
        Kind::Species => {
            let list = format!("{id}-list");
            let names: Vec<_> = timber_names();
            view! {
                <input id=id type="text" autocomplete="off" list=list.clone() aria-describedby=about aria-invalid=is_wrong
                    prop:value=move || text.get() on:input=move |e| type_in(event_target_value(&e))/>
                <datalist id=list>{names.into_iter().map(|name| view! { <option value=name></option> }).collect_view()}</datalist>
            }
            .into_any()
        }
        Kind::Tick => view! {
            <input id=id type="checkbox" aria-describedby=about prop:checked=move || text.get() == "yes"
                on:change=move |e| type_in(if event_target_checked(&e) { "yes".to_owned() } else { "no".to_owned() })/>
        }
        .into_any(),
        Kind::Day => view! {
            <input id=id type="date" aria-describedby=about aria-invalid=is_wrong aria-required=field.required.then_some("true")
                prop:value=move || text.get() on:input=move |e| type_in(event_target_value(&e))/>
        }
        .into_any(),
        Kind::Rows(fields) => rows(fields, state, key, field.label).into_any(),
        Kind::Line | Kind::Number(_) | Kind::Count | Kind::Length | Kind::Lengths(_) | Kind::Mass | Kind::Fixed => {
            let (mode, unit) = match field.kind {
                Kind::Number(unit) => ("decimal", unit),
                Kind::Count => ("numeric", ""),
                _ => ("text", ""),
            };
            view! {
                <span class="with-unit">
                    <input id=id type="text" inputmode=mode autocomplete="off" aria-describedby=about aria-invalid=is_wrong
                        aria-required=field.required.then_some("true")
                        prop:value=move || text.get() on:input=move |e| type_in(event_target_value(&e))/>
                    {(!unit.is_empty()).then(|| view! { <span class="unit">{unit}</span> })}
                </span>
            }
            .into_any()
        }
    }
}

/// A few choices as large buttons; many as a list to choose from.
fn choice(
    choices: Vec<Choice>,
    id: String,
    text: Memo<String>,
    type_in: impl Fn(String) + Clone + Send + Sync + 'static,
    required: bool,
) -> impl IntoView {
    view! {
        <div class="choices">
            {choices
                .into_iter()
                .map(|choice| {
                    let own = choice.value.clone();
                    let chosen = Memo::new(move |_| text.get() == own);
                    let (value, type_in) = (choice.value.clone(), type_in.clone());
                    let group = id.clone();
                    // A choice that may be left open is taken back by choosing it once more.
                    let take_back = { let type_in = type_in.clone(); move |_| if chosen.get_untracked() && !required { type_in(String::new()) } };
                    view! {
                        <label class="choice" class:chosen=move || chosen.get()>
                            <input type="radio" name=group value=choice.value prop:checked=move || chosen.get()
                                on:click=take_back on:change=move |_| type_in(value.clone())/>
                            <span>{choice.words}</span>
                        </label>
                    }
                })
                .collect_view()}
        </div>
    }
}

fn several(
    choices: Vec<Choice>,
    text: Memo<String>,
    type_in: impl Fn(String) + Clone + Send + Sync + 'static,
) -> impl IntoView {
    if choices.is_empty() {
        return view! { <p class="hush">"There is nothing to choose from yet."</p> }.into_any();
    }
    view! {
        <div class="several">
            {choices
                .into_iter()
                .map(|choice| {
                    let own = choice.value.clone();
                    let chosen = Memo::new(move |_| text.with(|text| text.lines().any(|line| line == own)));
                    let (value, type_in) = (choice.value, type_in.clone());
                    let turn = move |_| {
                        let mut lines: Vec<String> = text.with_untracked(|text| text.lines().map(str::to_owned).collect());
                        if chosen.get_untracked() { lines.retain(|line| *line != value) } else { lines.push(value.clone()) }
                        type_in(lines.join("\n"));
                    };
                    view! {
                        <label class="several-one">
                            <input type="checkbox" prop:checked=move || chosen.get() on:change=turn/>
                            <span>{choice.words}</span>
                        </label>
                    }
                })
                .collect_view()}
        </div>
    }
    .into_any()
}

fn select(
    choices: Signal<Vec<Choice>>,
    id: String,
    about: String,
    text: Memo<String>,
    type_in: impl Fn(String) + Clone + Send + Sync + 'static,
) -> impl IntoView {
    view! {
        <select id=id aria-describedby=about on:change=move |e| type_in(event_target_value(&e))>
            <option value="" selected=move || text.get().is_empty()>"–"</option>
            {move || choices.get().into_iter().map(|choice| {
                let own = choice.value.clone();
                view! { <option value=choice.value selected=move || text.get() == own>{choice.words}</option> }
            }).collect_view()}
        </select>
    }
}

/// Rows of fields: one after another, each of which can be taken out, and one more when wanted.
fn rows(fields: &'static [Field], state: FormState, key: String, label: &'static str) -> impl IntoView {
    let numbers = {
        let key = key.clone();
        Memo::new(move |_| state.typed.with(|typed| row_numbers(&key, typed)))
    };
    let add = {
        let key = key.clone();
        move |_| {
            let next = numbers.with_untracked(|all| all.last().map_or(0, |last| last + 1));
            if let Some(first) = fields.first() {
                state.set(format!("{key}.{next}.{}", first.key), "");
            }
        }
    };
    let one = move |number: usize| {
        let start = format!("{key}.{number}.");
        let take_out = {
            let start = start.clone();
            move |_| state.typed.update(|typed| typed.retain(|k, _| !k.starts_with(&start)))
        };
        view! {
            <div class="row" role="group" aria-label=format!("{label} {}", number + 1)>
                {fields.iter().map(|field| view! { <FieldView field state key=format!("{start}{}", field.key)/> }).collect_view()}
                <button type="button" class="quiet" on:click=take_out>"Take out"</button>
            </div>
        }
        .into_any()
    };
    view! {
        <div class="rows">
            <For each=move || numbers.get() key=|number| *number children=one/>
            <button type="button" class="quiet" on:click=add>"Add one"</button>
        </div>
    }
}

/// Entries that a field may name; those of the form's own member first when it has one.
fn entries_of(kinds: &[&str], state: FormState) -> Vec<Choice> {
    let member = state.get("member");
    Book::here().state.with(|survey| {
        let of_member = |record: &survey::Record| match record.payload() {
            survey::payload::Payload::Observation(o) => o.member == member,
            survey::payload::Payload::NotSeen(n) => n.member == member,
            survey::payload::Payload::Reckoning(r) => r.member.as_ref().is_none_or(|m| *m == member),
            _ => true,
        };
        let records = kinds.iter().flat_map(|kind| survey.records_of(kind)).filter(|record| !record.is_withdrawn());
        let (own, others): (Vec<_>, Vec<_>) = records.partition(|record| member.is_empty() || of_member(record));
        // With a member chosen, what others say is out of the way unless it is already chosen.
        let basis = state.get("basis");
        let chosen = others.into_iter().filter(|r| member.is_empty() || basis.contains(&r.first().id.to_string()));
        own.into_iter()
            .chain(chosen)
            .map(|record| Choice { value: record.first().id.to_string(), words: in_a_line(survey, record) })
            .collect()
    })
}

/// Returns the names of all species in the table of timbers.
fn timber_names() -> Vec<String> {
    timber::species::table().iter().map(|species| species.common.to_owned()).collect()
}
