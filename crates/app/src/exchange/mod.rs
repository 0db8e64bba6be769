//! Exchanging entries and attachments with the server, in the background and whenever it is in reach.
//!
//! One window of a browser does it for all: it holds a lock, hears from the server when there is news, and tells the
//! other windows how things stand. Being out of reach is normal and no fault.

mod bell;
pub mod devices;
mod fault;
mod http;
mod live;
mod lock;
pub mod plan;
mod round;
mod shared;
pub mod worker;

pub use fault::ExchangeFault;

use crate::keep::{Keep, News, read_whole};
use bell::Bell;
use live::Live;
use lock::Lock;
use plan::{Sending, pause_ms};
use round::Round;
use serde::{Deserialize, Serialize};
use shared::{Shared, Signals};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use survey::{Digest, Entry, SurveyId};
use web_sys::Blob;

/// How long what was rung for waits, in milliseconds.
const SHOWN_MS: u32 = 120;
/// How long to wait until asking again when the server would not tell of news by itself.
const UNTOLD_MS: u32 = 60_000;

/// How a survey here stands to the one on the server.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Standing {
    /// Both have the same.
    Together,
    /// Entries are being sent.
    Sending {
        /// How many are left.
        left: u64,
    },
    /// Entries are being fetched.
    Fetching,
    /// The server is out of reach; what is entered is kept here.
    Away {
        /// How many entries wait to be sent.
        waiting: u64,
    },
    /// The server answers, and does not let this device in; what is entered is kept here.
    NotPaired {
        /// How many entries wait to be sent.
        waiting: u64,
    },
    /// Something keeps this survey from being exchanged, or part of it; what, in one sentence.
    Refused(String),
}

/// The exchange of one survey; dropped, it stops.
pub struct Exchange {
    running: Rc<Running>,
    _news: News,
    _signals: Signals,
}

struct Running {
    keep: Keep,
    survey: SurveyId,
    bell: Rc<Bell>,
    stopped: Cell<bool>,
    /// The lock, or the wish for it.
    lock: RefCell<Option<Lock>>,
    /// Whether this window does the exchanging.
    leads: Rc<Cell<bool>>,
    /// Whether the last round failed.
    failing: Cell<bool>,
    cursor: Cell<u64>,
    shared: Rc<Shared>,
    new: Box<dyn Fn(Vec<Entry>)>,
}

impl Exchange {
    /// Starts exchanging a survey. `new` is called with the entries that this window fetched from the server (what
    /// other windows fetch or write is told by [`Keep::on_news`]); `standing` whenever it changes, in every window.
    pub fn start(
        keep: Keep,
        survey: SurveyId,
        new: impl Fn(Vec<Entry>) + 'static,
        standing: impl Fn(Standing) + 'static,
    ) -> Self {
        let bell = Rc::<Bell>::default();
        let leads = Rc::<Cell<bool>>::default();
        let ring = Rc::clone(&bell);
        let news = keep.on_change(move |changed| {
            if changed == survey {
                ring.ring();
            }
        });
        let shared = Shared::new(survey, Rc::clone(&leads), Rc::clone(&bell), standing);
        let running = Rc::new(Running {
            keep,
            survey,
            stopped: Cell::new(false),
            lock: RefCell::default(),
            leads,
            failing: Cell::new(false),
            cursor: Cell::new(0),
            shared,
            new: Box::new(new),
            bell: Rc::clone(&bell),
        });
        wasm_bindgen_futures::spawn_local(run(Rc::clone(&running)));
        Self { running, _news: news, _signals: Signals::listen(bell) }
    }

    /// Sees at once whether there is something to fetch or to send.
    pub fn nudge(&self) {
        self.running.bell.ring();
        self.running.shared.nudge();
    }
}

impl Drop for Exchange {
    fn drop(&mut self) {
        self.running.stopped.set(true);
        self.running.shared.fall_silent();
        self.running.lock.take();
        self.running.bell.ring();
    }
}

