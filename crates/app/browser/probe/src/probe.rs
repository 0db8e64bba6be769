//! The functions that the test page calls.

use crate::exchange::worker::{WorkerState, register, take_new_version as take_up};
use crate::exchange::{Exchange, fetch_attachment, list_surveys};
use crate::keep::{Keep, News};
use std::cell::RefCell;
use std::rc::Rc;
use survey::payload::{Attachment, Brief, Payload};
use survey::{Digest, Entry, EntryId, SurveyId};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::Blob;

type Told<T> = Result<T, String>;

/// A window's keep, and an exchange once it is started.
#[wasm_bindgen]
pub struct Probe {
    keep: Keep,
    survey: SurveyId,
    exchange: RefCell<Option<Exchange>>,
    standings: Rc<RefCell<Vec<String>>>,
    fetched: Rc<RefCell<usize>>,
    heard: Rc<RefCell<usize>>,
    _news: News,
}

#[wasm_bindgen]
impl Probe {
    /// Opens the keep for one survey.
    pub async fn open(survey: String) -> Told<Probe> {
        console_error_panic_hook::set_once();
        let survey: SurveyId = survey.parse().map_err(|_| "not a survey's name".to_owned())?;
        let keep = Keep::open().await.map_err(|fault| fault.to_string())?;
        let heard = Rc::<RefCell<usize>>::default();
        let count = Rc::clone(&heard);
        let news = keep.on_news(move |_| *count.borrow_mut() += 1);
        Ok(Self {
            keep,
            survey,
            exchange: RefCell::default(),
            standings: Rc::default(),
            fetched: Rc::default(),
            heard,
            _news: news,
        })
    }

    /// Returns the device's name.
    pub fn device(&self) -> String {
        self.keep.device().to_owned()
    }

    /// Writes entries in one go and returns their lines.
    pub async fn write(&self, count: usize, about: String) -> Told<Vec<String>> {
        let brief = |n| Payload::from(Brief { purpose: format!("{about} {n}"), ..Brief::default() });
        self.write_down((0..count).map(brief).collect()).await
    }

    /// Keeps an attachment and writes the entry that names it; returns its digest.
    pub async fn attach(&self, blob: Blob, keep_it: bool) -> Told<String> {
        let (sha256, bytes) = if keep_it {
            self.keep.put_attachment(self.survey, &blob).await.map_err(|fault| fault.to_string())?
        } else {
            (Digest::of(b"never kept"), 10)
        };
        let attachment = Attachment {
            sha256,
            bytes,
            media_type: blob.type_(),
            file_name: "picture".to_owned(),
            caption: String::new(),
            alternative: String::new(),
            of: None,
            taken: None,
            position_deg: None,
        };
        self.write_down(vec![attachment.into()]).await?;
        Ok(sha256.to_string())
    }

    async fn write_down(&self, payloads: Vec<Payload>) -> Told<Vec<String>> {
        let named = |payload| (EntryId::new(uuid::Uuid::now_v7()), payload);
        let payloads = payloads.into_iter().map(named).collect();
        let written = self.keep.write(self.survey, "A. Surveyor", payloads).await;
        Ok(written.map_err(|fault| fault.to_string())?.iter().map(|entry| entry.line().to_owned()).collect())
    }

    /// Returns the lines of all entries that are kept.
    pub async fn lines(&self) -> Told<Vec<String>> {
        let entries = self.keep.entries(self.survey).await.map_err(|fault| fault.to_string())?;
        Ok(entries.iter().map(|entry| entry.line().to_owned()).collect())
    }

    /// Returns how many entries came after so many.
    pub async fn count_after(&self, number: u32) -> Told<usize> {
        let after = self.keep.entries_after(self.survey, u64::from(number)).await;
        Ok(after.map_err(|fault| fault.to_string())?.0.len())
    }

    /// Brings lines in as from a package; returns how many were new.
    pub async fn bring_in(&self, lines: Vec<String>) -> Told<usize> {
        let entries = lines.iter().map(|line| Entry::read(line)).collect::<Result<_, _>>();
        let entries = entries.map_err(|fault| fault.to_string())?;
        Ok(self.keep.bring_in(self.survey, entries).await.map_err(|fault| fault.to_string())?.len())
    }

    /// Returns what does not fit in the devices' runs of entries.
    pub async fn chain_faults(&self) -> Told<Vec<String>> {
        let faults = self.keep.chain_faults(self.survey).await.map_err(|fault| fault.to_string())?;
        Ok(faults.iter().map(ToString::to_string).collect())
    }

    /// Returns how many entries are kept and how many wait, as `kept/waiting`.
    pub async fn kept(&self) -> Told<String> {
        let surveys = self.keep.surveys().await.map_err(|fault| fault.to_string())?;
        let kept = surveys.iter().find(|kept| kept.survey == self.survey);
        Ok(kept.map_or_else(|| "0/0".to_owned(), |kept| format!("{}/{}", kept.entries, kept.waiting)))
    }

    /// Removes the survey.
    pub async fn forget(&self) -> Told<()> {
        self.keep.forget(self.survey).await.map_err(|fault| fault.to_string())
    }

    /// Starts exchanging.
    pub fn start(&self) {
        let (fetched, standings) = (Rc::clone(&self.fetched), Rc::clone(&self.standings));
        let exchange = Exchange::start(
            self.keep.clone(),
            self.survey,
            move |entries| *fetched.borrow_mut() += entries.len(),
            move |standing| standings.borrow_mut().push(format!("{standing:?}")),
        );
        self.exchange.replace(Some(exchange));
    }

    /// Stops exchanging.
    pub fn stop(&self) {
        self.exchange.take();
    }

    /// Asks the exchange to look at once.
    pub fn nudge(&self) {
        if let Some(exchange) = &*self.exchange.borrow() {
            exchange.nudge();
        }
    }

    /// Returns how things stood, one after the other.
    pub fn standings(&self) -> Vec<String> {
        self.standings.borrow().clone()
    }

    /// Returns how many entries were handed over as new from the server.
    pub fn fetched(&self) -> usize {
        *self.fetched.borrow()
    }

    /// Returns how often other windows had news.
    pub fn heard(&self) -> usize {
        *self.heard.borrow()
    }

    /// Returns an attachment from here or from the server.
    pub async fn attachment(&self, sha256: String) -> Told<Blob> {
        let sha256 = sha256.parse().map_err(|_| "not a digest".to_owned())?;
        fetch_attachment(&self.keep, sha256).await.map_err(|fault| fault.to_string())
    }

    /// Tells whether an attachment is kept here.
    pub async fn has(&self, sha256: String) -> Told<bool> {
        let sha256 = sha256.parse().map_err(|_| "not a digest".to_owned())?;
        Ok(self.keep.attachment(sha256).await.map_err(|fault| fault.to_string())?.is_some())
    }

    /// Returns the room, as `used/quota/persisted`.
    pub async fn room(&self) -> String {
        let room = self.keep.room().await;
        format!("{}/{}/{}", room.used_bytes, room.quota_bytes, room.persisted)
    }
}

/// Lists the server's surveys, as JSON.
#[wasm_bindgen]
pub async fn surveys() -> Told<String> {
    let surveys = list_surveys().await.map_err(|fault| fault.to_string())?;
    serde_json::to_string(&surveys).map_err(|fault| fault.to_string())
}

/// Registers the service worker and says whether the page is kept.
#[wasm_bindgen]
pub async fn keep_page() -> JsValue {
    let state: WorkerState = register().await;
    format!("{state:?}").into()
}

/// Takes up the new version that waits.
#[wasm_bindgen]
pub async fn take_new_version() {
    take_up().await;
}
