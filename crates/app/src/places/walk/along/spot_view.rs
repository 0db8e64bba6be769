//! Where one stands: the member, the side, and stepping along strakes and frames.

use super::Along;
use crate::look::Dialog;
use crate::words::member_name;
use leptos::prelude::*;
use survey::Side;

#[component]
pub fn SpotView(along: Along) -> impl IntoView {
    let Along { book, spot, reach, .. } = along;
    let choosing = RwSignal::new(false);
    let name = Memo::new(move |_| {
        let member = spot.with(|spot| spot.member.clone());
        if member.is_empty() {
            "Choose the member".to_owned()
        } else {
            book.state.with_untracked(|state| member_name(state, &member))
        }
    });
    let strake = move || spot.with(|spot| spot.place.strake.map_or_else(|| "–".to_owned(), |n| n.to_string()));
    let frame = move || {
        spot.with(|spot| match (spot.place.frame_from, spot.place.frame_to) {
            (Some(from), Some(to)) if to > from => format!("{from} to {to}"),
            (Some(from), _) => from.to_string(),
            _ => "–".to_owned(),
        })
    };
    let has = move |member: &str| {
        book.state.with_untracked(|state| survey::members_of(state).iter().any(|had| had.id == member))
    };
    let side = move |side: Side| {
        spot.update(|spot| spot.place.side = if spot.place.side == Some(side) { None } else { Some(side) });
    };
    let step_strakes = move |by: i32| spot.update(|spot| spot.step_strakes(by, reach.get_untracked(), has));
    let step_frames = move |by: i32| spot.update(|spot| spot.step_frames(by, reach.get_untracked()));
    view! {
        <div class="spot">
            <button type="button" class="spot-member" on:click=move |_| choosing.set(true)>{move || name.get()}</button>
            <div class="ways" role="group" aria-label="Side">
                {[Side::Port, Side::Starboard, Side::Centreline].into_iter().map(|one| view! {
                    <button type="button" class="way" aria-pressed=move || spot.with(|spot| spot.place.side == Some(one)).to_string() on:click=move |_| side(one)>{one.to_string()}</button>
                }).collect_view()}
            </div>
            <div class="steps">
                <div class="step" role="group" aria-label="Strake, from the garboard">
                    <button type="button" aria-label="One strake in" on:click=move |_| step_strakes(-1)>"−"</button>
                    <p aria-live="polite"><span class="hush">"strake "</span><strong>{strake}</strong></p>
                    <button type="button" aria-label="One strake out" on:click=move |_| step_strakes(1)>"+"</button>
                </div>
                <div class="step" role="group" aria-label="Frame, from the stem">
                    <button type="button" aria-label="One frame forward" on:click=move |_| step_frames(-1)>"−"</button>
                    <p aria-live="polite"><span class="hush">"frame "</span><strong>{frame}</strong></p>
                    <button type="button" aria-label="One frame aft" on:click=move |_| step_frames(1)>"+"</button>
                </div>
            </div>
        </div>
        <Dialog open=choosing title="The member">
            <Choose along done=move || choosing.set(false)/>
        </Dialog>
    }
}

/// The members: those recorded on last first, then all by group.
#[component]
fn Choose(along: Along, done: impl Fn() + Copy + Send + Sync + 'static) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let all = along.book.later(|state| {
        let recent: Vec<String> = {
            let mut seen = Vec::new();
            let observations: Vec<_> = state.observations().collect();
            for one in observations.iter().rev() {
                if !seen.contains(&one.payload.member) {
                    seen.push(one.payload.member.clone());
                }
                if seen.len() == 6 {
                    break;
                }
            }
            seen
        };
        let named: Vec<(String, String, String)> =
            survey::members_of(state).into_iter().map(|m| (m.id, m.name, m.group)).collect();
        (recent, named)
    });
    let found = move || {
        let wanted = typed.get().to_lowercase();
        all.with(|(recent, named)| {
            let name = |id: &String| named.iter().find(|(own, ..)| own == id).cloned();
            let first = recent.iter().filter(|_| wanted.is_empty()).filter_map(name).map(|one| (true, one));
            let rest = named.iter().filter(|(_, name, group)| {
                wanted.is_empty() || name.to_lowercase().contains(&wanted) || group.to_lowercase().contains(&wanted)
            });
            first.chain(rest.cloned().map(|one| (false, one))).collect::<Vec<_>>()
        })
    };
    view! {
        <input type="search" class="filter" aria-label="Filter the members" placeholder="Filter the members" prop:value=move || typed.get() on:input=move |e| typed.set(event_target_value(&e))/>
        <ul class="choose-member">
            {move || found().into_iter().map(|(recent, (id, name, group))| view! {
                <li><button type="button" class="link" on:click=move |_| { along.spot.update(|spot| spot.choose(&id)); done(); }>{name}</button>
                    <span class="hush">{if recent { "lately".to_owned() } else { group }}</span></li>
            }).collect_view()}
        </ul>
    }
}
