//! The seal: statement, key and signature, as they lie beside the file.

use crate::{PublicKey, SecretKey, Statement};
use serde::{Deserialize, Serialize};
use survey::Digest;

/// Why a seal is not made, not read, or does not fit.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SealFault {
    /// There is no key in what was given.
    #[error("there is no key in it; accepted are 64 hexadecimal digits on a line of their own")]
    NoKey,
    /// The signer's name cannot be signed.
    #[error("the name of the signer is empty or has a line's end in it")]
    Name,
    /// The seal has a newer form.
    #[error("the seal has form {0}; this version reads form {form}", form = crate::FORM)]
    Form(u32),
    /// The text is no seal.
    #[error("this is not a seal: {0}")]
    Shape(String),
    /// The file is not the one that was signed.
    #[error("the file is not the one that was issued: its SHA-256 is {found}, and {signed} was signed")]
    OtherFile {
        /// Digest of the file at hand.
        found: Digest,
        /// Digest that was signed.
        signed: Digest,
    },
    /// The signature is not by this key, or the statement was changed after it was signed.
    #[error("the signature is not by this key, or the seal was changed after it was made")]
    NotByThisKey,
}

/// A statement with its signature.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seal {
    /// What is signed.
    #[serde(flatten)]
    pub statement: Statement,
    /// The signer's public key, for convenience: it proves nothing by itself, since a forger writes their own.
    pub public_key: String,
    /// The signature: Ed25519 (RFC 8032) over the statement's lines, 128 hexadecimal digits.
    pub signature: String,
}

impl Seal {
    /// Signs a statement.
    ///
    /// # Errors
    /// A name that cannot stand on one line.
    pub fn made(statement: Statement, key: &SecretKey) -> Result<Self, SealFault> {
        let signature = key.sign(&statement.message()?);
        Ok(Self { public_key: key.public().to_string(), signature, statement })
    }

    /// Reads a seal from the text beside a file.
    ///
    /// # Errors
    /// A text that is no seal, or one of a newer form.
    pub fn read(text: &str) -> Result<Self, SealFault> {
        let seal: Self = serde_json::from_str(text).map_err(|fault| SealFault::Shape(fault.to_string()))?;
        if seal.statement.form != crate::FORM {
            return Err(SealFault::Form(seal.statement.form));
        }
        Ok(seal)
    }

    /// Returns the text that lies beside the file.
    pub fn text(&self) -> String {
        // A seal is strings and numbers, which always serialise.
        serde_json::to_string_pretty(self).map(|text| text + "\n").unwrap_or_default()
    }

    /// Checks that the statement was signed by the holder of a key, whatever key the seal itself names.
    ///
    /// # Errors
    /// [`SealFault::NotByThisKey`].
    pub fn check_signature(&self, key: &PublicKey) -> Result<(), SealFault> {
        if key.verifies(&self.statement.message()?, &self.signature) { Ok(()) } else { Err(SealFault::NotByThisKey) }
    }

    /// Checks that a file is the one that the holder of a key issued.
    ///
    /// # Errors
    /// [`SealFault::OtherFile`] when the file was changed, [`SealFault::NotByThisKey`] when seal and key do not belong
    /// together.
    pub fn check(&self, file: &[u8], key: &PublicKey) -> Result<(), SealFault> {
        self.check_signature(key)?;
        let found = Digest::of(file);
        let length = u64::try_from(file.len()).ok();
        if found == self.statement.sha256 && length == Some(self.statement.bytes) {
            Ok(())
        } else {
            Err(SealFault::OtherFile { found, signed: self.statement.sha256 })
        }
    }
}
