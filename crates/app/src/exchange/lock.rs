//! One window at a time: the browser's own locks between its windows.

use js_sys::{Function, Object, Promise, Reflect};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::{JsCast as _, JsValue, prelude::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::AbortController;

/// A lock, or the wish for it; dropped, it goes to the next window.
pub(super) struct Lock {
    release: Rc<RefCell<Option<Function>>>,
    give_up: Option<AbortController>,
}

impl Lock {
    /// Asks for a lock. The second value is ready once it is held, or no longer wished for. A browser without locks (without HTTPS, save on
    /// this machine) gives it at once to every window that asks: they then do the same work side by side, which is
    /// wasteful and harmless.
    pub fn ask(name: &str) -> (Self, JsFuture) {
        let release = Rc::<RefCell<Option<Function>>>::default();
        let give_up = AbortController::new().ok();
        let hold = Rc::clone(&release);
        let held = Promise::new(&mut |held, _| {
            let (hold, granted) = (Rc::clone(&hold), held.clone());
            let hold = Closure::once_into_js(move |_: JsValue| -> JsValue {
                let _ = granted.call0(&JsValue::UNDEFINED);
                // The lock is held until this promise is kept.
                Promise::new(&mut |release, _| *hold.borrow_mut() = Some(release)).into()
            });
            let go_on = move || {
                let _ = held.call0(&JsValue::UNDEFINED);
            };
            match request(name, give_up.as_ref(), hold.unchecked_ref()) {
                Err(_) => go_on(),
                // It ends with the holding, or when the wish is given up: whoever waits shall not wait for ever.
                Ok(asked) => wasm_bindgen_futures::spawn_local(async move {
                    let _ = JsFuture::from(asked).await;
                    go_on();
                }),
            }
        });
        (Self { release, give_up }, held.into())
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        match (self.release.take(), &self.give_up) {
            (Some(release), _) => {
                let _ = release.call0(&JsValue::UNDEFINED);
            }
            (None, Some(give_up)) => give_up.abort(),
            (None, None) => {}
        }
    }
}

fn request(name: &str, give_up: Option<&AbortController>, hold: &Function) -> Result<Promise, JsValue> {
    let window = web_sys::window().ok_or(JsValue::UNDEFINED)?;
    let locks = Reflect::get(&window.navigator(), &"locks".into())?;
    let request: Function = Reflect::get(&locks, &"request".into())?.dyn_into()?;
    let options = Object::new();
    if let Some(give_up) = give_up {
        Reflect::set(&options, &"signal".into(), &give_up.signal())?;
    }
    request.call3(&locks, &name.into(), &options, hold)?.dyn_into()
}
