//! What a draw says so far: the reckoner of draws over the counts of the plan, to be kept when it is done.

use super::super::keeping::reckoning_of;
use super::super::reckoner::answered;
use crate::book::{Book, Workbench};
use leptos::prelude::*;
use reckon::Reckoned;
use serde_json::{Map, Value, json};
use survey::DrawPlan;

/// Returns what the draw says; nothing while none is drawn.
fn said(plan: &DrawPlan) -> Option<Result<Reckoned, String>> {
    let (drawn, bad) = plan.counted();
    if drawn == 0 {
        return None;
    }
    let mut asked = Map::new();
    asked.insert("confidence_percent".to_owned(), plan.confidence_percent.into());
    let named = plan.zones.iter().all(|zone| zone.zone.is_some());
    if named && plan.zones.len() > 1 {
        let mut table = "zone,population,drawn,bad\n".to_owned();
        for zone in &plan.zones {
            let (drawn, bad) = zone.counted();
            let name = zone.zone.as_deref().unwrap_or_default();
            table.push_str(&format!("{name},{},{drawn},{bad}\n", zone.population));
        }
        asked.insert("zones".to_owned(), table.into());
    } else {
        asked.extend([
            ("population".to_owned(), Value::from(plan.population)),
            ("drawn".to_owned(), json!(drawn)),
            ("bad".to_owned(), json!(bad)),
        ]);
    }
    let topic = reckon::find("draw-result")?;
    let inputs = reckon::Inputs::from_json(topic, &asked).map_err(|why| why.to_string());
    Some(inputs.and_then(|inputs| topic.reckon(inputs).map_err(|why| why.to_string())))
}

/// What the draw says, and keeping it.
#[component]
pub fn Says(plan: Memo<Option<DrawPlan>>) -> impl IntoView {
    let book = Book::here();
    let bench = Workbench::here();
    let note = RwSignal::new(String::new());
    let keep = move |_| {
        let Some(plan) = plan.get_untracked() else { return };
        let Some(Ok(reckoned)) = said(&plan) else { return };
        let of_plan = format!("By draw plan {}. {}", plan.id.short(), note.get_untracked().trim());
        let reckoning = reckoning_of(&reckoned, plan.member.as_deref().unwrap_or_default(), &of_plan);
        leptos::task::spawn_local(async move {
            if let Err(why) =
                book.write(vec![reckoning.into()], "Kept in the survey; it will stand in the report.").await
            {
                bench.complain(why);
            }
        });
    };
    view! {
        {move || plan.with(|plan| plan.as_ref().and_then(said)).map(|said| match said {
            Ok(reckoned) => view! {
                <h3>"What the draw says"</h3>
                <div class="answer">{answered(&reckoned)}</div>
                <div class="keep-it">
                    <div class="field"><label for="draw-note">"What was counted as bad"</label>
                        <input id="draw-note" type="text" autocomplete="off" prop:value=move || note.get() on:input=move |e| note.set(event_target_value(&e))/></div>
                    <button type="button" class="main" on:click=keep>"Keep in the survey"</button>
                </div>
            }.into_any(),
            Err(why) => view! { <p class="fault">{why}</p> }.into_any(),
        })}
    }
}
