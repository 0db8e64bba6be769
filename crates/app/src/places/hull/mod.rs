//! Hull: the boat as a drawing on which everything is placed: sheets, what they show, and a list beside them for the
//! keyboard and for those who cannot see the drawing.

mod board;
mod here;
mod shown;
mod space;

use crate::book::Book;
use board::Board;
use here::Here;
use leptos::prelude::*;
use plans::SheetName;
use shown::{Shown, Sieve};
use space::Space;
use survey::{EntryId, Place};

/// What was pointed at on the drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pointed {
    /// The entry whose mark or region it is.
    pub entry: Option<EntryId>,
    /// The place on the shell.
    pub place: Option<Place>,
    /// The member.
    pub member: Option<String>,
}

/// The place.
#[component]
pub fn Hull() -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let chosen = RwSignal::new(None::<String>);
    // Gathered anew only when what the drawings show has changed, and one sheet at a time is drawn.
    let gathered = Memo::new(move |_| {
        let sheets = book.state.with(|state| plans::Sheets::of(state, page()));
        Gathered(StoredValue::new(sheets), book.state.with(survey::State::len))
    });
    let names = Memo::new(move |_| {
        gathered.get().0.with_value(|sheets| sheets.as_ref().map(plans::Sheets::names).unwrap_or_default())
    });
    let current = Memo::new(move |_| {
        let chosen = chosen.get();
        names.with(|names| {
            names
                .iter()
                .find(|name| Some(name.to_string()) == chosen)
                .or_else(|| names.first())
                .map(ToString::to_string)
        })
    });
    let plan = Memo::new(move |_| {
        let wanted = current.get();
        let gathered = gathered.get();
        let name = names.with(|names| names.iter().find(|name| Some(name.to_string()) == wanted).cloned());
        let drawn = name.and_then(|name| gathered.0.with_value(|sheets| sheets.as_ref()?.draw(&name)));
        Drawn { plan: StoredValue::new(drawn), name: wanted, entries: gathered.1 }
    });
    let in_space = RwSignal::new(false);
    let pointed = RwSignal::new(Pointed::default());
    let sieve = RwSignal::new(Sieve::default());
    view! {
        <Show when=move || !names.with(Vec::is_empty) fallback=move || view! {
            <section class="teach"><h2>"She cannot be drawn yet"</h2>
            <p>"Her length, and the count of strakes and frames, are enough for a diagram on which every place can be found. Enter them in the "
            <a href=format!("/survey/{survey}/brief")>"Brief"</a>", under the boat and her shape. A table of offsets gives her true shape."</p></section>
        }>
            <nav class="shelves sheets" aria-label="Sheets">
                {move || names.get().into_iter().map(|name| {
                    let word = name.to_string();
                    let (own, to) = (word.clone(), word.clone());
                    view! { <button type="button" class="sheet-tab" aria-pressed=move || (!in_space.get() && current.get().as_deref() == Some(own.as_str())).to_string()
                        on:click=move |_| { in_space.set(false); chosen.set(Some(to.clone())); pointed.set(Pointed::default()) }>{in_words(&name)}</button> }
                }).collect_view()}
                <button type="button" class="sheet-tab" aria-pressed=move || in_space.get().to_string() on:click=move |_| in_space.set(true)>"In space"</button>
            </nav>
            <div class="hull">
                <div class="hull-drawing">
                    {move || in_space.get().then(|| view! { <Space pointed/> })}
                    {move || {
                        if in_space.get() {
                            return None;
                        }
                        let plan = plan.get().plan.get_value()?;
                        Some(view! { <Board plan pointed sieve/> })
                    }}
                </div>
                <aside class="hull-beside">
                    <Here pointed/>
                    <Shown plan pointed sieve/>
                </aside>
            </div>
        </Show>
    }
}

/// Returns the paper that suits the width of the window.
fn page() -> hull::sheets::Page {
    const PHONE_PX: f64 = 700.0;
    let width = window().inner_width().ok().and_then(|width| width.as_f64()).unwrap_or(f64::INFINITY);
    if width < PHONE_PX { hull::sheets::Page::PHONE } else { hull::sheets::Page::REPORT }
}

/// What the sheets show of a state of so many entries.
#[derive(Clone, Copy)]
struct Gathered(StoredValue<Option<plans::Sheets>>, usize);

impl PartialEq for Gathered {
    fn eq(&self, other: &Self) -> bool {
        self.1 == other.1
    }
}

/// The sheet chosen, as drawn from a state of so many entries.
#[derive(Clone)]
pub struct Drawn {
    plan: StoredValue<Option<plans::Plan>>,
    name: Option<String>,
    entries: usize,
}

impl PartialEq for Drawn {
    fn eq(&self, other: &Self) -> bool {
        (self.entries, &self.name) == (other.entries, &other.name)
    }
}

/// Returns what a sheet is called on its tab.
fn in_words(name: &SheetName) -> String {
    match name {
        SheetName::ShellPort => "Port shell".to_owned(),
        SheetName::ShellStarboard => "Starboard shell".to_owned(),
        SheetName::ShellBoth => "Both sides".to_owned(),
        SheetName::Transom => "Transom".to_owned(),
        SheetName::Backbone => "Backbone".to_owned(),
        SheetName::Framing => "Framing".to_owned(),
        SheetName::Deck => "Deck".to_owned(),
        SheetName::Field { quantity, side } => {
            let quantity = quantity.replace('-', " ");
            let mut letters = quantity.chars();
            let quantity: String =
                letters.next().map(|c| c.to_uppercase().chain(letters).collect()).unwrap_or_default();
            format!("{quantity}, {}", side.word())
        }
    }
}
