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
mod scour;

pub(crate) use attachments::read_whole;
pub use fault::KeepFault;
pub(crate) use fault::said;
pub use news::News;

use database::{BOOKS, QUEUE, SETTINGS, Transaction};
use news::Teller;
use std::cell::{Cell, RefCell};
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
    database: RefCell<IdbDatabase>,
    /// Whether a write was torn, and what would be written now might not last.
    torn: Cell<bool>,
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
        let (device, is_new) = device_of(&database).await?;
        let (database, torn) = (RefCell::new(database), Cell::new(false));
        let keep = Self { inner: Rc::new(Inner { database, torn, device, teller: Teller::new() }) };
        if !is_new {
            // A write may have been torn when the browser last ended. Without room for this there is no harm yet: a
            // write that fails for it is told.
            let keep = keep.clone();
            wasm_bindgen_futures::spawn_local(async move {
                let _ = scour::scour(&keep.database()).await;
            });
        }
        Ok(keep)
    }

    fn database(&self) -> IdbDatabase {
        self.inner.database.borrow().clone()
    }

    /// Begins to read.
    async fn reading(&self, stores: &[&str]) -> Result<Transaction, KeepFault> {
        self.begin(|database| Transaction::read(database, stores)).await
    }

    /// Begins to write.
    async fn writing(&self, stores: &[&str]) -> Result<Transaction, KeepFault> {
        let begun = self.begin(|database| Transaction::write(database, stores)).await?;
        if !self.inner.torn.get() {
            return Ok(begun);
        }
        drop(begun);
        // What would be written behind a torn write might not last. While there is no room to mend it, there is none to
        // write.
        scour::scour(&self.database()).await.map_err(|_| KeepFault::Full)?;
        self.inner.torn.set(false);
        self.begin(|database| Transaction::write(database, stores)).await
    }

    /// Begins a transaction. A database that the browser has closed, as it does when the disk was full, is opened
    /// again first. If it turns out to be empty, that is told once; what is called next works on the empty one, under
    /// a new name.
    async fn begin(
        &self,
        begin: impl Fn(&IdbDatabase) -> Result<Transaction, KeepFault>,
    ) -> Result<Transaction, KeepFault> {
        let begun = begin(&self.database());
        if !matches!(begun, Err(KeepFault::Closed)) {
            return begun;
        }
        // It was open before. What it says when it cannot be opened on a full disk is only that it cannot.
        let database = database::open().await.map_err(|fault| match fault {
            KeepFault::Barred(_) => KeepFault::Full,
            other => other,
        })?;
        self.inner.torn.set(true);
        let (_, is_new) = device_of(&database).await?;
        self.inner.database.replace(database);
        if is_new {
            return Err(KeepFault::Cleared);
        }
        begin(&self.database())
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
        let transaction = self.reading(&[SETTINGS]).await?;
        let value = transaction.store(SETTINGS)?.get(JsValue::from(name))?.await?;
        transaction.done().await?;
        Ok(text(value))
    }

    /// Keeps a setting.
    pub async fn set_setting(&self, name: &str, value: &str) -> Result<(), KeepFault> {
        let transaction = self.writing(&[SETTINGS]).await?;
        transaction.store(SETTINGS)?.put(&value.into(), Some(&name.into()))?;
        transaction.done().await
    }

    /// Returns the surveys of which something is kept.
    pub async fn surveys(&self) -> Result<Vec<KeptSurvey>, KeepFault> {
        let transaction = self.reading(&[BOOKS, QUEUE]).await?;
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

/// Returns the name under which this browser writes, and whether it was drawn just now, the database being empty.
async fn device_of(database: &IdbDatabase) -> Result<(String, bool), KeepFault> {
    let transaction = Transaction::write(database, &[SETTINGS])?;
    let settings = transaction.store(SETTINGS)?;
    let (device, is_new) = match text(settings.get(JsValue::from(DEVICE))?.await?) {
        Some(device) => (device, false),
        None => (draw_name(), true),
    };
    if is_new {
        settings.put(&device.as_str().into(), Some(&DEVICE.into()))?;
    }
    transaction.done().await?;
    Ok((device, is_new))
}

fn text(value: Option<JsValue>) -> Option<String> {
    value.and_then(|value| value.as_string())
}

fn draw_name() -> String {
    // The last digits of a UUID of version 7 are drawn by chance.
    let drawn = uuid::Uuid::now_v7().simple().to_string();
    format!("browser {}", &drawn[20..])
}
