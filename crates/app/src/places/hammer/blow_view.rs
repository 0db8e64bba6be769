//! One blow as it is shown, and the blows along the member.

use super::session::{Session, Struck};
use crate::book::Book;
use crate::hearing::proposals::moment;
use crate::hearing::verdict::at_a_glance;
use crate::look::DrawingView;
use crate::words::member_name;
use drawing::blow::{Answered, StruckAt, along, blow};
use leptos::prelude::*;
use survey::{Reading, SoundAnswer};

/// Shows one blow: its verdict, what it rests on, and its drawing.
#[component]
pub fn BlowView(session: Session, struck: Struck) -> impl IntoView {
    let Struck { blow: one, answer, words, cautions, traces } = struck;
    let glance = answer.map_or("reference", at_a_glance);
    let d = &one.description;
    let decay =
        d.decay_ms.map_or_else(|| "its dying away cannot be told".to_owned(), |ms| format!("dies away in {ms:.0} ms"));
    let measured = format!("strongest tone {:.0} Hz, {decay}", d.dominant_hz());
    let compared = !traces.reference_decay.is_empty();
    let described = format!(
        "A blow at {}: {measured}; course, dying away and tones{}.",
        moment(one.time_s),
        if compared { ", the middle of the reference blows dashed" } else { "" }
    );
    let sheet = blow(&format!("Blow at {}", moment(one.time_s)), &described, &traces);
    let is_reference = session.of_references.get_untracked();
    view! {
        <li class="blow">
            <p class="blow-line"><strong class="glance">{glance}</strong>
                <span>{(!is_reference).then(|| format!("{words}; "))}{measured}</span>
                <span class="moment">{moment(one.time_s)}</span></p>
            {(!cautions.is_empty()).then(|| view! { <p class="hush">{cautions.join(" ")}</p> })}
            <DrawingView sheet/>
        </li>
    }
}

/// Shows what the record holds of the hammer on a member: where it was struck and how it answered.
#[component]
pub fn Along(member: RwSignal<String>) -> impl IntoView {
    let book = Book::here();
    let sheet = Memo::new(move |_| {
        let member = member.get();
        book.state.with(|state| {
            let struck: Vec<StruckAt> = state
                .observations()
                .filter(|seen| seen.payload.member == member)
                .filter_map(|seen| {
                    let Reading::Sound { answer, .. } = &seen.payload.reading else { return None };
                    let place = &seen.payload.place;
                    let from = f64::from(place.frame_from?);
                    let to = place.frame_to.map_or(from, f64::from);
                    let answer = match answer {
                        SoundAnswer::Rings => Answered::Rings,
                        SoundAnswer::DullOrHollow | SoundAnswer::Chatters => Answered::Dull,
                        SoundAnswer::CannotBeTold => Answered::NotTold,
                    };
                    Some(StruckAt { frame: f64::midpoint(from, to), strake: place.strake, answer })
                })
                .collect();
            let name = member_name(state, &member);
            let count = |answer| struck.iter().filter(|one| one.answer == answer).count();
            let described = format!(
                "Places struck on the {name}, by frame from the stem: {} ring, {} dull, {} cannot be told.",
                count(Answered::Rings),
                count(Answered::Dull),
                count(Answered::NotTold)
            );
            along(&format!("Struck on the {name}"), &described, &struck)
        })
    });
    view! {
        {move || sheet.get().map(|sheet| {
            let caption = format!("{} Open: rings; full: dull; cross: cannot be told.", sheet.description);
            view! { <h3>"Along the member"</h3><DrawingView sheet caption/> }
        })}
    }
}
