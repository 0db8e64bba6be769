//! The drawing board: one sheet, moved and enlarged by hand, wheel, fingers or keys, and pointed at.

use super::{Pointed, Sieve};
use crate::book::Book;
use leptos::html;
use leptos::prelude::*;
use std::collections::BTreeMap;
use survey::payload::Payload;
use survey::{EntryId, Method};
use wasm_bindgen::JsCast as _;
use web_sys::{Element, PointerEvent};

/// Greatest enlargement.
const GREATEST: f64 = 12.0;

/// How far a finger may stray and still have tapped, in pixels.
const TAP: f64 = 8.0;

/// How the sheet lies: enlargement, and how far it is moved, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Lie {
    by: f64,
    x: f64,
    y: f64,
}

impl Lie {
    const WHOLE: Lie = Lie { by: 1.0, x: 0.0, y: 0.0 };

    /// Enlarges about a point of the board.
    fn enlarged(self, by: f64, (x, y): (f64, f64), size: (f64, f64)) -> Lie {
        let new = (self.by * by).clamp(1.0, GREATEST);
        let by = new / self.by;
        Lie { by: new, x: x - (x - self.x) * by, y: y - (y - self.y) * by }.held(size)
    }

    fn moved(self, dx: f64, dy: f64, size: (f64, f64)) -> Lie {
        Lie { x: self.x + dx, y: self.y + dy, ..self }.held(size)
    }

    /// Keeps the sheet on the board.
    fn held(self, (w, h): (f64, f64)) -> Lie {
        let (spare_x, spare_y) = (w * (1.0 - self.by), h * (1.0 - self.by));
        Lie { x: self.x.clamp(spare_x, 0.0), y: self.y.clamp(spare_y, 0.0), ..self }
    }
}