async fn run(running: Rc<Running>) {
    let (lock, held) = Lock::ask(&format!("ribband-exchange-{}", running.survey));
    running.lock.replace(Some(lock));
    running.shared.ask();
    if held.await.is_err() {
        return;
    }
    running.leads.set(true);
    let mut sending = Sending::default();
    let mut live: Option<Live> = None;
    let mut failures = 0;
    while !running.stopped.get() {
        let went = go_round(&running, &mut sending).await;
        if running.stopped.get() {
            break;
        }
        running.failing.set(went.is_err());
        failures = if went.is_err() { failures + 1 } else { 0 };
        let standing = standing_after(&running, &sending, went).await;
        if running.stopped.get() {
            break;
        }
        running.shared.stand(standing);
        if live.as_ref().is_none_or(Live::is_over) && failures == 0 {
            live = listen(&running);
        }
        let told = live.as_ref().is_some_and(Live::is_open);
        let alarm = match failures {
            0 if told => None,
            0 => Some(running.bell.ring_in(UNTOLD_MS)),
            _ => Some(running.bell.ring_in(pause_ms(failures, js_sys::Math::random()))),
        };
        running.bell.wait().await;
        drop(alarm);
        // What was just entered is shown before it is sent, and the entries of one act go together.
        let shown = running.bell.ring_in(SHOWN_MS);
        running.bell.wait().await;
        drop(shown);
    }
    running.leads.set(false);
}

async fn go_round(running: &Running, sending: &mut Sending) -> Result<(), ExchangeFault> {
    let stand = |standing| {
        if !running.stopped.get() {
            running.shared.stand(standing);
        }
    };
    let new = |entries| {
        if !running.stopped.get() {
            (running.new)(entries);
        }
    };
    let (keep, survey, cursor) = (&running.keep, running.survey, &running.cursor);
    Round { keep, survey, sending, cursor, new: &new, standing: &stand }.go().await
}

async fn standing_after(running: &Running, sending: &Sending, went: Result<(), ExchangeFault>) -> Standing {
    match (went, sending.held_for()) {
        (Ok(()), None) => Standing::Together,
        (Ok(()), Some(why)) => Standing::Refused(ExchangeFault::Refused(why.to_owned()).to_string()),
        (Err(fault), _) if fault.is_away() || fault == ExchangeFault::NotPaired => {
            match running.keep.queued(running.survey).await {
                Ok(queued) if fault.is_away() => Standing::Away { waiting: queued.len() as u64 },
                Ok(queued) => Standing::NotPaired { waiting: queued.len() as u64 },
                Err(fault) => Standing::Refused(fault.to_string()),
            }
        }
        (Err(fault), _) => Standing::Refused(fault.to_string()),
    }
}

fn listen(running: &Rc<Running>) -> Option<Live> {
    let (cursor, changed) = (Rc::clone(running), Rc::clone(running));
    Live::listen(
        running.survey,
        move |position| {
            if position != cursor.cursor.get() {
                cursor.bell.ring();
            }
        },
        // A connection that comes back says so before the next try is due; one that breaks is seen at once, and not
        // each time the browser fails to get it back.
        move |open| {
            if open == changed.failing.get() {
                changed.bell.ring();
            }
        },
    )
}

/// Lists the surveys that the server has, as it lists them.
pub async fn list_surveys() -> Result<Vec<serde_json::Value>, ExchangeFault> {
    http::surveys().await
}

/// Returns an attachment: the one kept here, else the server's, which is then kept here too where there is room.
///
/// # Errors
/// [`ExchangeFault::NoAttachment`] when no one has it, [`ExchangeFault::Altered`] when the server's is another.
pub async fn fetch_attachment(keep: &Keep, sha256: Digest) -> Result<Blob, ExchangeFault> {
    if let Some(blob) = keep.attachment(sha256).await? {
        return Ok(blob);
    }
    let fetched = http::attachment(sha256).await?.ok_or(ExchangeFault::NoAttachment(sha256))?;
    let (found, blob) = read_whole(&fetched).await?;
    if found != sha256 {
        return Err(ExchangeFault::Altered(sha256));
    }
    // It can be fetched again; a full disk is told where something could be lost.
    let _ = keep.keep_fetched(sha256, &blob).await;
    Ok(blob)
}
