//! The next fastening to draw: how it was found, what it measures, a photograph, recorded.

use crate::book::{Book, Workbench, new_id, sentence};
use crate::places::photos::{Photos, keep_photos};
use leptos::prelude::*;
use measure::Length;
use survey::payload::{Observation, Payload};
use survey::{DrawPlan, DrawnCondition, Pick, Picked, Place, PlannedZone, Reading, State};

/// How a fastening may be found, as large choices.
const CONDITIONS: [DrawnCondition; 5] = [
    DrawnCondition::Good,
    DrawnCondition::Wasted,
    DrawnCondition::Broken,
    DrawnCondition::TurnsWithoutBite,
    DrawnCondition::WouldNotDraw,
];

/// A pick by zone and number.
pub type Which = (Option<String>, u64);

/// Returns the pick that is drawn next: the one chosen while it is still to be drawn, else the first in order.
fn next(plan: &DrawPlan, chosen: Option<&Which>) -> Option<(PlannedZone, Pick)> {
    let open = |zone: &PlannedZone, number: u64| {
        zone.picks.iter().find(|pick| pick.number == number && pick.drawn.is_none()).cloned()
    };
    let asked = chosen.and_then(|(zone, number)| {
        let zone = plan.zones.iter().find(|z| z.zone == *zone)?;
        Some((zone.clone(), open(zone, *number)?))
    });
    asked.or_else(|| plan.zones.iter().find_map(|zone| Some((zone.clone(), zone.next()?.clone()))))
}

/// What the last draw by the plan says of the fastenings: what they are, and their diameter as new.
fn last_drawn(state: &State, plan: &DrawPlan) -> (String, Option<f64>) {
    let drawn = state.observations().filter_map(|o| match &o.payload.reading {
        Reading::Draw { fastening, original_mm, picked: Some(picked), .. } if picked.plan == plan.id => {
            Some((fastening.clone(), *original_mm))
        }
        _ => None,
    });
    let vessel = || state.vessel().and_then(|v| v.payload.plank_fastening.clone()).unwrap_or_default();
    drawn.last().unwrap_or_else(|| (vessel(), None))
}

