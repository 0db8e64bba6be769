//! The list of members: by group, with what is seen and what is owed.

use crate::book::Book;
use crate::look::{ConditionMark, CoverMark};
use leptos::prelude::*;
use survey::Cover;
use survey::payload::Condition;

/// One row of the list of members.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    id: String,
    name: String,
    group: String,
    cover: Cover,
    condition: Option<Condition>,
    seen: usize,
    commonly_hidden: bool,
}

/// Returns the members with what is recorded of each.
fn rows(book: Book) -> Memo<Vec<Row>> {
    Memo::new(move |_| {
        book.state.with(|state| {
            survey::coverage(state)
                .into_iter()
                .map(|c| Row {
                    id: c.member.id,
                    name: c.member.name,
                    group: c.member.group,
                    cover: c.cover,
                    condition: c.condition,
                    seen: c.observations.len(),
                    commonly_hidden: c.member.why_inaccessible.is_some(),
                })
                .collect()
        })
    })
}

/// All members, to choose from.
#[component]
pub fn Members(what: Memo<String>) -> impl IntoView {
    let book = Book::here();
    let all = rows(book);
    let only_owed = RwSignal::new(false);
    let typed = RwSignal::new(String::new());
    let shown = Memo::new(move |_| {
        let wanted = typed.get().to_lowercase();
        let mut groups: Vec<(String, Vec<Row>)> = Vec::new();
        for row in all.get() {
            let fits = wanted.is_empty()
                || row.name.to_lowercase().contains(&wanted)
                || row.group.to_lowercase().contains(&wanted);
            if !fits || (only_owed.get() && row.cover != Cover::Owed) {
                continue;
            }
            match groups.iter_mut().find(|(group, _)| *group == row.group) {
                Some((_, rows)) => rows.push(row),
                None => groups.push((row.group.clone(), vec![row])),
            }
        }
        groups
    });
    let tally =
        Memo::new(move |_| all.with(|all| (all.len(), all.iter().filter(|row| row.cover == Cover::Owed).count())));
    let survey = book.survey;
    view! {
        <aside class="members" aria-label="Members of this boat">
            <p class="tally">{move || { let (all, owed) = tally.get(); format!("{} of {all} members looked at or said not to be seen; {owed} owed.", all - owed) }}</p>
            <input type="search" class="filter" aria-label="Filter the members" placeholder="Filter the members" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
            <label class="several-one"><input type="checkbox" prop:checked=move || only_owed.get() on:change=move |e| only_owed.set(event_target_checked(&e))/><span>"Only what is owed"</span></label>
            {move || shown.get().into_iter().map(|(group, rows)| {
                let owed = rows.iter().filter(|row| row.cover == Cover::Owed).count();
                let count = rows.len();
                let open = !typed.get_untracked().is_empty() || rows.iter().any(|row| row.id == what.get());
                view! {
                    <details class="group" open=open>
                        <summary><span>{group}</span><span class="count">{format!("{} of {count}", count - owed)}</span></summary>
                        <ul>{rows.into_iter().map(|row| {
                            let own = row.id.clone();
                            view! {
                                <li><a href=format!("/survey/{survey}/walk/{}", row.id) aria-current=move || (what.get() == own).then_some("true")>
                                    <span class="member-name">{row.name}</span>
                                    {match row.condition {
                                        Some(condition) => view! { <ConditionMark condition/> }.into_any(),
                                        None => view! { <CoverMark cover=row.cover/> }.into_any(),
                                    }}
                                    {(row.seen > 0).then(|| view! { <span class="count" aria-label="observations">{row.seen}</span> })}
                                    {(row.commonly_hidden && row.cover == Cover::Owed).then(|| view! { <span class="hush">"commonly hidden"</span> })}
                                </a></li>
                            }
                        }).collect_view()}</ul>
                    </details>
                }
            }).collect_view()}
        </aside>
    }
}
