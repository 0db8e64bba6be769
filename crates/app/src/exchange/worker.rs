//! The service worker: it keeps the page itself, so that it opens with no network.

use crate::keep::said;
use js_sys::Promise;
use std::rc::Rc;
use wasm_bindgen::{JsCast as _, JsValue, prelude::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::{ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState};

/// Where the worker is. It lies at the root, because it answers for all addresses.
const WORKER: &str = "/service-worker.js";

/// Whether this page opens with no network.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkerState {
    /// It does.
    Ready,
    /// It does not: the browser allows it only over HTTPS or on this machine itself. Notes are kept all the same as
    /// long as the page stays open, and are there when it is opened again in reach of the server.
    NotSecure,
    /// It does not: the browser cannot, or not in a private window.
    Unsupported,
    /// It does not: something went wrong, which is said.
    Failed(String),
}

/// Registers the worker and waits until the page is kept.
pub async fn register() -> WorkerState {
    let Some(container) = container() else {
        let secure = web_sys::window().is_some_and(|window| window.is_secure_context());
        return if secure { WorkerState::Unsupported } else { WorkerState::NotSecure };
    };
    match JsFuture::from(container.register(WORKER)).await {
        Err(fault) => WorkerState::Failed(said(&fault)),
        Ok(registration) => kept(&registration.unchecked_into()).await,
    }
}

/// Waits until a worker of the registration is at work, or has failed to begin.
async fn kept(registration: &ServiceWorkerRegistration) -> WorkerState {
    if registration.active().is_some() {
        return WorkerState::Ready;
    }
    match registration.installing().or_else(|| registration.waiting()) {
        None => WorkerState::Failed("the browser began nothing".to_owned()),
        Some(worker) => match settles(&worker, ServiceWorkerState::Activated).await {
            true => WorkerState::Ready,
            false => WorkerState::Failed("the page's files could not all be fetched".to_owned()),
        },
    }
}

/// Waits until a worker has reached a state, or is given up.
async fn settles(worker: &ServiceWorker, wanted: ServiceWorkerState) -> bool {
    let reached = move |worker: &ServiceWorker| match worker.state() {
        state if state == wanted => Some(true),
        ServiceWorkerState::Redundant => Some(false),
        _ => None,
    };
    let settled = Promise::new(&mut |settle, _| {
        let (watched, settle) = (worker.clone(), settle.clone());
        let look = Closure::<dyn FnMut()>::new(move || {
            if let Some(reached) = reached(&watched) {
                let _ = settle.call1(&JsValue::UNDEFINED, &reached.into());
            }
        });
        worker.set_onstatechange(Some(look.as_ref().unchecked_ref()));
        // Once in the life of a page, or of a new version.
        look.forget();
    });
    match reached(worker) {
        Some(reached) => reached,
        None => JsFuture::from(settled).await.is_ok_and(|reached| reached.is_truthy()),
    }
}

/// Calls `tell` when a new version of the page is kept and waits to be taken up; see [`take_new_version`]. Holds as
/// long as the page is open.
pub async fn on_new_version(tell: impl Fn() + 'static) {
    let Some(container) = container() else { return };
    // At a first visit the worker is only being registered; a version newer than it can come while the page is open.
    let Ok(ready) = container.ready() else { return };
    let Ok(registration) = JsFuture::from(ready).await else { return };
    let Ok(registration) = registration.dyn_into::<ServiceWorkerRegistration>() else { return };
    let tell = Rc::new(tell);
    if registration.waiting().is_some() && container.controller().is_some() {
        tell();
    }
    let found = registration.clone();
    let look = Closure::<dyn FnMut()>::new(move || {
        let (tell, container) = (Rc::clone(&tell), container.clone());
        let Some(worker) = found.installing() else { return };
        wasm_bindgen_futures::spawn_local(async move {
            // The first version of all is no new one.
            if settles(&worker, ServiceWorkerState::Installed).await && container.controller().is_some() {
                tell();
            }
        });
    });
    registration.set_onupdatefound(Some(look.as_ref().unchecked_ref()));
    look.forget();
}

/// Takes up the new version that waits: all windows of this browser open it. Call it when nothing is being written.
pub async fn take_new_version() {
    let Some(container) = container() else { return };
    let Ok(registration) = JsFuture::from(container.get_registration()).await else { return };
    let Ok(registration) = registration.dyn_into::<ServiceWorkerRegistration>() else { return };
    let Some(waiting) = registration.waiting() else { return };
    let reload = Closure::<dyn FnMut()>::new(|| {
        if let Some(window) = web_sys::window() {
            let _ = window.location().reload();
        }
    });
    container.set_oncontrollerchange(Some(reload.as_ref().unchecked_ref()));
    reload.forget();
    // Fails only when the worker is gone, and then there is nothing to take up.
    let _ = waiting.post_message(&"take-over".into());
}

fn container() -> Option<ServiceWorkerContainer> {
    let navigator = web_sys::window()?.navigator();
    // Missing without HTTPS and in some private windows, whatever its type says.
    let container = js_sys::Reflect::get(&navigator, &"serviceWorker".into()).ok()?;
    container.dyn_into().ok()
}
