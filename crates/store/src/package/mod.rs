//! Packages: surveys as one file, to carry on a stick, send or lay away.
//!
//! A package is a zip archive with these members and no others:
//!
//! ```text
//! package.json            form of the package, surveys, counts, digests, attachments
//! hashes.txt              SHA-256 of each line of entries.jsonl, in the same order, one a line
//! entries.jsonl           the entries, each its exact line
//! attachments/ab/abcdef…  the attachments, each named by the SHA-256 of its bytes
//! ```
//!
//! Writing streams. Reading goes over the package twice: the first time it checks everything and changes nothing, the
//! second time it records. Reading the same package again changes nothing.
//!
//! ```
//! use store::{MemoryStore, Store, package, write_down};
//! use survey::{EntryId, SurveyId, payload::{Brief, Payload}};
//! let (office, yard) = (MemoryStore::default(), MemoryStore::default());
//! let survey = SurveyId::from_bits(1);
//! let brief = Payload::from(Brief { purpose: "pre-purchase".into(), ..Brief::default() });
//! write_down(&office, survey, "A. Surveyor", "office", 1_780_000_000_000, &[(EntryId::from_bits(2), brief)])?;
//! let mut file = Vec::new();
//! package::export(&office, &[survey], &Default::default(), &mut file)?;
//! let imported = package::import(&yard, std::io::Cursor::new(&file), &Default::default())?;
//! assert_eq!(imported.entries.new, 1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod export;
mod fault;
mod import;
mod inspect;
mod limits;
mod manifest;
mod members;

pub use export::{ExportOptions, Exported, export};
pub use fault::PackageFault;
pub use import::{Imported, import};
pub use limits::Limits;
