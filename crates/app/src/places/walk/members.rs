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

/// What somebody says of a member is not its having been looked at: it is owed as the checks before issue take it.
fn is_owed(cover: Cover) -> bool {
    matches!(cover, Cover::Owed | Cover::HearsayOnly)
}

/// Returns the members with what is recorded of each.
fn rows(book: Book) -> Memo<Vec<Row>> {
    book.later(|state| {
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
}

/// All members, to choose from. Each row follows its own member only, so that a group somebody opened stays open and
/// one more entry touches one row.
#[component]
pub fn Members(what: Memo<String>) -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let all = rows(book);
    let only_owed = RwSignal::new(false);
    let typed = RwSignal::new(String::new());
    let groups = Memo::new(move |_| {
        let wanted = typed.get().to_lowercase();
        let mut groups: Vec<(String, Vec<String>)> = Vec::new();
        all.with(|all| {
            for row in all {
                let fits = wanted.is_empty()
                    || row.name.to_lowercase().contains(&wanted)
                    || row.group.to_lowercase().contains(&wanted);
                if !fits || (only_owed.get() && !is_owed(row.cover)) {
                    continue;
                }
                match groups.iter_mut().find(|(group, _)| *group == row.group) {
                    Some((_, ids)) => ids.push(row.id.clone()),
                    None => groups.push((row.group.clone(), vec![row.id.clone()])),
                }
            }
        });
        groups
    });
    let tally = Memo::new(move |_| all.with(|all| (all.len(), all.iter().filter(|row| is_owed(row.cover)).count())));
    view! {
        <aside class="members" aria-label="Members of this boat">
            <p class="tally">{move || { let (all, owed) = tally.get(); format!("{} of {all} members looked at or said not to be seen; {owed} owed.", all - owed) }}</p>
            <p class="leaving"><a class="button" href=format!("/survey/{survey}/bench/leaving")>{move || match tally.get().1 {
                0 => "Leaving the yard?".to_owned(),
                owed => format!("Leaving the yard? {owed} owed"),
            }}</a></p>
            <input type="search" class="filter" aria-label="Filter the members" placeholder="Filter the members" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
            <label class="several-one"><input type="checkbox" prop:checked=move || only_owed.get() on:change=move |e| only_owed.set(event_target_checked(&e))/><span>"Only what is owed"</span></label>
            <For each=move || groups.get() key=|(group, _)| group.clone() children=move |(group, _)| {
                let name = group.clone();
                let ids = Memo::new(move |_| groups.with(|all| {
                    all.iter().find(|(name, _)| *name == group).map(|(_, ids)| ids.clone()).unwrap_or_default()
                }));
                let done = Memo::new(move |_| ids.with(|ids| all.with(|all| {
                    let owed = all.iter().filter(|row| is_owed(row.cover) && ids.contains(&row.id)).count();
                    format!("{} of {}", ids.len() - owed, ids.len())
                })));
                let open = Memo::new(move |_| !typed.with(String::is_empty) || ids.with(|ids| what.with(|what| ids.contains(what))));
                view! {
                    <details class="group" open=move || open.get()>
                        <summary><span>{name}</span><span class="count">{move || done.get()}</span></summary>
                        <ul><For each=move || ids.get() key=String::clone children=move |id| view! { <Member id all what/> }/></ul>
                    </details>
                }
            }/>
        </aside>
    }
}

/// One member in the list, with what is seen and what is owed.
#[component]
fn Member(id: String, all: Memo<Vec<Row>>, what: Memo<String>) -> impl IntoView {
    let survey = Book::here().survey;
    let (address, own) = (format!("/survey/{survey}/walk/{id}"), id.clone());
    let row = Memo::new(move |_| all.with(|all| all.iter().find(|row| row.id == id).cloned()));
    view! {
        <li><a href=address aria-current=move || (what.get() == own).then_some("true")>
            {move || row.get().map(|row| view! {
                <span class="member-name">{row.name}</span>
                {match row.condition {
                    Some(condition) => view! { <ConditionMark condition/> }.into_any(),
                    None => view! { <CoverMark cover=row.cover/> }.into_any(),
                }}
                {(row.seen > 0).then(|| view! { <span class="count" aria-label="observations">{row.seen}</span> })}
                {(row.commonly_hidden && row.cover == Cover::Owed).then(|| view! { <span class="hush">"commonly hidden"</span> })}
            })}
        </a></li>
    }
}