/// Shows a plan.
#[component]
pub fn Board(plan: plans::Plan, pointed: RwSignal<Pointed>, sieve: RwSignal<Sieve>) -> impl IntoView {
    let book = Book::here();
    let board: NodeRef<html::Div> = NodeRef::new();
    let lie = RwSignal::new(Lie::WHOLE);
    let fingers = StoredValue::new(BTreeMap::<i32, (f64, f64)>::new());
    let strayed = StoredValue::new(0.0_f64);
    let svg = plan.sheet.to_svg();
    let (width_mm, height_mm) = (plan.sheet.width_mm, plan.sheet.height_mm);
    let caption = plan.caption.clone();
    let plan = StoredValue::new(plan);
    let size = move || {
        board.get_untracked().map_or((1.0, 1.0), |b| (f64::from(b.client_width()), f64::from(b.client_height())))
    };
    let on_board = move |x: i32, y: i32| {
        let rect = board.get_untracked().map(|b| b.get_bounding_client_rect());
        rect.map_or((0.0, 0.0), |rect| (f64::from(x) - rect.left(), f64::from(y) - rect.top()))
    };
    let enlarge = move |by: f64| {
        let (w, h) = size();
        lie.update(|lie| *lie = lie.enlarged(by, (w / 2.0, h / 2.0), (w, h)));
    };
    let down = move |event: PointerEvent| {
        fingers.update_value(|f| {
            f.insert(event.pointer_id(), (f64::from(event.client_x()), f64::from(event.client_y())));
        });
        if fingers.with_value(BTreeMap::len) == 1 {
            strayed.set_value(0.0);
        }
    };
    let moved = move |event: PointerEvent| {
        let now = (f64::from(event.client_x()), f64::from(event.client_y()));
        let before = fingers.with_value(|f| f.clone());
        let Some(was) = before.get(&event.pointer_id()).copied() else { return };
        let (dx, dy) = (now.0 - was.0, now.1 - was.1);
        strayed.update_value(|s| *s += dx.hypot(dy));
        if strayed.get_value() > TAP {
            // Only once it is no tap any more: a captured pointer's click would land on the board and not on a mark.
            if let Some(board) = board.get_untracked() {
                let _ = board.set_pointer_capture(event.pointer_id());
            }
        }
        let other = before.iter().find(|(id, _)| **id != event.pointer_id()).map(|(_, at)| *at);
        match other {
            Some(other) => {
                let apart = |a: (f64, f64)| (a.0 - other.0).hypot(a.1 - other.1).max(1.0);
                #[expect(clippy::cast_possible_truncation, reason = "pixels on a screen")]
                let middle = on_board(((now.0 + other.0) / 2.0) as i32, ((now.1 + other.1) / 2.0) as i32);
                lie.update(|lie| {
                    *lie = lie.enlarged(apart(now) / apart(was), middle, size()).moved(dx / 2.0, dy / 2.0, size())
                });
            }
            None => lie.update(|lie| *lie = lie.moved(dx, dy, size())),
        }
        fingers.update_value(|f| {
            f.insert(event.pointer_id(), now);
        });
    };
    let up = move |event: PointerEvent| {
        fingers.update_value(|f| {
            f.remove(&event.pointer_id());
        });
    };
    let wheel = move |event: web_sys::WheelEvent| {
        if !(event.ctrl_key() || lie.get_untracked().by > 1.0) {
            return;
        }
        event.prevent_default();
        let at = on_board(event.client_x(), event.client_y());
        lie.update(|lie| *lie = lie.enlarged((-event.delta_y() * 0.002).exp(), at, size()));
    };
    let keys = move |event: web_sys::KeyboardEvent| {
        let step = 60.0;
        match event.key().as_str() {
            "+" | "=" => enlarge(1.4),
            "-" => enlarge(1.0 / 1.4),
            "0" => lie.set(Lie::WHOLE),
            "ArrowLeft" => lie.update(|lie| *lie = lie.moved(step, 0.0, size())),
            "ArrowRight" => lie.update(|lie| *lie = lie.moved(-step, 0.0, size())),
            "ArrowUp" => lie.update(|lie| *lie = lie.moved(0.0, step, size())),
            "ArrowDown" => lie.update(|lie| *lie = lie.moved(0.0, -step, size())),
            _ => return,
        }
        event.prevent_default();
    };
    let tapped = move |event: web_sys::MouseEvent| {
        if strayed.get_value() > TAP {
            return;
        }
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let (x, y) = on_board(event.client_x(), event.client_y());
        let (w, _) = size();
        let lie = lie.get_untracked();
        let mm = width_mm / w.max(1.0);
        let paper = ((x - lie.x) / lie.by * mm, (y - lie.y) / lie.by * mm);
        pointed.set(point_at(target, plan.with_value(|plan| plans::place_at(plan, paper.0, paper.1))));
    };
    // What the sieve holds back is hidden in the page, so that the sheet need not be drawn anew.
    Effect::new(move |_| {
        let sieve = sieve.get();
        let Some(board) = board.get() else { return };
        let Ok(marked) = board.query_selector_all("[data-entry]") else { return };
        for n in 0..marked.length() {
            let Some(element) = marked.item(n).and_then(|node| node.dyn_into::<Element>().ok()) else { continue };
            let entry = element.get_attribute("data-entry").and_then(|id| id.parse::<EntryId>().ok());
            let held = entry.is_some_and(|id| book.state.with_untracked(|state| !sieve.lets_through(state, id)));
            let _ = element.class_list().toggle_with_force("held-back", held);
        }
    });
    // What is pointed at is ringed.
    Effect::new(move |_| {
        let entry = pointed.with(|p| p.entry);
        let Some(board) = board.get() else { return };
        let Ok(marked) = board.query_selector_all("[data-entry]") else { return };
        for n in 0..marked.length() {
            let Some(element) = marked.item(n).and_then(|node| node.dyn_into::<Element>().ok()) else { continue };
            let own = element.get_attribute("data-entry").and_then(|id| id.parse::<EntryId>().ok());
            let _ = element.class_list().toggle_with_force("pointed-at", entry.is_some() && own == entry);
        }
    });
    view! {
        <div class="board-tools" role="group" aria-label="The sheet">
            <button type="button" on:click=move |_| enlarge(1.4) aria-label="Enlarge">"+"</button>
            <button type="button" on:click=move |_| enlarge(1.0 / 1.4) aria-label="Reduce">"−"</button>
            <button type="button" on:click=move |_| lie.set(Lie::WHOLE)>"Whole sheet"</button>
        </div>
        <div class="drawing-board" node_ref=board tabindex="0" role="application" aria-roledescription="drawing"
            aria-label="The sheet. Plus and minus enlarge and reduce it, the arrows move it. What it shows is in the list beside it."
            style:aspect-ratio=format!("{width_mm} / {height_mm}")
            class:moving=move || lie.get() != Lie::WHOLE
            on:pointerdown=down on:pointermove=moved on:pointerup=up on:pointercancel=up on:wheel=wheel on:keydown=keys on:click=tapped>
            <div class="sheet" style:transform=move || { let lie = lie.get(); format!("translate({}px, {}px) scale({})", lie.x, lie.y, lie.by) } inner_html=svg></div>
        </div>
        <p class="hush">{caption}</p>
    }
}

/// Returns what a point of the sheet is, from the nearest element that says so, else from the shell itself.
fn point_at(target: Option<Element>, shell: Option<survey::Place>) -> Pointed {
    let mut pointed = Pointed { place: shell, ..Pointed::default() };
    let of = |element: &Element, name: &str| element.get_attribute(name);
    let mut element = target;
    while let Some(own) = element {
        if pointed.entry.is_none() {
            pointed.entry = of(&own, "data-entry").and_then(|id| id.parse().ok());
        }
        if pointed.member.is_none() {
            pointed.member = of(&own, "data-member");
        }
        if own.tag_name().eq_ignore_ascii_case("svg") {
            break;
        }
        element = own.parent_element();
    }
    pointed
}

/// Returns the method of an entry, when it is an observation.
pub fn method_of(payload: &Payload) -> Option<Method> {
    match payload {
        Payload::Observation(o) => Some(o.reading.method()),
        _ => None,
    }
}
