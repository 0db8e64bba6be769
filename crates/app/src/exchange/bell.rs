//! Being woken: by what happens, or by time.

use std::cell::{Cell, RefCell};
use std::future::poll_fn;
use std::rc::Rc;
use std::task::{Poll, Waker};
use wasm_bindgen::{JsCast as _, prelude::Closure};

/// A bell that one waits for and anyone rings. A ring before the waiting counts.
#[derive(Default)]
pub(super) struct Bell {
    rung: Cell<bool>,
    waiting: RefCell<Option<Waker>>,
}

impl Bell {
    /// Rings.
    pub fn ring(&self) {
        self.rung.set(true);
        if let Some(waker) = self.waiting.take() {
            waker.wake();
        }
    }

    /// Rings after some time. What else rings meanwhile is not hindered, and a late ring does no harm.
    pub fn ring_in(self: &Rc<Self>, ms: u32) -> Alarm {
        let bell = Rc::clone(self);
        let ring = Closure::new(move || bell.ring());
        let ms = i32::try_from(ms).unwrap_or(i32::MAX);
        let timer = web_sys::window().and_then(|window| {
            window.set_timeout_with_callback_and_timeout_and_arguments_0(ring.as_ref().unchecked_ref(), ms).ok()
        });
        Alarm { timer, _ring: ring }
    }

    /// Waits for the next ring.
    pub async fn wait(&self) {
        poll_fn(|context| {
            if self.rung.take() {
                return Poll::Ready(());
            }
            self.waiting.replace(Some(context.waker().clone()));
            Poll::Pending
        })
        .await;
    }
}

/// A ring to come; dropped, it does not.
pub(super) struct Alarm {
    timer: Option<i32>,
    _ring: Closure<dyn FnMut()>,
}

impl Drop for Alarm {
    fn drop(&mut self) {
        if let (Some(timer), Some(window)) = (self.timer, web_sys::window()) {
            window.clear_timeout_with_handle(timer);
        }
    }
}
