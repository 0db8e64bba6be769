//! Names of entries and surveys, and digests.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest as _, Sha256};
use std::fmt;
use std::str::FromStr;
use uuid::Uuid;

/// Why a text is not an identifier or digest.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is not {wanted}")]
pub struct IdFault {
    /// What was given, shortened.
    pub given: String,
    /// What is accepted.
    pub wanted: &'static str,
}

impl IdFault {
    fn new(given: &str, wanted: &'static str) -> Self {
        Self { given: given.chars().filter(|c| !c.is_control()).take(50).collect(), wanted }
    }
}

macro_rules! uuid_id {
    ($(#[$about:meta])* $name:ident, $wanted:literal) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Uuid);

        impl $name {
            /// Returns the identifier made from a UUID that the caller drew (version 7).
            pub fn new(uuid: Uuid) -> Self {
                Self(uuid)
            }

            /// Returns an identifier from bare bits; for examples and tests.
            pub const fn from_bits(bits: u128) -> Self {
                Self(Uuid::from_u128(bits))
            }

            /// Returns the UUID.
            pub fn uuid(self) -> Uuid {
                self.0
            }

            /// Returns the last twelve hexadecimal digits: short enough to read out, long enough to be told apart.
            pub fn short(self) -> String {
                let text = self.0.simple().to_string();
                text[text.len() - 12..].to_owned()
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl FromStr for $name {
            type Err = IdFault;
            fn from_str(text: &str) -> Result<Self, IdFault> {
                Uuid::parse_str(text.trim()).map(Self).map_err(|_| IdFault::new(text, $wanted))
            }
        }
    };
}

uuid_id!(
    /// Names one entry: a UUID of version 7, drawn by the device that writes it.
    EntryId,
    "an entry's identifier (a UUID)"
);
uuid_id!(
    /// Names one survey: a UUID of version 7.
    SurveyId,
    "a survey's identifier (a UUID)"
);

/// A SHA-256 digest (FIPS 180-4), written as 64 hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// Returns the digest of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// Returns the digest whose 32 bytes these are.
    pub fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Returns its bytes.
    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Digest {
    type Err = IdFault;
    fn from_str(text: &str) -> Result<Self, IdFault> {
        let fault = || IdFault::new(text, "a SHA-256 digest (64 hexadecimal digits)");
        if text.len() != 64 || !text.bytes().all(|b| b.is_ascii_hexdigit() && !b.is_ascii_uppercase()) {
            return Err(fault());
        }
        let mut bytes = [0; 32];
        for (byte, pair) in bytes.iter_mut().zip(text.as_bytes().chunks(2)) {
            let pair = std::str::from_utf8(pair).map_err(|_| fault())?;
            *byte = u8::from_str_radix(pair, 16).map_err(|_| fault())?;
        }
        Ok(Self(bytes))
    }
}

impl Serialize for Digest {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Digest {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<str>::deserialize(from)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}
