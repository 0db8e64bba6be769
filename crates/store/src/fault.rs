//! Why a store cannot do what it is asked.

use crate::Position;
use std::io;
use std::path::PathBuf;
use survey::{Digest, EntryId, SurveyId};

/// Why a store cannot do what it is asked. Whatever the fault, all that was acknowledged before is still there and
/// what was about to be recorded is not, in whole or in part.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreFault {
    /// Another program held the record for longer than this one was ready to wait. Try again.
    #[error("Another program is writing to this field book; nothing was recorded, so try again in a moment ({path}).")]
    Busy {
        /// The record.
        path: PathBuf,
    },
    /// There is no room. Make some and try again.
    #[error("The disk is full; nothing was recorded and nothing kept was lost, so make room and try again ({path}).")]
    Full {
        /// What could not be written.
        path: PathBuf,
    },
    /// The place cannot be written to.
    #[error(
        "The field book's folder cannot be written to; nothing was recorded, so choose a folder you may write in ({path})."
    )]
    ReadOnly {
        /// What could not be written.
        path: PathBuf,
    },
    /// What is kept can no longer be read as it was written. Restore it from a package or a copy.
    #[error("The field book is damaged: {why}; nothing was changed, so restore it from a package or a copy ({path}).")]
    Damaged {
        /// The record.
        path: PathBuf,
        /// What does not fit.
        why: String,
    },
    /// The file is something else.
    #[error("This file is not a field book; choose another folder ({path}).")]
    NotAFieldBook {
        /// The file.
        path: PathBuf,
    },
    /// A later version of the program wrote the record.
    #[error(
        "This field book was written by a newer version (form {found}; this version reads forms up to {known}); \
         nothing was changed, so update the program ({path})."
    )]
    Newer {
        /// The record.
        path: PathBuf,
        /// Its form.
        found: i64,
        /// The last form known here.
        known: i64,
    },
    /// One entry can no longer be read as it was written.
    #[error("Entry {id} (number {position} in this store) is damaged: {why}.")]
    EntryDamaged {
        /// The entry.
        id: EntryId,
        /// Where it lies.
        position: Position,
        /// What does not fit.
        why: String,
    },
    /// An entry is not accepted.
    #[error("Entry {id} was not recorded: {why}.")]
    Refused {
        /// The entry.
        id: EntryId,
        /// Why.
        why: Refusal,
    },
    /// Whoever was to write or hand over entries could not.
    #[error(transparent)]
    Declined(Box<dyn std::error::Error + Send + Sync>),
    /// There is no such attachment here.
    #[error("There is no attachment {sha256} here.")]
    NoAttachment {
        /// Its name.
        sha256: Digest,
    },
    /// An attachment's bytes are not those it is named after.
    #[error("Attachment {sha256} is not what its name says: {why}.")]
    AttachmentWrong {
        /// Its name.
        sha256: Digest,
        /// What does not fit.
        why: String,
    },
    /// An attachment is greater than the caller is ready to hold.
    #[error("Attachment {sha256} has {bytes} bytes; accepted here are up to {most}.")]
    AttachmentTooGreat {
        /// Its name.
        sha256: Digest,
        /// Its length.
        bytes: u64,
        /// The most accepted.
        most: u64,
    },
    /// The bytes of an attachment stopped coming.
    #[error("The attachment could not be read to its end ({0}); nothing was recorded.")]
    Source(#[source] io::Error),
    /// The disk or the database engine failed in some other way.
    #[error("The field book could not be used: {why} ({path}).")]
    Failed {
        /// What could not be used.
        path: PathBuf,
        /// What the system said.
        why: String,
    },
}

/// Why an entry is not accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Refusal {
    /// It belongs to another survey than the one written in.
    #[error("it belongs to survey {0}")]
    OtherSurvey(SurveyId),
    /// It was written by another device than the one writing.
    #[error("it was written by device `{0}`")]
    OtherDevice(String),
    /// It does not follow its device's last entry.
    #[error("it does not follow this device's last entry")]
    DoesNotFollow,
    /// It is not later than all that is kept.
    #[error("its time is not later than that of the entries before it")]
    NotLater,
    /// Its name is taken.
    #[error("another entry has the same name")]
    NameTaken,
    /// Its time is beyond the calendar.
    #[error("its time is beyond the year 9999")]
    BeyondCalendar,
    /// It names an attachment that is not here.
    #[error("it names attachment {0}, which is not here; put the attachment first")]
    AttachmentMissing(Digest),
    /// It states another length than its attachment has.
    #[error("it says that attachment {sha256} has {said} bytes, but it has {found}")]
    AttachmentLength {
        /// The attachment.
        sha256: Digest,
        /// What the entry says.
        said: u64,
        /// What it has.
        found: u64,
    },
    /// Its line is empty or not what its fields say.
    #[error("its line cannot be read back: {0}")]
    Unreadable(String),
}

impl StoreFault {
    /// Sorts an input or output error of the file system.
    pub(crate) fn io(path: impl Into<PathBuf>, fault: io::Error) -> Self {
        let path = path.into();
        match fault.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::Full { path },
            io::ErrorKind::ReadOnlyFilesystem | io::ErrorKind::PermissionDenied => Self::ReadOnly { path },
            _ => Self::Failed { path, why: fault.to_string() },
        }
    }
}
