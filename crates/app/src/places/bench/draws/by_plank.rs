//! A plan's picks as a list of planks, in the order in which one walks round her.

use super::next::{Which, in_words};
use crate::book::Book;
use leptos::prelude::*;
use survey::{DrawPlan, DrawnCondition, EntryId, Place, Side};

/// One pick in the list.
#[derive(Clone, PartialEq)]
struct Row {
    plank: String,
    order: (Option<Side>, Option<u32>, Option<u32>),
    zone: String,
    which: Which,
    at: String,
    drawn: Option<(EntryId, DrawnCondition)>,
    substitute: bool,
}

fn rows(plan: &DrawPlan) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for zone in &plan.zones {
        for pick in zone.shown() {
            let place = pick.place.clone().unwrap_or_default();
            let plank = Place { side: place.side, strake: place.strake, ..Place::default() };
            let along = Place { frame_from: place.frame_from, words: place.words.clone(), ..Place::default() };
            rows.push(Row {
                plank: if plank.is_empty() { "By number".to_owned() } else { plank.to_string() },
                order: (place.side, place.strake, place.frame_from),
                zone: zone.zone.as_deref().map(in_words).unwrap_or_default(),
                which: (zone.zone.clone(), pick.number),
                at: if along.is_empty() { format!("no. {}", pick.number) } else { along.to_string() },
                drawn: pick.drawn,
                substitute: pick.substitute,
            });
        }
    }
    rows.sort_by_key(|row| row.order);
    rows
}

/// The list.
#[component]
pub fn ByPlank(plan: Memo<Option<DrawPlan>>, chosen: RwSignal<Option<Which>>) -> impl IntoView {
    let survey = Book::here().survey;
    let rows = Memo::new(move |_| plan.with(|plan| plan.as_ref().map(rows).unwrap_or_default()));
    let member = move || {
        plan.with(|p| p.as_ref().and_then(|p| p.member.clone())).unwrap_or_else(|| "plank-fastening".to_owned())
    };
    view! {
        <div class="table-box" tabindex="0" role="region" aria-label=move || plan.with(|plan| plan.as_ref().map(|plan| format!("Picks of plan {} by plank", plan.id.short())))><table class="picks">
            <thead><tr><th scope="col">"Plank"</th><th scope="col">"Where"</th><th scope="col">"Zone"</th><th scope="col">"Found"</th></tr></thead>
            <tbody>{move || {
                let mut before = String::new();
                rows.get().into_iter().map(|row| {
                    let again = row.plank == before;
                    before.clone_from(&row.plank);
                    let plank = if again { view! { <td></td> }.into_any() } else { view! { <th scope="row">{row.plank.clone()}</th> }.into_any() };
                    let substitute = if row.substitute { " (substitute)" } else { "" };
                    let found = match row.drawn {
                        Some((_, condition)) => view! { <a href=format!("/survey/{survey}/walk/{}", member())>{condition.to_string()}</a> }.into_any(),
                        None => {
                            let which = row.which.clone();
                            view! { <button type="button" class="quiet" on:click=move |_| chosen.set(Some(which.clone()))>"Draw it next"</button> }.into_any()
                        }
                    };
                    view! { <tr>{plank}<td>{format!("{}{substitute}", row.at)}</td><td>{row.zone}</td><td>{found}</td></tr> }
                }).collect_view()
            }}</tbody>
        </table></div>
    }
}
