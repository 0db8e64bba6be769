//! Frame by frame: recording as fast as one walks. Where one stands, how it was tried, what it gave: each a tap, and the
//! last of them records. What was recorded last stays in view, to be added to or amended.

mod keypad;
mod last;
mod spot_view;
mod voice;

use crate::at_once::{AtOnce, Figure, Reach, Spot, at_once};
use crate::book::{Book, Workbench, new_id, sentence};
use keypad::Keypad;
use last::LastRecorded;
use leptos::prelude::*;
use leptos_router::hooks::use_query_map;
use spot_view::SpotView;
use survey::payload::Payload;
use survey::{EntryId, Method, Reading};

/// The word of this page in addresses.
pub const WORD: &str = "along";

/// What the parts of the page share.
#[derive(Clone, Copy)]
struct Along {
    book: Book,
    bench: Workbench,
    spot: RwSignal<Spot>,
    reach: Memo<Reach>,
    method: RwSignal<Method>,
    /// Whether one frame is gone on after each.
    goes_on: RwSignal<bool>,
    last: RwSignal<Option<EntryId>>,
    /// What was read last, for the same again.
    reading: RwSignal<Option<(Reading, &'static str)>>,
    refused: RwSignal<Option<String>>,
}

impl Along {
    /// Records a reading where one stands.
    fn record(self, reading: Reading, note: &'static str) {
        let spot = self.spot.get_untracked();
        if spot.member.is_empty() {
            return self.refused.set(Some("Choose the member first.".to_owned()));
        }
        let payload = Payload::from(spot.observed(reading.clone(), note));
        if let Some(fault) = payload.fault() {
            return self.refused.set(Some(sentence(&fault.to_string())));
        }
        self.refused.set(None);
        let id = new_id();
        leptos::task::spawn_local(async move {
            match self.book.write_named(vec![(id, payload)], "Recorded.").await {
                Ok(_) => {
                    // The entry itself, in view at once, says that it is recorded; a bar would lie over the next tap.
                    self.bench.said.set(None);
                    self.last.try_set(Some(id));
                    self.reading.try_set(Some((reading, note)));
                    if self.goes_on.try_get_untracked() == Some(true) {
                        self.spot.try_update(|spot| spot.step_frames(1, self.reach.get_untracked()));
                    }
                }
                Err(why) => {
                    self.refused.try_set(Some(why));
                }
            }
        });
    }

    /// Records the same one frame further, and stands there.
    fn same_again(self) {
        let Some((reading, note)) = self.reading.get_untracked() else { return };
        // When it goes on by itself, the next frame is where one stands already.
        if !self.goes_on.get_untracked() {
            self.spot.update(|spot| spot.step_frames(1, self.reach.get_untracked()));
        }
        self.record(reading, note);
    }
}

/// Returns where the address says one stands, else where one last recorded.
fn first_spot(book: Book) -> Spot {
    let mut spot = book.state.with_untracked(Spot::last).unwrap_or_default();
    use_query_map().with_untracked(|query| {
        if let Some(member) = query.get("member") {
            spot = Spot::default();
            spot.choose(&member);
        }
        let number = |key: &str| query.get(key).and_then(|text| text.parse::<u32>().ok());
        let side = query.get("side").and_then(|side| serde_json::from_value(side.into()).ok());
        let place = &mut spot.place;
        place.side = side.or(place.side);
        place.strake = number("strake").or(place.strake);
        place.frame_from = number("frame_from").or(place.frame_from);
    });
    // The address led here once; opened again, one stands where one last recorded.
    if let (Ok(history), Ok(path)) = (window().history(), window().location().pathname()) {
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&path));
    }
    spot
}

