//! Getting the database's log into order after a write was torn.
//!
//! Chromium keeps a site's database in LevelDB with its logs reused. A write torn by a full disk or by the end of power
//! leaves half a record at the end of the log. The next opening passes over it and writes on behind it; the opening
//! after that, at the next start of the browser, takes the half record for damage and removes the whole database. (Seen
//! with Chromium 156: `offline_full_disk.test.mjs` fails without this.) Once more is written than the log's buffer
//! holds, everything goes into a table of its own and the log is begun anew; so that is what is done here, with scrap.
//! In browsers with other databases it does nothing but take a moment.

use super::KeepFault;
use super::database::{SCRAP, Transaction};
use js_sys::{Reflect, Uint8Array};
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::IdbDatabase;

/// The log's buffer is of 4 MiB at most. Larger values would not go through the log, and regular ones would be packed
/// to nothing.
const PIECES: u32 = 160;
const PIECE_BYTES: u32 = 32_768;

/// Gets the log into order.
pub(super) async fn scour(database: &IdbDatabase) -> Result<(), KeepFault> {
    let transaction = Transaction::write(database, &[SCRAP])?;
    let scrap = transaction.store(SCRAP)?;
    for number in 0..PIECES {
        scrap.put(&noise()?, Some(&number.into()))?;
    }
    transaction.done().await?;
    let transaction = Transaction::write(database, &[SCRAP])?;
    transaction.store(SCRAP)?.clear()?;
    transaction.done().await?;
    Ok(())
}

fn noise() -> Result<JsValue, KeepFault> {
    let piece = Uint8Array::new_with_length(PIECE_BYTES);
    let crypto = Reflect::get(&js_sys::global(), &"crypto".into())?;
    let fill: js_sys::Function = Reflect::get(&crypto, &"getRandomValues".into())?.dyn_into()?;
    Ok(fill.call1(&crypto, &piece)?)
}
