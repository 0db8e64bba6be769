//! What the windows of one browser tell each other about an exchange, and what tells a window that it is time to try.

use super::{Bell, Standing};
use serde::{Deserialize, Serialize};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use survey::SurveyId;
use wasm_bindgen::{JsCast as _, JsValue, prelude::Closure};
use web_sys::{BroadcastChannel, EventTarget, MessageEvent};

#[derive(Serialize, Deserialize)]
enum Message {
    /// A window that does not exchange wants to know how things stand.
    HowDoThingsStand,
    /// A window wants the exchange to look at once.
    Look,
    /// The exchanging window says how things stand.
    Stands(Standing),
}

type Heard = Closure<dyn FnMut(MessageEvent)>;

/// How things stand, the same in all windows.
pub(super) struct Shared {
    channel: Option<BroadcastChannel>,
    last: RefCell<Option<Standing>>,
    tell: Box<dyn Fn(Standing)>,
    heard: RefCell<Option<Heard>>,
}

impl Shared {
    pub fn new(survey: SurveyId, leads: Rc<Cell<bool>>, bell: Rc<Bell>, tell: impl Fn(Standing) + 'static) -> Rc<Self> {
        let channel = BroadcastChannel::new(&format!("ribband-exchange-{survey}")).ok();
        let shared =
            Rc::new(Self { channel, last: RefCell::default(), tell: Box::new(tell), heard: RefCell::default() });
        let to = Rc::downgrade(&shared);
        let heard = Closure::new(move |event: MessageEvent| {
            let Some(shared) = to.upgrade() else { return };
            let message = event.data().as_string().and_then(|json| serde_json::from_str(&json).ok());
            match message {
                Some(Message::HowDoThingsStand) if leads.get() => shared.say_again(),
                Some(Message::Look) if leads.get() => bell.ring(),
                Some(Message::Stands(standing)) if !leads.get() => {
                    shared.set(standing);
                }
                _ => {}
            }
        });
        if let Some(channel) = &shared.channel {
            channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        }
        shared.heard.replace(Some(heard));
        shared
    }

    /// Asks the exchanging window how things stand.
    pub fn ask(&self) {
        self.post(&Message::HowDoThingsStand);
    }

    /// Asks the exchanging window to look.
    pub fn nudge(&self) {
        self.post(&Message::Look);
    }

    /// Says how things stand, here and in the other windows.
    pub fn stand(&self, standing: Standing) {
        if self.set(standing.clone()) {
            self.post(&Message::Stands(standing));
        }
    }

    /// Hears and says nothing any more.
    pub fn fall_silent(&self) {
        if let Some(channel) = &self.channel {
            channel.set_onmessage(None);
            channel.close();
        }
    }

    fn say_again(&self) {
        if let Some(last) = self.last.borrow().clone() {
            self.post(&Message::Stands(last));
        }
    }

    /// Tells this window, when it is a change.
    fn set(&self, standing: Standing) -> bool {
        if self.last.borrow().as_ref() == Some(&standing) {
            return false;
        }
        self.last.replace(Some(standing.clone()));
        (self.tell)(standing);
        true
    }

    fn post(&self, message: &Message) {
        if let (Some(channel), Ok(json)) = (&self.channel, serde_json::to_string(message)) {
            // Fails only once the channel is closed.
            let _ = channel.post_message(&JsValue::from(json));
        }
    }
}

impl Drop for Shared {
    fn drop(&mut self) {
        self.fall_silent();
    }
}

/// Rings when the network comes or goes and when the person comes back to the window; dropped, it stops.
pub(super) struct Signals {
    targets: Vec<(EventTarget, &'static str)>,
    ring: Closure<dyn FnMut()>,
}

impl Signals {
    pub fn listen(bell: Rc<Bell>) -> Self {
        let ring = Closure::<dyn FnMut()>::new(move || bell.ring());
        let mut targets: Vec<(EventTarget, &'static str)> = Vec::new();
        if let Some(window) = web_sys::window() {
            targets.extend(window.document().map(|document| (document.into(), "visibilitychange")));
            targets.push((window.clone().into(), "offline"));
            targets.push((window.into(), "online"));
        }
        for (target, name) in &targets {
            // Fails for no known name.
            let _ = target.add_event_listener_with_callback(name, ring.as_ref().unchecked_ref());
        }
        Self { targets, ring }
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        for (target, name) in &self.targets {
            let _ = target.remove_event_listener_with_callback(name, self.ring.as_ref().unchecked_ref());
        }
    }
}
