//! Telling this browser's windows of each other's news.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::{Rc, Weak};
use survey::SurveyId;
use wasm_bindgen::{JsCast as _, prelude::Closure};
use web_sys::{BroadcastChannel, MessageEvent};

const CHANNEL: &str = "ribband-kept";

/// Hearing of news; dropped, it stops.
pub struct News {
    number: u64,
    listeners: Weak<RefCell<Listeners>>,
}

impl Drop for News {
    fn drop(&mut self) {
        if let Some(listeners) = self.listeners.upgrade() {
            listeners.borrow_mut().all.remove(&self.number);
        }
    }
}

/// Whether it wants to hear of what this window wrote, too, and whom to tell.
type Listener = (bool, Rc<dyn Fn(SurveyId)>);

#[derive(Default)]
struct Listeners {
    drawn: u64,
    all: BTreeMap<u64, Listener>,
}

/// Tells, and hears what other windows tell.
pub(super) struct Teller {
    // One channel for both: what is posted on it does not come back on it. A browser without any has no other windows
    // that would hear.
    channel: Option<BroadcastChannel>,
    listeners: Rc<RefCell<Listeners>>,
    _heard: Closure<dyn FnMut(MessageEvent)>,
}

impl Teller {
    pub fn new() -> Self {
        let listeners = Rc::<RefCell<Listeners>>::default();
        let channel = BroadcastChannel::new(CHANNEL).ok();
        let to = Rc::clone(&listeners);
        let heard = Closure::new(move |event: MessageEvent| {
            if let Some(survey) = event.data().as_string().and_then(|survey| survey.parse().ok()) {
                tell_each(&to, survey, false);
            }
        });
        if let Some(channel) = &channel {
            channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        }
        Self { channel, listeners, _heard: heard }
    }

    /// Tells the other windows of news in a survey.
    pub fn tell_others(&self, survey: SurveyId) {
        if let Some(channel) = &self.channel {
            // Fails only once the channel is closed, with the page.
            let _ = channel.post_message(&survey.to_string().into());
        }
    }

    /// Tells what in this window waits for something to send.
    pub fn tell_own(&self, survey: SurveyId) {
        tell_each(&self.listeners, survey, true);
    }

    pub fn listen(&self, own_too: bool, tell: impl Fn(SurveyId) + 'static) -> News {
        let mut listeners = self.listeners.borrow_mut();
        listeners.drawn += 1;
        let number = listeners.drawn;
        listeners.all.insert(number, (own_too, Rc::new(tell)));
        News { number, listeners: Rc::downgrade(&self.listeners) }
    }
}

impl Drop for Teller {
    fn drop(&mut self) {
        if let Some(channel) = &self.channel {
            channel.close();
        }
    }
}

fn tell_each(listeners: &RefCell<Listeners>, survey: SurveyId, own: bool) {
    // A listener may add or drop listeners.
    let tell: Vec<_> = listeners.borrow().all.values().filter(|(own_too, _)| !own || *own_too).cloned().collect();
    tell.iter().for_each(|(_, tell)| tell(survey));
}
