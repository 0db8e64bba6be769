//! A client's link to one report that went out.

use super::{empty, far_day};
use crate::{Digest, EntryId};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// A link that opens one report that went out, read only, until a day. Withdrawing the entry revokes the link. The
/// secret in the link is not in the record, only its digest: whoever reads the field book cannot make the link from it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClientLink {
    /// The report that went out.
    pub report: EntryId,
    /// SHA-256 of the secret in the link, 64 hexadecimal digits.
    pub token_sha256: Digest,
    /// To whom it was given.
    pub to: String,
    /// The last day on which it opens, in Universal Time.
    pub until: Date,
}

impl ClientLink {
    /// Returns the secret of a link, as it stands in the address, from 32 random bytes.
    pub fn token(random: [u8; 32]) -> String {
        random.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// Returns where a link leads, under the address of a server.
    pub fn path(token: &str) -> String {
        format!("/issued/{token}")
    }

    /// Tells whether this link has a secret of that digest and still opens on a day.
    pub fn opens(&self, token_sha256: Digest, today: Date) -> bool {
        self.token_sha256 == token_sha256 && today <= self.until
    }

    pub(super) fn impossible(&self) -> Option<String> {
        empty("to", &self.to).or_else(|| far_day("until", Some(self.until)))
    }
}
