//! The database of this browser: opening it, and transactions that are whole and durable or leave nothing.

use super::KeepFault;
use idb::{Factory, KeyRange, ObjectStore, Query};
use js_sys::{Array, Function, Object, Promise, Reflect};
use std::future::IntoFuture as _;
use survey::{Digest, SurveyId};
use wasm_bindgen::{JsCast as _, JsValue, prelude::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbTransaction};

/// The name of the database.
const NAME: &str = "ribband";
/// Raised when a store is added; what was kept by earlier versions is never dropped.
const VERSION: u32 = 1;

/// Settings by name: text.
pub(super) const SETTINGS: &str = "settings";
/// Books by survey: [`super::book::Book`] as JSON.
pub(super) const BOOKS: &str = "books";
/// Lines by survey and number.
pub(super) const ENTRIES: &str = "entries";
/// Numbers by survey and hash.
pub(super) const NUMBERS: &str = "numbers";
/// Empty, by survey and number: entries that the server is not known to have.
pub(super) const QUEUE: &str = "queue";
/// Blobs by digest.
pub(super) const ATTACHMENTS: &str = "attachments";
/// Empty, by survey and digest: for which surveys attachments are kept.
pub(super) const HOLDS: &str = "holds";

/// Scrap, for a moment; see `scour.rs`.
pub(super) const SCRAP: &str = "scrap";

const STORES: [&str; 8] = [SETTINGS, BOOKS, ENTRIES, NUMBERS, QUEUE, ATTACHMENTS, HOLDS, SCRAP];

/// Opens the database, and makes it at the first opening.
pub(super) async fn open() -> Result<IdbDatabase, KeepFault> {
    let barred = |fault: KeepFault| match fault {
        KeepFault::Other(why) => KeepFault::Barred(why),
        KeepFault::Closed => KeepFault::Barred("the database is not opened".to_owned()),
        other => other,
    };
    let mut request = Factory::new()?.open(NAME, Some(VERSION)).map_err(|fault| barred(fault.into()))?;
    request.on_upgrade_needed(|event| {
        // What fails here aborts the opening, which then reports it.
        use idb::{DatabaseEvent as _, event::VersionChangeEvent};
        let make = |event: &VersionChangeEvent| -> Result<(), idb::Error> {
            let database = event.database()?;
            let there = database.store_names();
            for name in STORES.iter().filter(|name| !there.iter().any(|there| there == *name)) {
                database.create_object_store(name, idb::ObjectStoreParams::new())?;
            }
            Ok(())
        };
        if let Err(fault) = make(&event) {
            wasm_bindgen::throw_str(&fault.to_string());
        }
    });
    let database: IdbDatabase = request.await.map_err(|fault| barred(fault.into()))?.into();
    // A newer version of the page wants to bring the database up to date; it cannot while this one holds it.
    let held = database.clone();
    let give_way = Closure::<dyn FnMut()>::new(move || held.close());
    database.set_onversionchange(Some(give_way.as_ref().unchecked_ref()));
    give_way.forget();
    Ok(database)
}

/// A transaction. Dropped without [`Transaction::done`], it leaves nothing.
pub(super) struct Transaction {
    inner: idb::Transaction,
    raw: IdbTransaction,
    end: Option<JsFuture>,
}

impl Transaction {
    /// Begins to read.
    pub fn read(database: &IdbDatabase, stores: &[&str]) -> Result<Self, KeepFault> {
        Self::begin(database, stores, "readonly")
    }

    /// Begins to write.
    pub fn write(database: &IdbDatabase, stores: &[&str]) -> Result<Self, KeepFault> {
        Self::begin(database, stores, "readwrite")
    }

    fn begin(database: &IdbDatabase, stores: &[&str], mode: &str) -> Result<Self, KeepFault> {
        // The library does not offer the third argument: with it, what is done is on the disk; without it, some
        // browsers say done when they have handed it to the system.
        let begin: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
        let names: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let raw: IdbTransaction = begin.call3(database, &names, &mode.into(), &options)?.dyn_into()?;
        let why = raw.clone();
        let end = Promise::new(&mut |kept, broken| {
            let why = why.clone();
            let abort = Closure::once_into_js(move || {
                let why = why.error().map_or(JsValue::UNDEFINED, JsValue::from);
                let _ = broken.call1(&JsValue::UNDEFINED, &why);
            });
            raw.set_oncomplete(Some(&kept));
            raw.set_onabort(Some(abort.unchecked_ref()));
        });
        Ok(Self { inner: raw.clone().into(), raw, end: Some(end.into()) })
    }

    /// Returns one of its stores.
    pub fn store(&self, name: &str) -> Result<ObjectStore, KeepFault> {
        Ok(self.inner.object_store(name)?)
    }

    /// Waits until all of it is kept.
    pub async fn done(mut self) -> Result<(), KeepFault> {
        // Nothing more is asked: it need not wait until the page has heard of every request by itself. Where a browser
        // does not know this, or has ended it already, it ends all the same.
        if let Ok(Ok(commit)) = Reflect::get(&self.raw, &"commit".into()).map(JsValue::dyn_into::<Function>) {
            let _ = commit.call0(&self.raw);
        }
        if let Some(end) = self.end.take() {
            end.await?;
        }
        Ok(())
    }
}

impl Drop for Transaction {
    fn drop(&mut self) {
        if self.end.is_some() {
            // It may have ended by itself already, and then there is nothing to leave.
            let _ = self.raw.abort();
        }
    }
}

/// Returns the key of something in a survey under a number.
pub(super) fn numbered(survey: SurveyId, number: u64) -> JsValue {
    // Exact up to 2^53, which no browser's disk has room for.
    Array::of2(&survey.to_string().into(), &(number as f64).into()).into()
}

/// Returns the key of something in a survey under a hash.
pub(super) fn hashed(survey: SurveyId, hash: &Digest) -> JsValue {
    Array::of2(&survey.to_string().into(), &hash.to_string().into()).into()
}

/// Returns the survey and the digest in a key, as text.
pub(super) fn hold_of(key: &JsValue) -> Option<(String, String)> {
    let key = key.dyn_ref::<Array>()?;
    Some((key.get(0).as_string()?, key.get(1).as_string()?))
}

/// Returns the hash in a key.
pub(super) fn hash_of(key: &JsValue) -> Option<Digest> {
    hold_of(key)?.1.parse().ok()
}

/// Returns the number in a key.
pub(super) fn number_of(key: &JsValue) -> Option<u64> {
    key.dyn_ref::<Array>()?.get(1).as_f64().map(|number| number as u64)
}

/// Returns the range of all keys of a survey after a number.
pub(super) fn after(survey: SurveyId, number: u64) -> Result<Query, KeepFault> {
    // An array sorts after every number and every text.
    let end = Array::of2(&survey.to_string().into(), &Array::new());
    Ok(KeyRange::bound(&numbered(survey, number), &end, Some(true), Some(true))?.into())
}

/// Returns the range of all keys of a survey.
pub(super) fn all_of(survey: SurveyId) -> Result<Query, KeepFault> {
    after(survey, 0)
}

/// Gets many values at once: all are asked for before the first is waited for.
pub(super) async fn get_each(
    store: &ObjectStore,
    keys: impl Iterator<Item = JsValue>,
) -> Result<Vec<Option<JsValue>>, KeepFault> {
    let asked: Vec<_> = keys.map(|key| Ok(store.get(key)?.into_future())).collect::<Result<_, KeepFault>>()?;
    let mut all = Vec::with_capacity(asked.len());
    for value in asked {
        all.push(value.await?);
    }
    Ok(all)
}
