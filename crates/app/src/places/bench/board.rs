//! The board of all members: worst first, then those of which least is known.

use crate::book::Book;
use crate::look::{ConditionMark, CoverMark};
use leptos::prelude::*;
use survey::Cover;
use survey::payload::Condition;

#[derive(Clone, Debug, PartialEq)]
struct Row {
    id: String,
    name: String,
    condition: Option<Condition>,
    cover: Cover,
    adverse: usize,
    observations: usize,
    consequence: Option<survey::Consequence>,
}

/// The board.
#[component]
pub fn Board() -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let rows = Memo::new(move |_| {
        book.state.with(|state| {
            let mut rows: Vec<Row> = survey::coverage(state)
                .into_iter()
                .map(|c| Row {
                    adverse: c
                        .observations
                        .iter()
                        .filter_map(|id| state.find::<survey::payload::Observation>(*id))
                        .filter(|o| o.payload.reading.is_adverse())
                        .count(),
                    observations: c.observations.len(),
                    id: c.member.id,
                    name: c.member.name,
                    condition: c.condition,
                    cover: c.cover,
                    consequence: c.member.consequence,
                })
                .collect();
            // Worst first; then what speaks against a member without a finding; then what is owed, by what it may come to.
            rows.sort_by_key(|row| {
                let known = row.cover == Cover::Seen || row.cover == Cover::PartlySeen;
                (
                    std::cmp::Reverse(row.condition),
                    std::cmp::Reverse(row.adverse),
                    known,
                    std::cmp::Reverse(row.consequence),
                )
            });
            rows
        })
    });
    let shown = RwSignal::new(40_usize);
    view! {
        <section class="board">
            <p class="lead">"Worst first, then those of which least is known. A row opens the member."</p>
            <div class="table-box" tabindex="0" role="region" aria-label="Board of members"><table>
                <thead><tr><th scope="col">"Member"</th><th scope="col">"Finding"</th><th scope="col">"Looked at"</th><th scope="col">"Against it"</th><th scope="col">"If it fails"</th></tr></thead>
                <tbody>{move || rows.get().into_iter().take(shown.get()).map(|row| view! {
                    <tr>
                        <th scope="row"><a href=format!("/survey/{survey}/walk/{}", row.id)>{row.name}</a></th>
                        <td>{row.condition.map(|condition| view! { <ConditionMark condition/> })}</td>
                        <td><CoverMark cover=row.cover/></td>
                        <td>{(row.observations > 0).then(|| format!("{} of {}", row.adverse, row.observations))}</td>
                        <td>{row.consequence.map(|c| c.to_string())}</td>
                    </tr>
                }).collect_view()}</tbody>
            </table></div>
            <Show when=move || { rows.with(Vec::len) > shown.get() }><button type="button" class="quiet" on:click=move |_| shown.set(usize::MAX)>"Show all members"</button></Show>
        </section>
    }
}
