//! How much room the browser gives this page, and whether it promises not to clear it.

use super::Keep;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{StorageEstimate, StorageManager};

/// What the browser says of its room. Where it says nothing (without HTTPS, save on this machine), all is nought.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Room {
    /// Bytes used for this page, roughly.
    pub used_bytes: u64,
    /// Bytes that may be used, roughly.
    pub quota_bytes: u64,
    /// Whether the browser promised not to clear it by itself when the disk gets full.
    pub persisted: bool,
}

impl Keep {
    /// Returns what the browser says of its room.
    pub async fn room(&self) -> Room {
        let Some(storage) = manager() else { return Room::default() };
        let estimate = match storage.estimate() {
            Ok(estimate) => JsFuture::from(estimate).await.map(StorageEstimate::from).ok(),
            Err(_) => None,
        };
        let persisted = match storage.persisted() {
            Ok(persisted) => JsFuture::from(persisted).await.is_ok_and(|persisted| persisted.is_truthy()),
            Err(_) => false,
        };
        Room {
            used_bytes: estimate.as_ref().and_then(StorageEstimate::get_usage).unwrap_or_default() as u64,
            quota_bytes: estimate.as_ref().and_then(StorageEstimate::get_quota).unwrap_or_default() as u64,
            persisted,
        }
    }

    /// Asks the browser not to clear what is kept here by itself; tells whether it promised. Some browsers ask the
    /// person.
    pub async fn ask_to_persist(&self) -> bool {
        match manager().map(|storage| storage.persist()) {
            Some(Ok(promised)) => JsFuture::from(promised).await.is_ok_and(|promised| promised.is_truthy()),
            _ => false,
        }
    }
}

fn manager() -> Option<StorageManager> {
    let storage: JsValue = web_sys::window()?.navigator().storage().into();
    (!storage.is_undefined()).then(|| storage.into())
}