/// The card of the next fastening.
#[component]
pub fn NextDraw(plan: Memo<Option<DrawPlan>>, chosen: RwSignal<Option<Which>>) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let pick = Memo::new(move |_| plan.with(|plan| next(plan.as_ref()?, chosen.get().as_ref())));
    let (fastening, original_mm) = plan.with_untracked(|plan| {
        plan.as_ref().map(|plan| book.state.with_untracked(|state| last_drawn(state, plan))).unwrap_or_default()
    });
    let shown = |mm: Option<f64>| mm.map(|mm| format!("{mm} mm")).unwrap_or_default();
    let fastening = RwSignal::new(fastening);
    let original = RwSignal::new(shown(original_mm));
    let measured = RwSignal::new(String::new());
    let note = RwSignal::new(String::new());
    let condition = RwSignal::new(None::<DrawnCondition>);
    let photos = RwSignal::new(Vec::new());
    let busy = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let record = move |_| {
        if busy.get_untracked() {
            return;
        }
        refused.set(None);
        let observation = (|| {
            let plan = plan.get_untracked().ok_or("The plan is no longer in this survey.")?;
            let (zone, pick) = pick.get_untracked().ok_or("There is none left to draw.")?;
            let condition = condition.get_untracked().ok_or("Say first how it is found.")?;
            let length = |what: &str, text: String| match text.trim() {
                "" => Ok(None),
                text => Length::read(text)
                    .map(|length| Some(length.mm()))
                    .map_err(|why| sentence(&format!("{what}: {why}"))),
            };
            let reading = Reading::Draw {
                fastening: fastening.get_untracked().trim().to_owned(),
                condition,
                original_mm: length("diameter as new", original.get_untracked())?,
                measured_mm: length("least diameter now", measured.get_untracked())?,
                picked: Some(Picked { plan: plan.id, zone: zone.zone.clone(), number: pick.number }),
            };
            let member = plan.member.clone().unwrap_or_else(|| "plank-fastening".to_owned());
            let place = pick.place.clone().unwrap_or_else(|| Place {
                words: Some(format!("no. {} of the count", pick.number)),
                ..Place::default()
            });
            let mut observation = Observation::new(member, place, reading);
            observation.note = note.get_untracked().trim().to_owned();
            let strict = Payload::from(observation.clone());
            match strict.fault() {
                Some(fault) => Err(sentence(&fault.to_string())),
                None => Ok(observation),
            }
        })();
        let observation = match observation {
            Ok(observation) => observation,
            Err(why) => return refused.set(Some(why)),
        };
        busy.set(true);
        leptos::task::spawn_local(async move {
            let id = new_id();
            let outcome = async {
                let mut named = vec![(id, Payload::from(observation))];
                named.extend(keep_photos(book, bench, id, photos.get_untracked()).await?);
                book.write_named(named, "Draw recorded.").await
            }
            .await;
            busy.try_set(false);
            match outcome {
                Ok(_) => {
                    condition.try_set(None);
                    measured.try_set(String::new());
                    note.try_set(String::new());
                    photos.try_set(Vec::new());
                    chosen.try_set(None);
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let line = |label: &'static str, id: &'static str, text: RwSignal<String>, mode: &'static str| {
        view! {
            <div class="field"><label for=id>{label}</label>
                <input id=id type="text" autocomplete="off" inputmode=mode prop:value=move || text.get() on:input=move |e| text.set(event_target_value(&e))/></div>
        }
    };
    view! {
        <Show when=move || pick.with(Option::is_some)>
            <section class="next-draw" aria-label=move || plan.with(|plan| plan.as_ref().map(|plan| format!("Next to draw by plan {}", plan.id.short())))>
                <p class="hush">{move || pick.with(|p| p.as_ref().map(|(zone, pick)| title(zone, pick)))}</p>
                <p class="next-place">{move || pick.with(|p| p.as_ref().map(|(_, pick)| at(pick)))}</p>
                <div class="choices" role="group" aria-label="How it is found">
                    {CONDITIONS.map(|one| view! {
                        <button type="button" class="choice" aria-pressed=move || (condition.get() == Some(one)).to_string() on:click=move |_| condition.set(Some(one))>{one.to_string()}</button>
                    }).collect_view()}
                </div>
                <div class="fields">
                    {line("Least diameter now", "drawn-measured", measured, "decimal")}
                    {line("Diameter as new", "drawn-original", original, "decimal")}
                    {line("What it is", "drawn-fastening", fastening, "text")}
                    {line("Note", "drawn-note", note, "text")}
                </div>
                <Photos photos/>
                {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
                <div class="acts"><button type="button" class="main" disabled=move || busy.get() on:click=record>"Record the draw"</button></div>
                <p class="hush">"One that will not draw is recorded as such; the next substitute follows, never its neighbour."</p>
            </section>
        </Show>
    }
}

fn title(zone: &PlannedZone, pick: &Pick) -> String {
    let order = zone.shown().position(|one| one.number == pick.number).map_or(0, |n| n + 1);
    let of = zone.to_draw;
    let substitute = if pick.substitute { ", a substitute" } else { "" };
    match &zone.zone {
        Some(name) => format!("Next in {}: {order} of {of}{substitute}", in_words(name)),
        None => format!("Next: {order} of {of}{substitute}"),
    }
}

/// A zone's name as it is said.
pub fn in_words(zone: &str) -> String {
    fastening::draw::zone::Zone::named(zone).map_or_else(|_| zone.replace('-', " "), |z| z.in_words().to_owned())
}

/// Where a pick is.
pub fn at(pick: &Pick) -> String {
    pick.place
        .as_ref()
        .map_or_else(|| format!("No. {} of the count", pick.number), |place| sentence(&place.to_string()))
}
