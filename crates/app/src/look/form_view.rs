//! A form as shown: its fields, what was typed, and what is wrong with it.

use super::field_view::FieldView;
use crate::book::Workbench;
use crate::form::{Field, FieldFault, Typed, fill, read};
use leptos::prelude::*;
use serde_json::Value;
use std::cell::Cell;

/// What a form holds while it is filled in.
#[derive(Clone, Copy)]
pub struct FormState {
    /// What was typed.
    pub typed: RwSignal<Typed>,
    /// What is wrong, by field.
    pub faults: RwSignal<Vec<FieldFault>>,
    /// Told apart from the other forms of the page, so that no two inputs have the same name.
    serial: u32,
    fields: &'static [Field],
    filled: StoredValue<Typed>,
    original: StoredValue<Value>,
}

impl FormState {
    /// Returns the form of some fields, filled from a payload's JSON.
    pub fn new(fields: &'static [Field], original: Value) -> Self {
        let units = Workbench::here().units.get_untracked();
        let filled = fill(fields, &original, units);
        Self {
            typed: RwSignal::new(filled.clone()),
            faults: RwSignal::new(Vec::new()),
            serial: next_serial(),
            fields,
            filled: StoredValue::new(filled),
            original: StoredValue::new(original),
        }
    }

    /// Reads what was typed; shows what is wrong beside each field, and goes to the first.
    pub fn read(self) -> Option<Value> {
        let read = self.typed.with_untracked(|typed| {
            self.filled
                .with_value(|filled| self.original.with_value(|original| read(self.fields, typed, filled, original)))
        });
        match read {
            Ok(value) => {
                self.faults.set(Vec::new());
                Some(value)
            }
            Err(faults) => {
                let first = faults.first().map(|fault| fault.key.clone());
                self.faults.set(faults);
                if let Some(key) = first {
                    focus(&self.dom_id(&key));
                }
                None
            }
        }
    }

    /// Returns the name of a field's input in the page.
    pub fn dom_id(self, key: &str) -> String {
        format!("field-{}-{}", self.serial, key.replace('.', "-"))
    }

    /// Returns what was typed into a field.
    pub fn get(self, key: &str) -> String {
        self.typed.with(|typed| typed.get(key).cloned().unwrap_or_default())
    }

    /// Types into a field.
    pub fn set(self, key: impl Into<String>, text: impl Into<String>) {
        let (key, text) = (key.into(), text.into());
        self.typed.update(|typed| {
            typed.insert(key, text);
        });
    }

    /// Empties the form, but for some fields.
    pub fn clear_but(self, kept: &[&str]) {
        self.typed.update(|typed| {
            typed.retain(|key, _| kept.iter().any(|k| key == k || key.starts_with(&format!("{k}."))));
        });
        self.faults.set(Vec::new());
    }

    /// Returns the place typed so far; an empty one when what was typed is none.
    pub fn read_place(self) -> survey::Place {
        let places: Vec<Field> = self.fields.iter().filter(|field| field.key.starts_with("place.")).cloned().collect();
        let read = self.typed.with_untracked(|typed| read(&places, typed, &Typed::new(), &Value::Null)).ok();
        let place = read.as_ref().and_then(|value| value.get("place")).cloned();
        place.and_then(|place| serde_json::from_value(place).ok()).unwrap_or_default()
    }
}

fn next_serial() -> u32 {
    thread_local!(static LAST: Cell<u32> = const { Cell::new(0) });
    LAST.with(|last| {
        last.set(last.get().wrapping_add(1));
        last.get()
    })
}

/// Goes to a field of the page.
fn focus(id: &str) {
    use wasm_bindgen::JsCast as _;
    let found = document().get_element_by_id(id);
    if let Some(element) = found.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = element.focus();
    }
}

/// Shows the fields of a form that are asked, in order; `only` leaves out the others.
#[component]
pub fn FormView(state: FormState, #[prop(optional)] only: Option<fn(&Field) -> bool>) -> impl IntoView {
    let fields = state.fields;
    view! {
        <div class="fields">
            {fields
                .iter()
                .filter(|field| only.is_none_or(|only| only(field)))
                .map(|field| {
                    let asked = Memo::new(move |_| state.typed.with(|typed| field.is_asked(typed)));
                    view! { <Show when=move || asked.get()><FieldView field state key=field.key.to_owned()/></Show> }
                })
                .collect_view()}
        </div>
    }
}
