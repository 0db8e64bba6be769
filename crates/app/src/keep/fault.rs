//! Why this browser did not keep or find something.

use survey::{Digest, EntryId};
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::DomException;

/// Why something was not kept, or cannot be read. A call that returns a fault has changed nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum KeepFault {
    /// The browser offers no database.
    #[error(
        "this browser keeps nothing for pages (IndexedDB is missing or switched off); use an ordinary window of a current browser"
    )]
    Missing,
    /// The browser has a database and does not open it.
    #[error(
        "this browser does not let the page keep anything ({0}); a private window or a setting against site data can be the cause"
    )]
    Barred(String),
    /// The database was written by a newer version of this page.
    #[error("a newer version of the workbench has been here; reload this page")]
    Newer,
    /// The database was closed under the page: the browser cleared it, or another window brought it up to date.
    #[error("the browser closed what it keeps for this page; reload the page")]
    Closed,
    /// The browser removed all that was kept, as browsers do when the disk gets full and they have not promised
    /// otherwise ([`super::Keep::ask_to_persist`]). What a window still holds can be kept again with
    /// [`super::Keep::bring_in`].
    #[error("the browser has removed all that it kept for this page; what had been sent is on the server")]
    Cleared,
    /// There is no more room.
    #[error("this device has no more room, and the last thing was not kept; free some space, then enter it again")]
    Full,
    /// An entry names a new attachment that is not kept here, or is of another length than it says.
    #[error("entry {entry} names an attachment that is not here or has another length ({sha256}); keep the file first")]
    NoAttachment {
        /// The entry.
        entry: EntryId,
        /// The attachment's digest.
        sha256: Digest,
    },
    /// An entry belongs to another survey than the one it was handed over for, or is dated beyond the calendar.
    #[error("entry {0} does not belong here or has an impossible time")]
    OutOfPlace(EntryId),
    /// A survey cannot be forgotten while something in it has not been sent.
    #[error("{0} entries of this survey have not been sent yet; it can be removed from this device once they are")]
    NotSent(u64),
    /// What was read is not what was kept.
    #[error("something kept in this browser cannot be read again ({0})")]
    Damaged(String),
    /// Whatever else the browser says.
    #[error("the browser did not keep or read this: {0}")]
    Other(String),
}

impl KeepFault {
    /// Returns the fault that an exception of the browser stands for.
    pub(super) fn from_exception(exception: &JsValue) -> Self {
        let Some(exception) = exception.dyn_ref::<DomException>() else {
            return Self::Other(said(exception));
        };
        let said = || format!("{}: {}", exception.name(), exception.message());
        match exception.name().as_str() {
            "QuotaExceededError" => Self::Full,
            "InvalidStateError" => Self::Closed,
            "VersionError" => Self::Newer,
            "SecurityError" | "NotAllowedError" => Self::Barred(said()),
            "NotReadableError" | "NotFoundError" => Self::Damaged(said()),
            "DataError" if exception.message().contains("write blobs") => Self::Full,
            // Chromium's words for a disk that filled up while it was writing; it then closes the database.
            "UnknownError" if exception.message().contains("NO_SPACE") => Self::Full,
            _ => Self::Other(said()),
        }
    }
}

impl From<JsValue> for KeepFault {
    fn from(exception: JsValue) -> Self {
        Self::from_exception(&exception)
    }
}

impl From<idb::Error> for KeepFault {
    fn from(fault: idb::Error) -> Self {
        use idb::Error as E;
        match fault {
            E::IndexedDbNotFound(_) => Self::Missing,
            E::DomException(exception) => Self::from_exception(&exception),
            E::AddFailed(v)
            | E::UpdateFailed(v)
            | E::GetFailed(v)
            | E::GetKeyFailed(v)
            | E::GetAllFailed(v)
            | E::GetAllKeysFailed(v)
            | E::CountFailed(v)
            | E::DeleteFailed(v)
            | E::ObjectStoreNotFound(v)
            | E::TransactionOpenFailed(v)
            | E::IndexedDbOpenFailed(v) => Self::from_exception(&v),
            other => Self::Other(other.to_string()),
        }
    }
}

/// Returns what a thrown value says.
pub(crate) fn said(thrown: &JsValue) -> String {
    match thrown.dyn_ref::<js_sys::Error>() {
        Some(error) => String::from(error.message()),
        None => thrown.as_string().unwrap_or_else(|| format!("{thrown:?}")),
    }
}
