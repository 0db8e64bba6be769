//! A surveyor's signature over a report as it went out.
//!
//! For: binding together the bytes of a report, the field book it was made from, its version, day and signer, so that a
//! stranger with the surveyor's public key can tell whether a file is what was issued. The signature is Ed25519 (RFC
//! 8032) and lies beside the file as a few lines of JSON, described in `docs/seal.md`. Not for: keeping keys (the
//! desk does), saying whose a key is (whoever hands it over does), or dating by a third party (RFC 3161 time-stamps).
//!
//! No input or output, no clock, no randomness: the 32 secret bytes are handed in.
//!
//! Read first: [`SecretKey`], [`Statement`], [`Seal`].
//!
//! ```
//! use seal::{Seal, SecretKey, Statement};
//! use survey::{Digest, SurveyId};
//! let key = SecretKey::from_bytes(&[7; 32]);
//! let file = b"%PDF-1.7 a report";
//! let statement = Statement::of(file, SurveyId::from_bits(1), 1, jiff::civil::date(2026, 6, 4), "A. Surveyor",
//!     Digest::of(b"the field book"));
//! let seal = Seal::made(statement, &key)?;
//! assert!(seal.check(file, &key.public()).is_ok());
//! assert!(seal.check(b"%PDF-1.7 a rePort", &key.public()).is_err());
//! # Ok::<(), seal::SealFault>(())
//! ```

mod key;
mod sealed;
mod statement;

pub use key::{PublicKey, SecretKey};
pub use sealed::{Seal, SealFault};
pub use statement::{FORM, Statement};