/// The page.
#[component]
pub fn FrameByFrame() -> impl IntoView {
    let (book, bench) = (Book::here(), Workbench::here());
    let latest = book.state.with_untracked(|state| state.observations().last().map(|o| o.id()));
    let along = Along {
        book,
        bench,
        spot: RwSignal::new(first_spot(book)),
        reach: book.later(Reach::of),
        method: RwSignal::new(Method::Sound),
        goes_on: RwSignal::new(false),
        last: RwSignal::new(latest),
        reading: RwSignal::new(None),
        refused: RwSignal::new(None),
    };
    // On a device that has nothing yet the record comes a moment later; whoever has chosen a place already stays there.
    let latest = book.later(|state| (Spot::last(state), state.observations().last().map(|o| o.id())));
    Effect::new(move |_| {
        let (there, id) = latest.get();
        if let (Some(there), true) = (there, along.spot.with_untracked(|spot| *spot == Spot::default())) {
            along.spot.set(there);
            along.last.set(id);
        }
    });
    view! {
        <section class="panel along" aria-label="Frame by frame">
            // What is read stands above, what is tapped below, where the thumb is.
            <LastRecorded along/>
            <SpotView along/>
            <Answers along/>
            {move || along.refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
            <SameAgain along/>
        </section>
    }
}

#[component]
fn SameAgain(along: Along) -> impl IntoView {
    let words = Memo::new(move |_| {
        along.reading.with(Option::is_some).then(|| {
            let mut spot = along.spot.get();
            if !along.goes_on.get() {
                spot.step_frames(1, along.reach.get());
            }
            let at = spot.place.frame_from.map_or_else(|| "here".to_owned(), |frame| format!("at frame {frame}"));
            format!("Same again {at}")
        })
    });
    view! {
        <div class="along-next">
            {move || words.get().map(|words| view! { <button type="button" class="main" on:click=move |_| along.same_again()>{words}</button> })}
            <label class="several-one"><input type="checkbox" prop:checked=move || along.goes_on.get() on:change=move |e| along.goes_on.set(event_target_checked(&e))/><span>"one frame on after each"</span></label>
        </div>
    }
}

/// How it was tried, and what it gave.
#[component]
fn Answers(along: Along) -> impl IntoView {
    let figure = RwSignal::new(None::<Figure>);
    let ways =
        [Method::Sound, Method::Probe, Method::Sight, Method::Moisture, Method::Measure, Method::Bore, Method::Draw];
    let all = Memo::new(move |_| {
        let method = along.method.get();
        along.book.state.with_untracked(|state| at_once(method, state))
    });
    let more = RwSignal::new(false);
    // A screen's worth; the rest on asking.
    let shown = move || {
        let all = all.get();
        let most = if more.get() { all.len() } else { 6 };
        (all.len() > most, all.into_iter().take(most).collect::<Vec<_>>())
    };
    let choose = move |method: Method| {
        along.method.set(method);
        more.set(false);
        // Where there is only a figure to give, the keys are there at once.
        figure.set(match Figure::of(method).as_slice() {
            [only] if at_once(method, &along.book.state.read_untracked()).is_empty() => Some(*only),
            _ => None,
        });
    };
    view! {
        <div class="ways" role="group" aria-label="How it was tried">
            {ways.into_iter().map(|method| view! {
                <button type="button" class="way" aria-pressed=move || (along.method.get() == method).to_string() on:click=move |_| choose(method)>{method.to_string()}</button>
            }).collect_view()}
        </div>
        <div class="answers" role="group" aria-label="What it gave: one tap records it">
            // The keys need the room while a figure is keyed in.
            {move || figure.get().is_none().then(|| {
                let (there_is_more, shown) = shown();
                let taps = shown.into_iter().map(|AtOnce { words, reading, note }| view! {
                    <button type="button" class="answer-tap" on:click=move |_| along.record(reading.clone(), note)>{words}</button>
                }).collect_view();
                let figures = Figure::of(along.method.get()).into_iter().map(|one| view! {
                    <button type="button" class="answer-tap figure" on:click=move |_| figure.set(Some(one))>{format!("{} …", one.words())}</button>
                }).collect_view();
                view! { {taps}{figures}
                    {there_is_more.then(|| view! { <button type="button" class="quiet" on:click=move |_| more.set(true)>"more signs"</button> })} }
            })}
        </div>
        {move || figure.get().map(|one| view! {
            <Keypad figure=one units=along.bench.units record=move |reading| { figure.set(None); along.record(reading, "") } leave=move || figure.set(None)/>
        })}
    }
}
