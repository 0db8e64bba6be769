//! Why a package cannot be written or read.

use crate::StoreFault;
use std::io;
use survey::{Digest, EntryId, SurveyId};

/// Why a package cannot be written or read. A package that cannot be read has changed nothing.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PackageFault {
    /// It is no package, or only part of one.
    #[error("This is not a whole package ({why}); nothing was changed, so fetch or copy it again.")]
    NotWhole {
        /// What is wrong.
        why: String,
    },
    /// A later version of the program wrote it.
    #[error(
        "This package was written by a newer version (form {found}; this version reads forms up to {known}); nothing \
         was changed, so update the program."
    )]
    Newer {
        /// Its form.
        found: u32,
        /// The last form known here.
        known: u32,
    },
    /// It has a member that no package has.
    #[error("The package has a member `{name}` that does not belong in it ({why}); nothing was changed.")]
    Member {
        /// The member, as written, shortened.
        name: String,
        /// What is wrong.
        why: String,
    },
    /// It is greater than allowed.
    #[error("The package is too great: {what}, accepted are {most}; nothing was changed.")]
    TooGreat {
        /// What there is too much of, and how much.
        what: String,
        /// The most accepted.
        most: u64,
    },
    /// A line is not an entry, or not the one that was packed.
    #[error("Line {line} of the package's entries{}: {why}; nothing was changed.", of(id))]
    Entry {
        /// The line, counted from 1.
        line: u64,
        /// The entry, if it can be told.
        id: Option<EntryId>,
        /// What is wrong.
        why: String,
    },
    /// A survey's entries are not those that the package says it holds.
    #[error(
        "The package does not hold the entries that it says it holds of survey {survey} ({why}); nothing was changed."
    )]
    Survey {
        /// The survey.
        survey: SurveyId,
        /// What is wrong.
        why: String,
    },
    /// An attachment is missing or not what its name says.
    #[error("Attachment {sha256}{}: {why}; nothing was changed.", of(entry))]
    Attachment {
        /// The attachment.
        sha256: Digest,
        /// The entry that names it, if any.
        entry: Option<EntryId>,
        /// What is wrong.
        why: String,
    },
    /// There is no such survey to be packed.
    #[error("There is no survey {0} here to be packed.")]
    NoSurvey(SurveyId),
    /// The package could not be written.
    #[error("The package could not be written ({0}); delete what there is of it.")]
    Write(#[source] io::Error),
    /// The store could not give or take what the package holds.
    #[error(transparent)]
    Store(#[from] StoreFault),
}

fn of(id: &Option<EntryId>) -> String {
    id.map_or(String::new(), |id| format!(" (entry {id})"))
}
