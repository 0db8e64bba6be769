//! One page with every part of the look, for whoever builds the next place.

use crate::look::{ConditionMark, CoverMark, DrawingView, Plain};
use drawing::{Hatch, Pen, Shape, Sheet};
use leptos::prelude::*;
use survey::Cover;
use survey::payload::Condition;

/// The page.
#[component]
pub fn LookPage() -> impl IntoView {
    let mut sheet = Sheet::new(120.0, 34.0, "Hatchings", "Four rectangles: bare, sparse hatch, close hatch, solid.");
    for (x, hatch) in [(4.0, Hatch::Bare), (34.0, Hatch::Sparse), (64.0, Hatch::Close), (94.0, Hatch::Solid)] {
        sheet.add(Shape::rectangle(x, 6.0, 22.0, 22.0).pen(Pen::THIN).hatch(hatch));
    }
    document().set_title("The look – Ribband");
    view! {
        <header class="head"><a class="home" href="/" aria-label="All surveys"><img src="/icon.svg" alt="" width="28" height="28"/></a><p class="boat">"The look"</p></header>
        <main class="start" id="place">
            <h1>"The look"</h1>
            <p class="lead">"Like a good drawing on film: ink, thin lines, generous margins, one accent. Everything on this page is all there is; a new place is made of it."</p>
            <section><h2>"Letters"</h2><p>"Running text, 17 px on 26. "<strong>"Strong where it must be found."</strong>" "<span class="hush">"Quiet where it only helps."</span></p>
                <p>"Figures are of one width: 1 234.5 mm, 5/8\", 3'-4 1/2\"."</p></section>
            <section><h2>"Ink"</h2><div class="inks">{["ink", "faint-letters", "faint", "accent", "paper", "sunk"].into_iter().map(|ink| view! { <span class=format!("ink-box {ink}")><span aria-hidden="true"></span>{ink}</span> }).collect_view()}</div></section>
            <section><h2>"Condition"</h2><p>"Hatching and a word, never colour alone."</p>
                <p class="marks">{Condition::ALL.iter().map(|condition| view! { <ConditionMark condition=*condition/> }).collect_view()}</p>
                <p class="marks">{[Cover::Owed, Cover::Seen, Cover::PartlySeen, Cover::NotSeen, Cover::HearsayOnly].into_iter().map(|cover| view! { <CoverMark cover/> }).collect_view()}</p>
                <DrawingView sheet caption="A drawing takes the page’s inks."/></section>
            <section><h2>"Acts"</h2><div class="acts"><button type="button" class="main">"The main act"</button><button type="button">"Another"</button><button type="button" class="quiet">"A quiet one"</button><button type="button" disabled=true>"Not now"</button></div></section>
            <section><h2>"Asking"</h2><form class="fields" on:submit=|event: web_sys::SubmitEvent| event.prevent_default()>
                <div class="field"><label for="look-line">"A line"</label><input id="look-line" type="text" value="12.4 m"/><span class="about">"What helps. "<span class="understood">"understood as 12.4 m"</span></span></div>
                <div class="field"><label for="look-wrong">"A line with a fault"</label><input id="look-wrong" type="text" aria-invalid="true" value="a bit"/><span class="about"><span class="fault">"“a bit” is not a length; write it like 32 mm."</span></span></div>
                <fieldset class="field"><legend>"A few choices"</legend><div class="choices"><label class="choice chosen"><input type="radio" name="look-choice" checked=true/><span>"rings"</span></label><label class="choice"><input type="radio" name="look-choice"/><span>"dull or hollow"</span></label></div></fieldset>
            </form></section>
            <section><h2>"Telling"</h2><p class="teach">"An empty place teaches what belongs there."</p><Plain words="A fault says what happened, to which thing, and what to do next."/>
                <ul class="cautions"><li>"A caution has a mark at its margin."</li></ul><div class="progress" role="img" aria-label="Waiting shows that something moves"></div></section>
        </main>
    }
}
