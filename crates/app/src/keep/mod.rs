//! What this browser keeps: settings, entries, attachments, and what has not been sent yet.
//!
//! The browser is a replica: it holds a survey's entries itself and writes under its own device name. An acknowledged
//! write is on the disk. Several windows may write at once; the database lets one transaction after the other, so that
//! the device's run of entries has no fork.

mod attachments;
pub mod book;
mod database;
mod entries;
mod fault;
mod news;
mod queue;
pub mod room;

pub(crate) use attachments::read_whole;
pub use fault::KeepFault;
pub(crate) use fault::said;
pub use news::News;

use database::{BOOKS, QUEUE, SETTINGS, Transaction};
use news::Teller;
use std::rc::Rc;
use survey::SurveyId;
use wasm_bindgen::JsValue;
use web_sys::IdbDatabase;

const DEVICE: &str = "device";
const AUTHOR: &str = "author";

/// What this browser keeps. Cheap to clone.
#[derive(Clone)]
pub struct Keep {
    inner: Rc<Inner>,
}

struct Inner {
    database: IdbDatabase,
    device: String,
    teller: Teller,
}

/// What is kept of a survey.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeptSurvey {
    /// The survey.
    pub survey: SurveyId,
    /// How many entries are kept.
    pub entries: u64,
    /// How many of them the server is not known to have.
    pub waiting: u64,
}

impl Keep {
    /// Opens what this browser keeps; at the first opening, draws its device name.
    ///
    /// # Errors
    /// [`KeepFault::Missing`] and [`KeepFault::Barred`] when the browser keeps nothing for this page.
    pub async fn open() -> Result<Self, KeepFault> {
        let database = database::open().await?;
        let transaction = Transaction::write(&database, &[SETTINGS])?;
        let settings = transaction.store(SETTINGS)?;
        let device = match text(settings.get(JsValue::from(DEVICE))?.await?) {
            Some(device) => device,
            None => {
                let device = draw_name();
                settings.put(&device.as_str().into(), Some(&DEVICE.into()))?;
                device
            }
        };
        transaction.done().await?;
        Ok(Self { inner: Rc::new(Inner { database, device, teller: Teller::new() }) })
    }

    /// Returns the name under which this browser writes, e.g. `browser 3f9c0a61b2d4`. Should it turn out that another
    /// browser writes under it too (a copied profile), another is drawn and returned from the next opening on.
    pub fn device(&self) -> &str {
        &self.inner.device
    }

    /// Returns who writes here.
    pub async fn author(&self) -> Result<Option<String>, KeepFault> {
        self.setting(AUTHOR).await
    }

    /// Keeps who writes here.
    pub async fn set_author(&self, author: &str) -> Result<(), KeepFault> {
        self.set_setting(AUTHOR, author).await
    }

    /// Returns a setting.
    pub async fn setting(&self, name: &str) -> Result<Option<String>, KeepFault> {
        let transaction = Transaction::read(&self.inner.database, &[SETTINGS])?;
        let value = transaction.store(SETTINGS)?.get(JsValue::from(name))?.await?;
        transaction.done().await?;
        Ok(text(value))
    }

    /// Keeps a setting.
    pub async fn set_setting(&self, name: &str, value: &str) -> Result<(), KeepFault> {
        let transaction = Transaction::write(&self.inner.database, &[SETTINGS])?;
        transaction.store(SETTINGS)?.put(&value.into(), Some(&name.into()))?;
        transaction.done().await
    }

    /// Returns the surveys of which something is kept.
    pub async fn surveys(&self) -> Result<Vec<KeptSurvey>, KeepFault> {
        let transaction = Transaction::read(&self.inner.database, &[BOOKS, QUEUE])?;
        let (books, queue) = (transaction.store(BOOKS)?, transaction.store(QUEUE)?);
        let mut all = Vec::new();
        for key in books.get_all_keys(None, None)?.await? {
            let Some(survey) = key.as_string().and_then(|key| key.parse::<SurveyId>().ok()) else { continue };
            let entries = entries::book(&books, survey).await?.kept();
            let waiting = u64::from(queue.count(Some(database::all_of(survey)?))?.await?);
            all.push(KeptSurvey { survey, entries, waiting });
        }
        transaction.done().await?;
        Ok(all)
    }

    /// Calls `tell` whenever another window of this browser kept something new in a survey.
    pub fn on_news(&self, tell: impl Fn(SurveyId) + 'static) -> News {
        self.inner.teller.listen(false, tell)
    }

    /// Calls `tell` whenever there may be something to send: this window wrote, or another kept something new.
    pub(crate) fn on_change(&self, tell: impl Fn(SurveyId) + 'static) -> News {
        self.inner.teller.listen(true, tell)
    }
}

fn text(value: Option<JsValue>) -> Option<String> {
    value.and_then(|value| value.as_string())
}

fn draw_name() -> String {
    // The last digits of a UUID of version 7 are drawn by chance.
    let drawn = uuid::Uuid::now_v7().simple().to_string();
    format!("browser {}", &drawn[20..])
}
