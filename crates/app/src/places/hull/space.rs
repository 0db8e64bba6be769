//! Her planking in space, to be turned by hand. The drawings beside it show the same and more, and can be read and printed.

use super::Pointed;
use crate::book::Book;
use js_sys::{Float32Array, Function, Object, Promise, Reflect};
use leptos::html;
use leptos::prelude::*;
use send_wrapper::SendWrapper;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlCanvasElement;

/// What keeps the view alive; dropped with the page.
struct Kept {
    _pick: Closure<dyn FnMut(f64)>,
    end: Option<Function>,
}

/// The view.
#[component]
pub fn Space(pointed: RwSignal<Pointed>) -> impl IntoView {
    let book = Book::here();
    let canvas: NodeRef<html::Canvas> = NodeRef::new();
    let refused = RwSignal::new(None::<String>);
    let kept = StoredValue::new_local(None::<SendWrapper<Kept>>);
    let solid = book.later(plans::solid);
    let described = move || solid.with(|solid| solid.as_ref().map(|solid| solid.description.clone()));
    let stop = move || {
        let before = kept.try_update_value(Option::take).flatten();
        if let Some(end) = before.as_ref().and_then(|kept| kept.end.as_ref()) {
            let _ = end.call0(&JsValue::NULL);
        }
    };
    Effect::new(move |_| {
        let Some(solid) = solid.get() else { return };
        let Some(canvas) = canvas.get() else { return };
        stop();
        leptos::task::spawn_local(async move {
            match open(&canvas, &solid, pointed).await {
                Ok(opened) => {
                    kept.try_set_value(Some(SendWrapper::new(opened)));
                }
                Err(_) => {
                    refused.try_set(Some("This browser shows nothing in space; the sheets show the same.".to_owned()));
                }
            }
        });
    });
    on_cleanup(stop);
    view! {
        <Show when=move || solid.with(Option::is_some) fallback=|| view! {
            <p class="teach">"Her shape is not known, only her counts: there is nothing to turn. A table of offsets, or her beam, draft, freeboards and a few girths, give her one."</p>
        }>
            <canvas class="space" node_ref=canvas tabindex="0" role="img" aria-label=described></canvas>
            <p class="hush">"Drag to turn her, pinch or wheel to come nearer, tap a mark to see its entry; the arrows and plus and minus do the same. The sheets show all of it too."</p>
            {move || refused.get().map(|why| view! { <p class="fault" role="alert">{why}</p> })}
        </Show>
    }
}

async fn open(canvas: &HtmlCanvasElement, solid: &plans::Solid, pointed: RwSignal<Pointed>) -> Result<Kept, JsValue> {
    let (against, others): (Vec<_>, Vec<_>) = solid.marks.iter().partition(|mark| mark.against);
    let at = |marks: &[&plans::SolidMark]| marks.iter().flat_map(|mark| mark.at_m).collect::<Vec<f32>>();
    let parts = Object::new();
    let put = |name: &str, numbers: &[f32]| Reflect::set(&parts, &name.into(), &Float32Array::from(numbers));
    put("triangles", &solid.triangles_m)?;
    put("outward", &solid.outward)?;
    put("seams", &solid.seams_m)?;
    put("frames", &solid.frames_m)?;
    put("against", &at(&against))?;
    put("others", &at(&others))?;
    Reflect::set(&parts, &"reach".into(), &f64::from(solid.reach_m).into())?;
    let entries: Vec<_> = against.iter().chain(&others).map(|mark| mark.entry.parse().ok()).collect();
    let pick = Closure::<dyn FnMut(f64)>::new(move |number: f64| {
        // Minus one is no mark.
        let entry = (number >= 0.0).then(|| entries.get(number as usize).copied().flatten()).flatten();
        pointed.set(Pointed { entry, ..Pointed::default() });
    });
    let show: Function = Reflect::get(&js_sys::global(), &"openSolid".into())?.dyn_into()?;
    let opened: Promise = show.call3(&JsValue::NULL, canvas, &parts, pick.as_ref())?.dyn_into()?;
    let end = JsFuture::from(opened).await?;
    if end.is_null() {
        return Err(JsValue::NULL);
    }
    Ok(Kept { _pick: pick, end: end.dyn_into().ok() })
}
