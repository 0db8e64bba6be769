//! Fastenings to draw: the plan kept beforehand, laid out on the planks and on the drawing, the next one to draw, and what
//! the draw says so far.

mod by_plank;
mod next;
mod says;

use crate::book::Book;
use crate::look::DrawingView;
use by_plank::ByPlank;
use leptos::prelude::*;
use next::NextDraw;
use says::Says;
use survey::{DrawPlan, EntryId, Verdict};

/// The shelf.
#[component]
pub fn Draws() -> impl IntoView {
    let book = Book::here();
    let survey = book.survey;
    let plans = Memo::new(move |_| book.state.with(survey::draw_plans));
    let ids = Memo::new(move |_| plans.with(|all| all.iter().rev().map(|plan| plan.id).collect::<Vec<_>>()));
    view! {
        <section class="draws">
            <p class="lead">"Which fastenings to draw is settled before the boat is looked at: so many, by lot, from each zone. Then the draw can speak for those left in."</p>
            <p class="acts"><a class="button" href=format!("/survey/{survey}/bench/draw-plan")>"Plan a draw"</a></p>
            <Show when=move || ids.with(Vec::is_empty)>
                <p class="teach">"No draw is planned yet. Plan one and keep it in the survey: its picks are then laid out here, plank by plank, with the next one to draw at the top."</p>
            </Show>
            <For each=move || ids.get() key=|id| *id children=move |id| {
                let plan = Memo::new(move |_| plans.with(|all| all.iter().find(|plan| plan.id == id).cloned()));
                view! { <OnePlan id plan/> }
            }/>
        </section>
    }
}

#[component]
fn OnePlan(id: EntryId, plan: Memo<Option<DrawPlan>>) -> impl IntoView {
    let book = Book::here();
    // A pick out of turn, chosen from the list; none for the next in order.
    let chosen = RwSignal::new(None::<(Option<String>, u64)>);
    let standing = move || plan.with(|plan| plan.as_ref().map(standing).unwrap_or_default());
    let stop = move || plan.with(|plan| plan.as_ref().and_then(|plan| stop(plan)));
    let sheets = book.later(move |state| {
        // The plan is read again here: the drawing follows the record, a moment later.
        let plans = survey::draw_plans(state);
        let plan = plans.iter().find(|plan| plan.id == id)?;
        let page = hull::sheets::Page::REPORT;
        Some(plans::picks(state, plan, page).into_iter().map(|p| (p.caption, p.sheet)).collect::<Vec<_>>())
    });
    view! {
        <article class="panel draw-plan">
            <h2>{format!("Draw plan {}", id.short())}</h2>
            <p>{standing}</p>
            <p class="draw-verdict" role="status">{stop}</p>
            <NextDraw plan chosen/>
            <h3>"Plank by plank"</h3>
            <ByPlank plan chosen/>
            {move || sheets.get().unwrap_or_default().into_iter().map(|(caption, sheet)| view! { <DrawingView sheet caption/> }).collect_view()}
            <Says plan/>
        </article>
    }
}

fn standing(plan: &DrawPlan) -> String {
    let (drawn, bad) = plan.counted();
    let seed = plan.seed.map(|seed| format!(" Seed {seed}.")).unwrap_or_default();
    format!(
        "{} of {} fastenings are to be drawn; {drawn} drawn so far, {bad} of them bad.{seed}",
        plan.to_draw(),
        plan.population
    )
}

/// Says when the drawing may stop; nothing while there is no plan for stopping and some are left.
fn stop(plan: &DrawPlan) -> Option<&'static str> {
    match plan.verdict() {
        Verdict::Acceptable => Some("Stop: acceptable by the test settled beforehand."),
        Verdict::NotAcceptable => Some("Stop: not acceptable by the test settled beforehand."),
        Verdict::AllDrawn => Some("All that were planned are drawn."),
        Verdict::DrawAnother => plan.may_stop_early().then_some("Draw another: the stopping test has not decided."),
    }
}
