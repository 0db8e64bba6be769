//! Hearing from the server that there are new entries.

use std::cell::Cell;
use std::rc::Rc;
use survey::SurveyId;
use wasm_bindgen::{JsCast as _, prelude::Closure};
use web_sys::{EventSource, MessageEvent};

/// The server's news of one survey; dropped, it stops.
pub(super) struct Live {
    source: EventSource,
    open: Rc<Cell<bool>>,
    _cursor: Closure<dyn FnMut(MessageEvent)>,
    _opened: Closure<dyn FnMut()>,
    _broken: Closure<dyn FnMut()>,
}

impl Live {
    /// Listens. `cursor` is called with the position of the survey's last entry, at once and at each new one;
    /// `changed` when the connection is there or broken.
    pub fn listen(survey: SurveyId, cursor: impl Fn(u64) + 'static, changed: impl Fn(bool) + 'static) -> Option<Self> {
        let source = EventSource::new(&format!("/api/surveys/{survey}/live")).ok()?;
        let (open, changed) = (Rc::new(Cell::new(false)), Rc::new(changed));
        let on_cursor = Closure::new(move |event: MessageEvent| {
            if let Some(position) = event.data().as_string().and_then(|data| data.parse().ok()) {
                cursor(position);
            }
        });
        let set = |now: bool| {
            let (open, changed) = (Rc::clone(&open), Rc::clone(&changed));
            Closure::<dyn FnMut()>::new(move || {
                open.set(now);
                changed(now);
            })
        };
        let (opened, broken) = (set(true), set(false));
        source.add_event_listener_with_callback("cursor", on_cursor.as_ref().unchecked_ref()).ok()?;
        source.set_onopen(Some(opened.as_ref().unchecked_ref()));
        source.set_onerror(Some(broken.as_ref().unchecked_ref()));
        Some(Self { source, open, _cursor: on_cursor, _opened: opened, _broken: broken })
    }

    /// Tells whether news would come.
    pub fn is_open(&self) -> bool {
        self.open.get()
    }

    /// Tells whether the browser has given up trying for the connection.
    pub fn is_over(&self) -> bool {
        self.source.ready_state() == EventSource::CLOSED
    }
}

impl Drop for Live {
    fn drop(&mut self) {
        self.source.set_onopen(None);
        self.source.set_onerror(None);
        self.source.close();
    }
}
