//! Keys, and how they are written.

use crate::SealFault;
use ed25519_dalek::{Signer as _, SigningKey, VerifyingKey};
use std::fmt;
use std::fmt::Write as _;
use std::str::FromStr;

/// A surveyor's secret key. It is wiped from memory when dropped, and never printed.
pub struct SecretKey(SigningKey);

impl SecretKey {
    /// Returns the key of 32 secret bytes, which the caller drew at random.
    pub fn from_bytes(secret: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(secret))
    }

    /// Reads a key from the text of its file.
    ///
    /// # Errors
    /// A text that holds no 64 hexadecimal digits on a line of their own.
    pub fn read(text: &str) -> Result<Self, SealFault> {
        let line = content(text).ok_or(SealFault::NoKey)?;
        Ok(Self::from_bytes(&bytes::<32>(line).ok_or(SealFault::NoKey)?))
    }

    /// Returns the text of its file. Whoever reads it can sign as the surveyor.
    pub fn text(&self) -> String {
        format!(
            "# A surveyor's secret key (Ed25519). Whoever has it can sign as the surveyor: keep it to yourself.\n{}\n",
            hex(self.0.as_bytes())
        )
    }

    /// Returns the key to give away.
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key())
    }

    pub(crate) fn sign(&self, message: &[u8]) -> String {
        hex(&self.0.sign(message).to_bytes())
    }
}

impl fmt::Debug for SecretKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "SecretKey(of {})", self.public())
    }
}

/// The key by which a surveyor's signature is checked; written as 64 hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

impl PublicKey {
    /// Reads a key from a file's text: 64 hexadecimal digits on a line; lines that begin with `#` are passed over.
    ///
    /// # Errors
    /// A text that holds no such line, or digits that are no point of the curve.
    pub fn read(text: &str) -> Result<Self, SealFault> {
        content(text).ok_or(SealFault::NoKey)?.parse()
    }

    /// Returns the text of its file.
    pub fn text(&self, whose: &str) -> String {
        let whose: String = whose.chars().filter(|c| !c.is_control()).collect();
        format!("# Public key (Ed25519) of {whose}, by which signatures under reports are checked.\n{self}\n")
    }

    pub(crate) fn verifies(&self, message: &[u8], signature: &str) -> bool {
        let Some(signature) = bytes::<64>(signature) else { return false };
        // Strict: forms of a signature that RFC 8032 leaves open are refused, so that there is one signature only.
        self.0.verify_strict(message, &ed25519_dalek::Signature::from_bytes(&signature)).is_ok()
    }
}

impl FromStr for PublicKey {
    type Err = SealFault;
    fn from_str(text: &str) -> Result<Self, SealFault> {
        let bytes = bytes::<32>(text.trim()).ok_or(SealFault::NoKey)?;
        VerifyingKey::from_bytes(&bytes).map(Self).map_err(|_| SealFault::NoKey)
    }
}

impl fmt::Display for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex(self.0.as_bytes()))
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// Returns the first line that says something.
fn content(text: &str) -> Option<&str> {
    text.lines().map(str::trim).find(|line| !line.is_empty() && !line.starts_with('#'))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    })
}

fn bytes<const N: usize>(text: &str) -> Option<[u8; N]> {
    let good = text.len() == 2 * N && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
    if !good {
        return None;
    }
    let mut out = [0; N];
    for (byte, pair) in out.iter_mut().zip(text.as_bytes().chunks(2)) {
        *byte = u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok()?;
    }
    Some(out)
}
