//! Before you leave the yard: what is still worth doing while she can be reached, and what is still owed.

use crate::book::Book;
use crate::exchange::Standing;
use crate::weighed::{still_worth, weigh_all};
use crate::words::member_name;
use evidence::Leave;
use leptos::prelude::*;
use survey::{Cover, Place, Side, SurveyId};

/// The list: tests by what they would tell, members owed by what they may come to, members not seen.
#[component]
pub fn BeforeYouLeave() -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let tests = Memo::new(move |_| book.state.with(|state| still_worth(&weigh_all(state, None))));
    let minutes = Memo::new(move |_| tests.with(|all| all.iter().map(|test| test.minutes).sum::<f64>()));
    let members = Memo::new(move |_| {
        let mut all = book.state.with(survey::coverage);
        all.sort_by_key(|c| std::cmp::Reverse(c.member.consequence));
        let of = |wanted: &[Cover]| -> Vec<(String, String, String)> {
            let some = all.iter().filter(|c| wanted.contains(&c.cover));
            some.map(|c| {
                (
                    c.member.id.clone(),
                    c.member.name.clone(),
                    c.member.consequence.map(|c| c.to_string()).unwrap_or_default(),
                )
            })
            .collect()
        };
        (of(&[Cover::Owed, Cover::HearsayOnly]), of(&[Cover::NotSeen, Cover::PartlySeen]))
    });
    let listed = move |seen: bool| {
        let (owed, unseen) = members.get();
        let rows = if seen { unseen } else { owed };
        rows.into_iter()
            .map(|(id, name, consequence)| {
                let consequence = (!consequence.is_empty())
                    .then(|| view! { <span class="hush">{format!("if it fails: {consequence}")}</span> });
                view! { <li><a href=format!("/survey/{survey}/walk/{id}")>{name}</a>" "{consequence}</li> }
            })
            .collect_view()
    };
    let shown = RwSignal::new(25_usize);
    view! {
        <section class="before-leaving">
            {move || Some(warnings(members.with(|(owed, _)| owed.len()), &book.standing.get())).filter(|all| !all.is_empty()).map(|all| view! {
                <div class="plain" role="alert"><p><strong>"Before she is lowered:"</strong></p>
                    <ul>{all.into_iter().map(|words| view! { <li>{words}</li> }).collect_view()}</ul></div>
            })}
            <p class="lead">"What is still worth doing while she stands here, most told a minute first. Minutes are rough; leave is the owner's to give."</p>
            <Show when=move || !tests.with(Vec::is_empty) fallback=|| view! { <p class="teach">"No test of a place already read would tell much more."</p> }>
                <p class="tally">{move || format!("{} places, {:.0} minutes in all if every one is done.", tests.with(Vec::len), minutes.get())}</p>
                <ol class="next-tests">{move || tests.get().into_iter().take(shown.get()).map(|test| {
                    let name = book.state.with_untracked(|state| member_name(state, &test.member));
                    let at = if test.place.is_empty() { String::new() } else { format!(", {}", test.place) };
                    let leave = match test.leave {
                        Leave::Nothing => String::new(),
                        leave => format!(" Needs leave: {}.", leave.words()),
                    };
                    view! {
                        <li><a href=record_at(survey, &test.member, &test.place)>{name}{at}</a>": "{test.what}
                            <span class="about">{format!("{:.0} min; tells about {:.1} of a yes-or-no question.{leave}", test.minutes, test.information_bits)}</span></li>
                    }
                }).collect_view()}</ol>
                <Show when=move || { tests.with(Vec::len) > shown.get() }><button type="button" class="quiet" on:click=move |_| shown.set(usize::MAX)>"Show all"</button></Show>
            </Show>
            <h2>"Owed: neither looked at nor said not to be seen"</h2>
            <Show when=move || !members.with(|(owed, _)| owed.is_empty()) fallback=|| view! { <p class="teach">"Nothing is owed."</p> }>
                <ul>{move || listed(false)}</ul>
            </Show>
            <h2>"Not seen, or only in part"</h2>
            <Show when=move || !members.with(|(_, unseen)| unseen.is_empty()) fallback=|| view! { <p class="teach">"Nothing is recorded as not seen."</p> }>
                <ul>{move || listed(true)}</ul>
            </Show>
        </section>
    }
}

/// What speaks against leaving now: what cannot be seen any more afterwards, and what is on this device alone.
fn warnings(owed: usize, standing: &Standing) -> Vec<String> {
    let owed = match owed {
        0 => None,
        1 => Some(
            "One member is owed: neither looked at nor said not to be seen, with what stood in the way.".to_owned(),
        ),
        n => Some(format!(
            "{n} members are owed: neither looked at nor said not to be seen, with what stood in the way."
        )),
    };
    let waiting = match standing {
        Standing::Away { waiting } | Standing::NotPaired { waiting } | Standing::Sending { left: waiting } => *waiting,
        _ => 0,
    };
    let alone = match waiting {
        0 => None,
        1 => Some("One entry is on this device alone. Keep it charged and dry until it is sent, or make a package of the survey.".to_owned()),
        n => Some(format!("{n} entries are on this device alone. Keep it charged and dry until they are sent, or make a package of the survey.")),
    };
    owed.into_iter().chain(alone).collect()
}

/// The address of the form that records on a member at a place.
fn record_at(survey: SurveyId, member: &str, place: &Place) -> String {
    let mut parts: Vec<String> = Vec::new();
    if let Some(side) = place.side {
        let side = match side {
            Side::Port => "port",
            Side::Starboard => "starboard",
            Side::Centreline => "centreline",
        };
        parts.push(format!("side={side}"));
    }
    for (key, value) in [
        ("strake", place.strake),
        ("frame_from", place.frame_from),
        ("frame_to", place.frame_to),
        ("number", place.number),
    ] {
        parts.extend(value.map(|n| format!("{key}={n}")));
    }
    let query = if parts.is_empty() { String::new() } else { format!("?{}", parts.join("&")) };
    format!("/survey/{survey}/walk/{member}{query}")
}
