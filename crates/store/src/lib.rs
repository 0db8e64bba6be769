//! Where entries and attachments are kept, and how they travel.
//!
//! For: keeping the record of surveys so that nothing acknowledged is ever lost and nothing kept is ever changed;
//! handing entries and attachments to whoever lacks them, one by one or as a package; proving that all still fits.
//! Not for: what entries mean (room `survey`), who may read them (room `server`). An entry is kept as its exact line,
//! the bytes its hash is of. Attachments are kept beside the entries and named by their SHA-256.
//!
//! Two stores are here: [`SqliteStore`] (one folder, no set-up) and [`MemoryStore`] (tests, try-outs). Others can
//! come behind the [`Store`] trait, which knows nothing of files or SQL.
//!
//! What is not proven: hashes and chains show any change made to some of the record, by accident or on purpose. They
//! do not show a record that someone wrote anew from beginning to end; for that, deposit the digest elsewhere.
//!
//! Read first: [`Store`], [`SqliteStore`], [`verify`], [`package`].
//!
//! ```
//! use store::{MemoryStore, Store, write_down};
//! use survey::{EntryId, SurveyId, payload::{Brief, Payload}};
//! let store = MemoryStore::default();
//! let survey = SurveyId::from_bits(1);
//! let brief = Payload::from(Brief { purpose: "pre-purchase".into(), ..Brief::default() });
//! write_down(&store, survey, "A. Surveyor", "office", 1_780_000_000_000, &[(EntryId::from_bits(2), brief)])?;
//! assert_eq!(store.state(survey)?.brief().unwrap().payload.purpose, "pre-purchase");
//! assert!(store::verify(&store)?.fits());
//! # Ok::<(), store::StoreFault>(())
//! ```

mod admission;
mod checked;
mod fault;
#[cfg(feature = "disk")]
mod folder;
mod kept;
mod memory;
mod named;
pub mod package;
#[cfg(feature = "disk")]
pub mod secret_file;
#[cfg(feature = "disk")]
mod sqlite;
mod store;
mod verify;
mod write_down;

pub use checked::copy_attachment_bytes;
pub use fault::{Refusal, StoreFault};
pub use kept::{Head, KeptAttachment, KeptEntry, Position, SurveyKept, Taken};
pub use memory::MemoryStore;
pub use named::Named;
#[cfg(feature = "disk")]
pub use sqlite::{SqliteOptions, SqliteStore};
pub use store::{AttachmentRead, Incoming, Store, Writer};
pub use verify::{Misfit, Verified, verify};
pub use write_down::write_down;
